/** The worksheet API that cells use: givens in, results derived, alternatives decided, requirements judged, results published. */
import type { Arrangement, Series } from "../graph/preferred";
import type { Dim } from "../quantity/dimension-types";
import { WorkingsError } from "../quantity/error";
import type { DimOf, Quantity, Shown, Unit } from "../quantity/quantity";
import {
  type Alternative,
  type Alternatives,
  type DecideOptions,
  decide,
  evaluateAlternatives,
  type FitsAlternative,
  type FitsCriteria,
  type FitsResults,
  type Results,
} from "./alternatives";
import { caution, publish } from "./announce";
import { assume, confirm } from "./assumption";
import type { Curve } from "./curve";
import { type Arguments, derive } from "./derive";
import { type DrawOptions, draw } from "./draw";
import { runningCell } from "./emit";
import { type FitsSpec, type GivenSpec, type Givens, readGivens } from "./given";
import type { CheckedLaw, Derived, FitsLaw, Trailing } from "./law-types";
import { type PlotOptions, plot } from "./plot-call";
import { findProject, sheetName } from "./project";
import { showBatch, showReading } from "./reading";
import { requireResult } from "./requirement";
import { type CollectOptions, collect, contribute } from "./roll-up";
import { part, type SelectedPair, type SelectOptions, select, selectPair, setOnce } from "./select";
import { type AnyQuantity, Session } from "./session";
import { type StatesOptions, showStates } from "./states";
import { type SweepEnds, type SweepOptions, sweep } from "./sweep";
import { type EachOf, each, type Members, table } from "./table";
import { type FitsTake, type Taken, type TakeSpec, take } from "./take";

/**
 * Opens a worksheet of the book in whose folder the notebook lies. `name` is the sheet's name in book.yaml,
 * and the first part of the ids of its results. Throws where there is no book, or the design file is wrong.
 */
export function worksheet(name: string): Worksheet {
  checkName(name);
  const { design, notebooks } = findProject();
  return new Worksheet(new Session(name, design), notebooks);
}

/** Two sheets of one name would mix their results: where the runner tells which notebook runs, its file's name decides. */
function checkName(name: string): void {
  const cell = runningCell();
  if (!cell?.notebook.endsWith(".ipynb") || sheetName(cell.notebook) === name) return;
  const own = sheetName(cell.notebook);
  throw new WorkingsError(
    "worksheet",
    `worksheet("${name}") stands in ${cell.notebook}, which is the sheet "${own}"; write worksheet("${own}"), or rename the notebook`,
  );
}

/** One worksheet: one question, answered from the design file. Made by {@link worksheet}. */
export class Worksheet {
  /** @internal */
  readonly session: Session;

  /** @internal */
  constructor(
    session: Session,
    /** Where the other sheets' notebooks are. */
    private readonly folder: string = process.cwd(),
  ) {
    this.session = session;
  }

  /**
   * Takes givens from the design file: `{ V_s: ["rails.logic", volt] }`; a table with the units of both its
   * columns: `{ iv: ["indicators.green.iv", volt, mA] }`. Shown as the table of givens.
   * Throws, naming line and column of the design file, where a path is unknown or of another dimension.
   */
  given<G extends GivenSpec>(spec: G & FitsSpec<G>): Givens<G> {
    return readGivens(this.session, spec);
  }

  /**
   * Takes results that other sheets have published, with their lineage: `{ R: ["indicators.R_green", ohm] }`. They
   * follow the design file as it is now. Throws where a sheet has not run or publishes no such name.
   */
  take<T extends TakeSpec>(spec: T & FitsTake<T>): Taken<T> {
    return take(this.session, this.folder, spec);
  }

  /**
   * Computes a result from a law.
   *
   * As text, `derive("R_g = (V_s - V_g)/I_g", green, ohm, "series resistor of the green indicator")`: checked by the
   * compiler against the dimensions of `args`; the last argument says in words what comes out.
   * By a formula of the physics modules, `derive(light.seriesResistor, { V_s, V_f, I }, ohm)`.
   * By a model, `derive(light.operatingPoint, { … }, { name: "green" })`: gives its outputs by name.
   * Shows the law, the law with numbers, and the result with worst case and 95 % interval.
   */
  derive<const L, A, U>(law: CheckedLaw<L, A, U>, args: FitsLaw<L, A>, ...rest: Trailing<L, U>): Derived<L, U>;
  derive(law: unknown, args: unknown, third?: unknown, fourth?: unknown): unknown {
    return derive(this.session, law, args as Arguments, third, fourth);
  }

  /**
   * The preferred value for a computed one: `select(R_g, E24, "indicators.resistor")`, where the path names the given
   * with the part's tolerance. Chosen again when nominal inputs move, fixed while tolerances vary.
   */
  select<D extends Dim>(of: Quantity<D>, series: Series, tolerance: string, options?: SelectOptions): Quantity<D> {
    return select(this.session, of, series, tolerance, options);
  }

  /**
   * A value fixed from nominals and then the same in every unit: a calibration constant, a scale in firmware, a threshold in code:
   * `setOnce(V_low)`. Set again when nominal inputs change; neither tolerances nor conditions of use move it.
   */
  setOnce<D extends Dim>(of: Quantity<D>): Quantity<D> {
    return setOnce(this.session, of);
  }

  /**
   * Two preferred values for a computed one, joined in "series" (values add) or "parallel" (reciprocals add):
   * `selectPair(R, E24, "series", "indicators.resistor").together`. Each part has its own draw of the tolerance.
   */
  selectPair<D extends Dim>(
    of: Quantity<D>,
    series: Series,
    joined: Arrangement,
    tolerance: string,
    options?: SelectOptions,
  ): SelectedPair<D> {
    return selectPair(this.session, of, series, joined, tolerance, options);
  }

  /**
   * One more part of a kind that the design file states once, such as one of three light pipes: same value and
   * tolerance, drawn independently of the others. `name` tells the parts apart.
   */
  part<U extends Unit<any>>(name: string, path: string, unit: U): Shown<DimOf<U>, U>;
  part(name: string, path: string, unit: Unit<any>): AnyQuantity {
    return part(this.session, name, path, unit);
  }

  /** Evaluates the same formulas once per alternative, quietly; names derived inside are the alternative's own. */
  alternatives<A, R>(
    name: string,
    list: Readonly<Record<string, FitsAlternative<A>>>,
    evaluate: (alternative: A, name: string) => FitsResults<R>,
  ): Alternatives<R>;
  alternatives<A extends Alternative, R extends Results>(
    name: string,
    list: Readonly<Record<string, A>>,
    evaluate: (alternative: A, name: string) => R,
  ): Alternatives<R> {
    return evaluateAlternatives(this.session, name, list, evaluate);
  }

  /**
   * Applies the same formulas to several things, quietly, names kept apart: `each("colour", { green, red }, led => ({ … }))`.
   * Shows the laws once and the results as a table when it has a caption. So a helper may derive the same names for several
   * cases: `each("ambient", { field, dawn }, T => feed(T))`.
   */
  each<L extends Members, R>(
    name: string,
    members: L,
    evaluate: (member: L[keyof L], name: string) => FitsResults<R>,
    caption?: string,
  ): EachOf<L, R>;
  each<L extends Members, R extends Results>(
    name: string,
    members: L,
    evaluate: (member: L[keyof L], name: string) => R,
    caption?: string,
  ): EachOf<L, R> {
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
  decide<R extends Results, C>(alternatives: Alternatives<R>, options: DecideOptions<R> & { readonly criteria: C } & FitsCriteria<R, C>): R;
  decide<R extends Results>(alternatives: Alternatives<R>, options: DecideOptions<R>): R {
    return decide(this.session, alternatives, options);
  }

  /** Holds a result against requirement `id` of the design file and shows the verdict. */
  require(result: AnyQuantity, id: string): void {
    requireResult(this.session, result, id);
  }

  /** The curve of a result over one of its givens, between the given's limits unless told otherwise. */
  sweep<Y extends Dim, X extends Dim, F extends AnyQuantity, T extends AnyQuantity>(
    result: Quantity<Y>,
    over: Quantity<X>,
    options?: SweepOptions<X, F, T>,
  ): Curve<X, Y>;
  sweep<Y extends Dim, X extends Dim>(result: Quantity<Y>, over: Quantity<X>, options?: SweepEnds): Curve<X, Y> {
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

  /** Shows the power states `id` of the design file, with the current of each: every event in every state. */
  states(id: string, options: StatesOptions): void {
    showStates(this.session, id, options);
  }

  /** Adds items to a roll-up of the book: `contribute("mass", { shell: m_s, clip: m_c })`. */
  contribute(budget: string, items: Readonly<Record<string, AnyQuantity>>): void {
    contribute(this.session, budget, items);
  }

  /** The sum of what every sheet of the book has contributed to a roll-up. */
  collect<D extends Dim>(budget: string, unit: Unit<D>, options: CollectOptions): Quantity<D> {
    return collect(this.session, this.folder, budget, unit, options);
  }

  /** A given that stands for a result of a later sheet, which will confirm it: `assume("play", "budget.play", mW)`. */
  assume<U extends Unit<any>>(name: string, path: string, unit: U): Shown<DimOf<U>, U>;
  assume(name: string, path: string, unit: Unit<any>): AnyQuantity {
    return assume(this.session, name, path, unit);
  }

  /** Sets a result beside the assumption of another sheet that stood for it: `confirm("indicators.play", P)`. */
  confirm(assumption: string, computed: AnyQuantity): void {
    confirm(this.session, this.folder, assumption, computed);
  }

  /**
   * Sets reading `id` of the design file beside the result that it tests. One that is called evidence there (`evidence: true`) narrows what
   * is not known of the givens behind the result, for all that follows; it stands above the requirements that it bears on.
   */
  reading(id: string, result: AnyQuantity): void {
    showReading(this.session, id, result);
  }

  /** Sets the readings of the pilot batch `id` of the design file beside the given that says how units differ. */
  batch(id: string): void {
    showBatch(this.session, id);
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
