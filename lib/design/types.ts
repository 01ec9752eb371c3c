/** What a design file says, as readonly data, and the one object through which a worksheet asks for it. */
import type { JudgedBy, Limit } from "../analysis/result";
import type { GivenNode, TableNode } from "../graph/node";
import type { Spread } from "../quantity/spread";
import type { StateTable } from "./power-states";

/** A source in the fields of CSL-JSON (Citation Style Language), with its key in the design file as `id`. */
export interface CslItem {
  readonly id: string;
  readonly type: string;
  readonly title: string;
  readonly [field: string]: unknown;
}

/** One requirement. The limit is in coherent SI; `unit` is the unit in which the file states it. */
export interface RequirementRow {
  readonly id: string;
  readonly statement: string;
  readonly limit: Limit;
  /** The limit as the file states it: `<= 1.3`. */
  readonly text: string;
  /** Symbol of the unit of the limit; `1` for a plain number. */
  readonly unit: string;
  /** Dimension key of the limit. */
  readonly dimension: string;
  readonly judged: JudgedBy;
  /** Conditions: load, ambient, where it is measured. */
  readonly where?: string;
  readonly source?: string;
  readonly note?: string;
  readonly place: string;
}

/** Which alternative the file has chosen. The options are known to the worksheet that weighs them. */
export interface DecisionRow {
  /** `decisions.indicators.rail`. */
  readonly path: string;
  readonly chosen: string;
  /** Why this one; Markdown. */
  readonly reason: string;
  /** What would change our mind; Markdown. */
  readonly reconsider: string;
  /** Of the chosen name. */
  readonly place: string;
}

/** A block of the product; ids of other blocks in `signal`, `power` and `return`. */
export interface BlockRow {
  readonly id: string;
  readonly name: string;
  readonly does: string;
  readonly signal: readonly string[];
  readonly power: readonly string[];
  readonly return: readonly string[];
  /** Path of a given, or a result as sheet.name. */
  readonly voltage?: string;
  readonly efficiency?: string;
  readonly loses?: string;
  readonly draws?: string;
  /** What it is for, in one figure: the loss of a filter, the current that a clamp leaves over. */
  readonly shows?: string;
  /** Said beside its figures: where they are counted. */
  readonly note?: string;
}

/** A table of power states, complete and sound. */
export interface StatesRow {
  readonly id: string;
  readonly table: StateTable;
  readonly note?: string;
  readonly place: string;
}

/** A value measured on a prototype, set beside the result that it tests. */
export interface Reading {
  readonly id: string;
  /** Sheet and name of the result: `indicators.I_green`. */
  readonly result: string;
  readonly text: string;
  readonly nominal: number;
  /** Of the instrument. */
  readonly spread: Spread;
  readonly unit: string;
  readonly dimension: string;
  /** Present where it narrows what is not known of the givens behind the result. */
  readonly evidence?: true;
  readonly specimen?: string;
  readonly source: string;
  readonly note?: string;
  readonly place: string;
}

/** What was read on the units of a pilot batch, beside the given that says how units differ. */
export interface Batch {
  readonly id: string;
  /** Path of the given. */
  readonly given: string;
  /** One a unit, SI. */
  readonly values: readonly number[];
  readonly csv: string;
  readonly source: string;
  readonly note?: string;
  readonly place: string;
}

/** The correlation of two givens. */
export interface CorrelationRow {
  readonly between: readonly [path: string, path: string];
  /** Of their values, −1 to 1. JCGM 100:2008 5.2.2. */
  readonly coefficient: number;
  readonly source: string;
  readonly note?: string;
}

/** A cause that several givens, and all parts of each, have in common: any two of them are correlated by the share. */
export interface CommonRow {
  readonly name: string;
  readonly paths: readonly string[];
  /** Of each one's variance, 0 to 1. */
  readonly share: number;
  readonly reason: string;
  readonly source: string;
  readonly note?: string;
}

export interface Product {
  readonly name: string;
  readonly title?: string;
  readonly revision: string;
  readonly note?: string;
}

/** A list of preferred numbers or the like, that no quantity of a design is. */
export interface ReferenceList {
  readonly name: string;
  readonly meaning: string;
  readonly values: readonly number[];
  readonly source: string;
  readonly place: string;
}

/** All reference tables: their quantities and tables by path (`reference.constants.k`), lists, and sources. */
export interface ReferenceTables {
  readonly nodes: ReadonlyMap<string, GivenNode | TableNode>;
  readonly lists: ReadonlyMap<string, ReferenceList>;
  readonly sources: ReadonlyMap<string, CslItem>;
  /** Text of each entry as written, by path. */
  readonly texts: ReadonlyMap<string, string>;
}

/** A design file that has been read and found right. */
export interface Design {
  readonly fileName: string;
  readonly name: string;
  readonly title?: string;
  readonly revision: string;
  readonly note?: string;
  /** Keyed as the file does; sources of reference tables as `reference.<table>.<key>`. */
  readonly sources: ReadonlyMap<string, CslItem>;
  readonly blocks: readonly BlockRow[];
  readonly readings: readonly Reading[];
  readonly stateTables: readonly StatesRow[];
  readonly batches: readonly Batch[];
  readonly correlations: readonly CorrelationRow[];
  readonly common: readonly CommonRow[];
  /** The given or table at a path, `reference.…` included. Throws with the nearest paths where there is none. */
  given(path: string): GivenNode | TableNode;
  /** Paths of all givens, in the order of the file. */
  paths(): readonly string[];
  /** Throws with the nearest ids where there is none. */
  requirement(id: string): RequirementRow;
  requirements(): readonly RequirementRow[];
  /** Throws with the nearest ids where there is none. */
  reading(id: string): Reading;
  /** Throws with the nearest ids where there is none. */
  batch(id: string): Batch;
  /** Throws with the nearest ids where there is none. */
  states(id: string): StatesRow;
  /** What the file chose at `decisions.<sheet>.<name>`. Throws with the nearest paths where there is none. */
  decision(path: string): DecisionRow;
  decisions(): readonly DecisionRow[];
  /** `data/bittern/design.yaml:41:12`: where the value of a given, decision or reference stands; undefined where the file states none of that path. */
  place(path: string): string | undefined;
  /** What the file says at a path, word for word: for finding out whether something that was read has changed. */
  text(path: string): string;
}
