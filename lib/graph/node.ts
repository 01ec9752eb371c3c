/**
 * The nodes of the book's directed acyclic graph, as plain data: what is stored in a notebook's outputs, what
 * the page recalculates. A node never holds a value that was computed, only what it is computed from.
 * All numbers are coherent SI (temperatures in kelvin).
 */
import type { Expression } from "../formula/expression";
import type { NumericalUnits } from "../formula/formula";
import type { ValidityLimit } from "../formula/validity";
import type { Spread } from "../quantity/spread";

export type { ValidityLimit } from "../formula/validity";

/**
 * Stable identity: `givens.logic.supply` for a given (`logic.supply` is its path in the design file), `reference.constants.k` for a row
 * of a reference table, `decisions.indicators.rail` for a choice, `givens.logic.supply#indicators.R` for one more part drawn from a given, `indicators.R_g` for a named result of a sheet,
 * `indicators.rail[logic].R_g` within one alternative, `~` + hash of content for an unnamed intermediate.
 */
export type NodeId = string;

interface NodeCommon {
  readonly id: NodeId;
  /** Canonical SI string with optional kind, as in `Dimension.key`; of the ordinate for curves and tables. */
  readonly dimension: string;
  /** Symbol of the display unit. */
  readonly unit: string;
  readonly symbol?: string;
  readonly meaning?: string;
}

/** Where a given's value comes from. */
export interface Provenance {
  /** Key in the design file's `sources`, or of a reference table. */
  readonly source: string;
  readonly note?: string;
  /** True where the value was not looked up for this design. */
  readonly fromMemory?: boolean;
  /** `data/bittern/design.yaml:41:12`. */
  readonly place?: string;
}

/**
 * What a given has in common with others. Its draws follow a normal score, Σ weight·(score of what is shared) + √(1 − Σ weight²)·(score
 * of its own), turned into its distribution by equal probability. `with`: a given, by id; `common`: a cause that many givens
 * and all parts of one path have alike.
 */
export type SharedPart = { readonly with: NodeId; readonly weight: number } | { readonly common: string; readonly weight: number };

export interface GivenNode extends NodeCommon {
  readonly kind: "given";
  /** Path in the design file; several nodes with one path are separate parts drawn independently. */
  readonly path: string;
  /** Value and spread as the design file states them: `4.5 V ±2 %`. */
  readonly text: string;
  readonly nominal: number;
  readonly spread: Spread;
  /** Present where the spread is of knowledge: one true value that nobody has, the same in every unit. Else units differ by it. */
  readonly knowledge?: true;
  /**
   * What is not known beside a spread of production: that of the true middle of the units, about the same nominal and on the same scale.
   * The two add, as deviations on that scale.
   */
  readonly doubt?: Spread;
  /**
   * How far a sensitivity moves it to either side, where the design file says so: SI, kelvin for a point of temperature; of a unit in
   * decibels the factor.
   */
  readonly step?: number;
  /** Absent where it is independent of every other given. A further part of the path shares only what is common. */
  readonly shared?: readonly SharedPart[];
  readonly provenance: Provenance;
}

/** A given made of rows; y as a function of x, x strictly increasing. */
export interface TableNode extends NodeCommon {
  readonly kind: "table";
  readonly path: string;
  readonly xName: string;
  readonly yName: string;
  readonly xDimension: string;
  readonly xUnit: string;
  readonly x: readonly number[];
  readonly y: readonly number[];
  /** `linear`; `log-y`: ln y against x; `log-log`; `monotone`: monotone cubic (Fritsch and Carlson 1980). */
  readonly interpolation: "linear" | "log-y" | "log-log" | "monotone";
  readonly provenance: Provenance;
}

/** A discrete given: which alternative a decision has chosen. */
export interface ChoiceNode extends NodeCommon {
  readonly kind: "choice";
  /** `decisions.indicators.rail`. */
  readonly path: string;
  readonly options: readonly string[];
  readonly chosen: string;
  readonly provenance: Provenance;
}

export interface ConstantNode extends NodeCommon {
  readonly kind: "constant";
  readonly value: number;
}

/** A bare number made after results were read out of the graph: it no longer follows them. */
interface FrozenNode extends NodeCommon {
  readonly kind: "frozen";
  readonly value: number;
  readonly reads: readonly NodeId[];
}

export interface FormulaNode extends NodeCommon {
  readonly kind: "formula";
  /** The law as written, without `name =`. */
  readonly text: string;
  readonly expression: Expression;
  readonly arguments: Readonly<Record<string, NodeId>>;
  readonly source?: string;
  readonly valid?: readonly ValidityLimit[];
  /** Present for a numerical value equation (ISO 80000-1): symbols are numbers in stated units. */
  readonly numerical?: NumericalUnits;
}

/** One output of a registered model (a pure function of numbers, tables and curves). */
export interface ModelNode extends NodeCommon {
  readonly kind: "model";
  /** `light.operatingPoint`. */
  readonly model: string;
  readonly output: string;
  readonly arguments: Readonly<Record<string, NodeId>>;
}

/** A preferred value of an IEC 60063 series; re-chosen when nominal inputs move, fixed while tolerances vary. */
export interface SelectNode extends NodeCommon {
  readonly kind: "select";
  readonly of: NodeId;
  readonly series: "E3" | "E6" | "E12" | "E24" | "E48" | "E96" | "E192";
  readonly rule: "nearest" | "not below" | "not above";
  /** Where two parts stand for one value: how they are joined, and which of them this node is. */
  readonly pair?: { readonly joined: "series" | "parallel"; readonly part: "larger" | "smaller" };
  /** Given with the part's relative deviation (nominal 0, spread ±0.01): the part is value·(1 + deviation). */
  readonly deviation?: NodeId;
}

/**
 * A value fixed from nominals and then the same in every unit: a calibration constant, a scale in firmware, a threshold in code. Follows
 * nominal inputs as a preferred value does; neither tolerances nor, in a sweep or a sensitivity, conditions of use move it.
 */
export interface SetOnceNode extends NodeCommon {
  readonly kind: "set-once";
  readonly of: NodeId;
}

/** The results of the alternative that a decision has chosen. */
export interface SwitchNode extends NodeCommon {
  readonly kind: "switch";
  readonly choice: NodeId;
  readonly cases: Readonly<Record<string, NodeId>>;
}

/** A curve: a result as a function of one of its givens, the others held. Selections are re-made at each point. */
export interface SweepNode extends NodeCommon {
  readonly kind: "sweep";
  readonly of: NodeId;
  readonly over: NodeId;
  readonly xDimension: string;
  readonly xUnit: string;
  readonly points: readonly number[];
}

/** A scalar taken from a curve or table. `argument` is x for `at` and y for `crossing`. */
export interface CurveOperationNode extends NodeCommon {
  readonly kind: "curve-operation";
  readonly operation: "at" | "maximum" | "minimum" | "crossing" | "integral";
  readonly of: NodeId;
  readonly argument?: NodeId;
}

/**
 * What was measured on a prototype beside the result that it tests. Nothing is computed from it; as evidence it narrows what is not
 * known of the givens behind the result.
 */
export interface ReadingNode extends NodeCommon {
  readonly kind: "reading";
  readonly of: NodeId;
  /** As the design file states it: `14.3 h ±0.2 h`. */
  readonly text: string;
  readonly nominal: number;
  /** Of the instrument. */
  readonly spread: Spread;
  readonly evidence?: true;
  readonly specimen?: string;
  readonly provenance: Provenance;
}

export type GraphNode =
  | GivenNode
  | TableNode
  | ChoiceNode
  | ConstantNode
  | FrozenNode
  | FormulaNode
  | ModelNode
  | SelectNode
  | SetOnceNode
  | SwitchNode
  | SweepNode
  | CurveOperationNode
  | ReadingNode;
