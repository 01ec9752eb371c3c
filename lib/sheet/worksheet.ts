/** The worksheet API that cells use: givens in, results derived, alternatives decided, requirements judged, results published. */
import type { AnyFormula, Formula } from "../formula/formula";
import type { CheckedText } from "../formula/text";
import type { AnyModel, Model, Slots } from "../graph/model";
import type { Series } from "../graph/preferred";
import type { Dim } from "../quantity/dimension-types";
import type { Quantity } from "../quantity/quantity";
import type { Unit } from "../quantity/quantity";
import { type Alternative, type Alternatives, decide, type DecideOptions, evaluateAlternatives, type Results } from "./alternatives";
import { caution, publish } from "./announce";
import type { Curve } from "./curve";
import { type AnyUnit, type Arguments, deriveFormula, deriveModel, type DeriveOptions, deriveText } from "./derive";
import { draw, type DrawOptions } from "./draw";
import { type Givens, type GivenSpec, readGivens } from "./given";
import type { FormulaArguments, ModelInputs, ModelOutputs } from "./law-types";
import { plot, type PlotOptions } from "./plot-call";
import { findProject } from "./project";
import { requireResult } from "./requirement";
import { part, select, type SelectOptions } from "./select";
import { type AnyQuantity, Session } from "./session";
import { sweep, type SweepOptions } from "./sweep";
import { each, type EachOf, type Members, table } from "./table";

/**
 * Opens a worksheet of the book in whose folder the notebook lies. `name` is the sheet's name in book.yaml,
 * and the first part of the ids of its results. Throws where there is no book, or the design file is wrong.
 */
export function worksheet(name: string): Worksheet {
  return new Worksheet(new Session(name, findProject().design));
}

/** One worksheet: one question, answered from the design file. Made by {@link worksheet}. */
export class Worksheet {
  /** @internal */
  readonly session: Session;

  /** @internal */
  constructor(session: Session) {
    this.session = session;
  }

  /**
   * Takes givens from the design file: `{ V_s: ["rails.logic", volt] }`; a table with the units of both its
   * columns: `{ iv: ["indicators.green.iv", volt, mA] }`. Shown as the table of givens.
   * Throws, naming line and column of the design file, where a path is unknown or of another dimension.
   */
  given<G extends GivenSpec>(spec: G): Givens<G> {
    return readGivens(this.session, spec);
  }

  /**
   * Computes a result from a law as text, `"R_g = (V_s - V_g)/I_g"`, checked by the compiler against the
   * dimensions of `args`; shows law, numbers and result. `meaning` says in words what comes out.
   */
  derive<const T extends string, A extends Arguments, U extends AnyUnit>(text: CheckedText<T, A, U>, args: A, unit: U, meaning: string): U extends Unit<infer D extends Dim> ? Quantity<D> : never;
  /** Computes a result by a formula of the physics modules. */
  derive<A, D extends Dim>(law: Formula<A, D>, args: FormulaArguments<A>, unit: Unit<D>, options?: DeriveOptions): Quantity<D>;
  /** Computes the outputs of a model of the physics modules; `name` goes before theirs (or is the only one's). */
  derive<I extends Slots, O extends Slots>(law: Model<I, O>, args: ModelInputs<I>, options: DeriveOptions): ModelOutputs<O>;
  derive(law: string | AnyFormula | AnyModel, args: Arguments, third: AnyUnit | DeriveOptions, fourth?: string | DeriveOptions): unknown {
    if (typeof law === "string") return deriveText(this.session, law, args, third as AnyUnit, fourth as string);
    if ("expression" in law) return deriveFormula(this.session, law, args, third as AnyUnit, fourth as DeriveOptions | undefined);
    return deriveModel(this.session, law, args, third as DeriveOptions);
  }

  /**
   * The preferred value for a computed one: `select(R_g, E24, "indicators.resistor")`, where the path names the given
   * with the part's tolerance. Chosen again when nominal inputs move, fixed while tolerances vary.
   */
  select<D extends Dim>(of: Quantity<D>, series: Series, tolerance: string, options?: SelectOptions): Quantity<D> {
    return select(this.session, of, series, tolerance, options);
  }

  /**
   * One more part of a kind that the design file states once, such as one of three light pipes: same value and
   * tolerance, drawn independently of the others. `name` tells the parts apart.
   */
  part<D extends Dim>(name: string, path: string, unit: Unit<D>): Quantity<D> {
    return part(this.session, name, path, unit);
  }

  /** Evaluates the same formulas once per alternative, quietly; names derived inside are the alternative's own. */
  alternatives<A extends Alternative, R extends Results>(name: string, list: Readonly<Record<string, A>>, evaluate: (alternative: A, name: string) => R): Alternatives<R> {
    return evaluateAlternatives(this.session, name, list, evaluate);
  }

  /**
   * Applies the same formulas to several things, quietly, names kept apart: `each("colour", { green, red }, led => ({ … }))`.
   * Shows the laws once and the results as a table when it has a caption.
   */
  each<L extends Members, R extends Results>(name: string, members: L, evaluate: (member: L[keyof L], name: string) => R, caption?: string): EachOf<L, R> {
    return each(this.session, name, members, evaluate, caption);
  }

  /** Shows results side by side: a row for each entry, a column for each of its results. */
  table(caption: string, rows: Readonly<Record<string, Readonly<Record<string, AnyQuantity>>>>): void {
    table(this.session, caption, rows);
  }

  /**
   * Shows the trade-off and returns the results of the alternative that the design file chooses at
   * `decisions.<sheet>.<name>`. The choice is flagged, never changed, when it misses a limit or is dominated.
   */
  decide<R extends Results>(alternatives: Alternatives<R>, options: DecideOptions<R>): R {
    return decide(this.session, alternatives, options);
  }

  /** Holds a result against requirement `id` of the design file and shows the verdict. */
  require(result: AnyQuantity, id: string): void {
    requireResult(this.session, result, id);
  }

  /** The curve of a result over one of its givens, between the given's limits unless told otherwise. */
  sweep<Y extends Dim, X extends Dim>(result: Quantity<Y>, over: Quantity<X>, options?: SweepOptions<X>): Curve<X, Y> {
    return sweep(this.session, result, over, options);
  }

  /** Draws curves, or the spreads of results side by side. */
  plot(options: PlotOptions): void {
    plot(this.session, options);
  }

  /** Shows a registered drawing to scale: `draw("light.pipe", { … })`. */
  draw(drawing: string, options: DrawOptions): void {
    draw(this.session, drawing, options);
  }

  /** A warning to whoever builds or uses the product, shown plainly. */
  caution(subject: string, text: string): void {
    caution(this.session, subject, text);
  }

  /** Hands results to other sheets, to claims and to the document, under the names given here. */
  publish(results: Readonly<Record<string, AnyQuantity>>): void {
    publish(this.session, results);
  }
}
