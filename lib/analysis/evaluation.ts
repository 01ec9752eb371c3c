/** Everything that can be asked about results: lazy, cached, pure. The graph may grow while it is asked. */

import { evaluationInputs } from "../graph/boundary";
import type { CurveData } from "../graph/curve";
import { differing, narrowed } from "../graph/differing";
import { type Changes, Graph, isEvidence } from "../graph/graph";
import { chosenNode } from "../graph/lower";
import type { NodeId, ReadingNode } from "../graph/node";
import { WorkingsError } from "../quantity/error";
import { analyse } from "./analysing";
import { type Ask, passesKey, verdictKey, yieldKey } from "./ask";
import { type Band, curveBand, sweepBand } from "./band";
import { type BriefFound, restoredWorst } from "./brief";
import { Earlier } from "./earlier";
import type { Learned } from "./evidence";
import { expandedUncertainty } from "./expanded";
import { type EvaluationData, Found, type FoundData, remember } from "./found";
import { decidingPoints, intervalAt, union } from "./interval";
import { type Findings, judge } from "./judging";
import type { Drawn } from "./kinds";
import { isCurve, Nominals } from "./nominals";
import { finiteValues, shortestInterval } from "./quantile";
import type { Analysis, Expanded, Interval, JudgedBy, Limit, RangePoint, Verdict, Yield } from "./result";
import { Sampler } from "./sampler";
import { ancestry, Study } from "./study";
import { type Swing, swings } from "./swing";
import { lawArguments, type Outside, outsideOf, shownWith } from "./validity";
import { type WorstCaseFound, worstCase } from "./worst-case";
import { type Asked, type Passes, passesOf, yieldOf } from "./yield";

export interface EvaluationOptions {
  /** Default 1. */
  readonly seed?: number;
  /** Draws of each result at each range point, default `defaultSamples`. */
  readonly samples?: number;
  /**
   * Evaluations of other states of the book: what is known there and follows from nothing that differs here is taken over, first from
   * the one that differs least. The answers are the same as without, or better where the other had more draws.
   */
  readonly from?: readonly Evaluation[];
  /** What an evaluation of the same library has found before: used for nodes of the growing graph that are as they were there. */
  readonly earlier?: EvaluationData | undefined;
}

/** Draws unless asked otherwise; a model may state that it is given fewer. */
export const defaultSamples = 10_000;

export class Evaluation {
  readonly graph: Graph;
  readonly #options: Required<Pick<EvaluationOptions, "seed" | "samples">>;
  readonly #nominals: Nominals;
  readonly #studies = new Map<NodeId, Study>();
  readonly #swings = new Map<NodeId, readonly Swing[]>();
  readonly #found = new Found();
  readonly #earlier: Earlier | undefined;
  #sampler: Sampler;
  #revision: number;
  #evidence: number;
  #before: Evaluation | undefined;

  constructor(graph: Graph, { seed = 1, samples = defaultSamples, from = [], earlier }: EvaluationOptions = {}) {
    this.graph = graph;
    this.#options = { seed, samples };
    this.#nominals = new Nominals(graph);
    if (earlier?.seed === seed && earlier.samples === samples) this.#earlier = new Earlier(graph, earlier, this.#nominals, this.#found);
    this.#sampler = this.#newSampler();
    this.#revision = graph.revision;
    this.#evidence = graph.evidence;
    this.#takeOver(from);
  }

  /** An evaluation that knows what another has found. */
  static knowing(found: EvaluationData): Evaluation {
    const evaluation = new Evaluation(Graph.from(found.nodes), found);
    evaluation.#nominals.takeOver(found.nominals, () => true);
    evaluation.#found.learn(found);
    return evaluation;
  }

  /** An evaluation of a published book, which knows what was found of it when it was published. */
  static remembering(graph: Graph, published: BriefFound): Evaluation {
    const evaluation = new Evaluation(graph);
    evaluation.#found.remember(published);
    return evaluation;
  }

  get found(): EvaluationData {
    this.#followGraph();
    this.#earlier?.recallAll();
    return {
      nodes: this.graph.nodes(),
      ...this.#options,
      nominals: this.#nominals.values,
      ...this.#found.data,
    };
  }

  /** Whether an answer takes no time. */
  knows(ask: Ask): boolean {
    this.#followGraph();
    return this.#found.knows(ask, (id) => lawArguments(this.graph, ancestry(this.graph, id)));
  }

  /** How much has been found, for {@link since}. */
  get mark(): readonly number[] {
    return this.#found.mark;
  }

  /** What has been found since a mark, for an evaluation of the same state in another thread. */
  since(mark: readonly number[]): FoundData {
    return this.#found.since(mark);
  }

  learn(found: FoundData): void {
    this.#followGraph();
    this.#found.learn(found);
  }

  /** The book with other givens, tables or choices; what no change reaches is not computed again. */
  withChanges(changes: Changes): Evaluation {
    return new Evaluation(this.graph.withChanges(changes), { ...this.#options, from: [this] });
  }

  /** The nominal value of a result, SI. Throws "nominal-domain" naming the formula that has none, "graph-shape" for a curve. */
  nominal(id: NodeId): number {
    this.#followGraph();
    this.#earlier?.recall(id);
    const value = this.#nominals.value(id);
    if (isCurve(value))
      throw new WorkingsError("graph-shape", `'${id}' is a curve, not a number; ask for its value at a point`, { node: id });
    return value;
  }

  /** The nominal points of a table, sweep or model curve, SI. Throws "graph-shape" for a number. */
  curve(id: NodeId): CurveData {
    this.#followGraph();
    this.#earlier?.recall(id);
    const value = this.#nominals.value(id);
    if (!isCurve(value)) throw new WorkingsError("graph-shape", `'${id}' is a number, not a curve`, { node: id });
    return value;
  }

  /** Computes the nominal values of many results in one pass; `nominal` then only looks them up. */
  prepare(ids: Iterable<NodeId>): void {
    this.#followGraph();
    this.#nominals.prepare(ids);
  }

  /** Worst case and 95 % interval at every point of a sweep or a model's curve; of a table, the table itself. */
  band(id: NodeId): Band {
    const steps = this.bandSteps(id);
    for (let step = steps.next(); ; step = steps.next()) if (step.done === true) return step.value;
  }

  /** The same in steps, one a point of a sweep: a page looks at what its reader does between them. */
  *bandSteps(id: NodeId): Generator<undefined, Band> {
    this.#followGraph();
    this.#earlier?.recall(id);
    const known = this.#found.bands.get(id);
    if (known !== undefined) return known;
    const band = yield* this.#band(id);
    this.#found.bands.set(id, band);
    return band;
  }

  /** Worst case, 95 % interval (union over the range points), contributions and warnings of a result. */
  analysis(id: NodeId): Analysis {
    this.#followGraph();
    this.#earlier?.recall(id);
    return remember(this.#found.analyses, id, () => this.#analyse(id));
  }

  /** What the result is worth when each given behind it alone is moved by a step; exact ones too. Nominal evaluations. */
  swings(id: NodeId): readonly Swing[] {
    this.#followGraph();
    return remember(this.#swings, id, () => swings(this.#study(id)));
  }

  /** Warnings of arguments outside the limits of a curve's own law; a curve has no analysis. */
  validity(id: NodeId): readonly string[] {
    this.#followGraph();
    return this.#outsideOf(this.#shownWith(id)).map(({ fault }) => `${fault}.`);
  }

  /** The laws behind a result, its own among them, that are used outside their range: at the nominal point alone, or in the worst case too. */
  outside(id: NodeId, nominalOnly = false): readonly Outside[] {
    this.#followGraph();
    return this.#outsideOf(ancestry(this.graph, id), nominalOnly);
  }

  /** A result against a limit (SI). A result that has no spread is judged by its nominal value. */
  verdict(id: NodeId, limit: Limit, judged: JudgedBy): Verdict {
    this.#followGraph();
    this.#earlier?.recall(id);
    return remember(this.#found.verdicts, verdictKey({ node: id, limit, judged }), () => {
      const verdict = judge(this.#findings(id), limit, judged);
      const outside = this.outside(id, judged === "typical").map(({ law, fault }) => `${law}: ${fault}`);
      return outside.length === 0 ? verdict : { ...verdict, outside };
    });
  }

  /** The 95 % interval at a range point, as `Verdict.at` names it. */
  intervalAt(id: NodeId, at: RangePoint): Interval {
    this.#followGraph();
    return intervalAt(this.column(id, at), this.#study(id).own(at));
  }

  /** The shortest interval that holds 95 % of units at a range point (JCGM 101:2008 5.3.4); for skewed results it is not the middle 95 %. */
  shortestInterval(id: NodeId, at: RangePoint = {}): Interval {
    this.#followGraph();
    const point = this.#study(id).own(at);
    const values = finiteValues(this.column(id, point));
    const interval = { ...shortestInterval(values, 0.95), samples: values.length };
    return Object.keys(point).length === 0 ? interval : { ...interval, at: point };
  }

  /** U = k·u to first order for a coverage probability in (0, 1). JCGM 100:2008 annex G. */
  expanded(id: NodeId, probability = 0.95): Expanded {
    this.#followGraph();
    const study = this.#study(id);
    const parts = this.#sampler.evidence?.parts(study) ?? study.parts;
    const { standardUncertainty, contributions } = this.analysis(id);
    return expandedUncertainty(standardUncertainty, parts, contributions, probability);
  }

  /**
   * The share of units that meet several limits (SI) at once, each at every one of its range points, by the same draws; with the
   * bounds of its sampling. Every result must have its value drawn as often as the others: the fewest draws are taken.
   */
  yieldOf(asked: readonly Asked[]): Yield {
    this.#followGraph();
    if (asked.length === 0) throw new WorkingsError("graph-shape", "a yield is asked of at least one result and its limit");
    this.#earlier?.recallYield(asked);
    return remember(this.#found.yields, yieldKey(asked), () => yieldOf(asked.map(({ node, limit }) => this.passes(node, limit))));
  }

  /** Which units drawn meet a limit (SI) at every range point of a result. */
  passes(node: NodeId, limit: Limit): Passes {
    this.#followGraph();
    const make = () =>
      passesOf(
        limit,
        this.#pointsOf(node).map((at) => this.column(node, at)),
      );
    this.#earlier?.recall(node);
    return remember(this.#found.passes, passesKey({ node, limit }), make);
  }

  /**
   * The draws of a result at a range point, SI: of units at the best estimate of what is not known, unless asked otherwise. One value
   * where nothing of that moves it; NaN where a draw has no value. Not to be written to.
   */
  column(id: NodeId, at: RangePoint = {}, drawn: Drawn = "production"): Float64Array {
    this.#followGraph();
    const study = this.#study(id);
    return study.drawnWith(drawn).length > 0 ? this.#sampler.column(id, at, drawn) : Float64Array.of(study.valueAt(study.own(at)));
  }

  /**
   * What one unit may turn out to be: 95 % of the draws of both kinds of spread, union over the range points. A reading of a prototype is
   * held against this, and where it is evidence, against what was predicted before it was used. Null where nothing spreads.
   */
  predicted(id: NodeId): Interval | null {
    this.#followGraph();
    const isUsed = this.graph.evidence > 0 && this.graph.nodes().some((node) => isEvidence(node) && (node as ReadingNode).of === id);
    return isUsed ? this.withoutEvidence().predicted(id) : this.#predicted(id);
  }

  /** The same book before any reading was used as evidence. */
  withoutEvidence(): Evaluation {
    this.#followGraph();
    if (this.graph.evidence === 0) return this;
    this.#before ??= new Evaluation(Graph.from(this.graph.nodes().filter((node) => !isEvidence(node))), { ...this.#options, from: [this] });
    return this.#before;
  }

  /** What a reading that is evidence says of what is not known; undefined of any other. */
  learned(reading: NodeId): Learned | undefined {
    this.#followGraph();
    return this.#sampler.evidence?.learned(reading);
  }

  #predicted(id: NodeId): Interval | null {
    if (this.#study(id).drawnWith("knowledge").length === 0) return this.analysis(id).interval;
    return union(this.#pointsOf(id).map((at) => intervalAt(this.column(id, at, "both"))));
  }

  *#band(id: NodeId): Generator<undefined, Band> {
    const node = chosenNode(this.graph, id);
    const curve = this.curve(id);
    if (node.kind === "sweep") return yield* sweepBand(this.graph, node, curve, this.#sampler);
    return curveBand(this.graph, node.id, curve, this.#options.seed, this.#sampler);
  }

  #analyse(id: NodeId): Analysis {
    const kept = this.#found.briefAnalyses.get(id);
    return analyse(
      this.#findings(id),
      kept,
      () => this.outside(id),
      () => this.#shownWith(id),
    );
  }

  #findings(id: NodeId): Findings {
    return {
      graph: this.graph,
      study: this.#study(id),
      sampler: this.#sampler,
      worst: () => this.#worstOf(id),
      points: () => this.#pointsOf(id),
      column: (at, drawn) => this.column(id, at, drawn),
    };
  }

  #shownWith(id: NodeId): NodeId[] {
    return shownWith(this.graph, id, (other) => evaluationInputs(this.graph, other));
  }

  #outsideOf(nodes: readonly NodeId[], nominalOnly = false): Outside[] {
    return outsideOf(this.graph, nodes, (argument) => {
      const nominal = this.nominal(argument);
      const worst = nominalOnly ? undefined : this.#worstOf(argument)?.worst;
      return { nominal, low: worst?.low ?? nominal, high: worst?.high ?? nominal };
    });
  }

  #study(id: NodeId): Study {
    return remember(this.#studies, id, () => new Study(this.graph, id));
  }

  #worstOf(id: NodeId): WorstCaseFound | undefined {
    this.#earlier?.recall(id);
    const study = this.#study(id);
    const kept = this.#found.briefWorst.get(id);
    return remember(this.#found.worst, id, () => (kept === undefined ? worstCase(study) : restoredWorst(kept, study)));
  }

  #pointsOf(id: NodeId): RangePoint[] {
    this.#earlier?.recall(id);
    return remember(this.#found.points, id, () => decidingPoints(this.#study(id), this.#sampler, this.#worstOf(id)?.worst ?? null));
  }

  /** What does not rest on draws from any of them; what does, from those with as many or more. */
  #takeOver(others: readonly Evaluation[]): void {
    const candidates = others
      .filter((other) => other.#options.seed === this.#options.seed)
      .map((other) => ({ other, affected: differing(other.graph, this.graph) }));
    for (const { other, affected } of candidates.toSorted((a, b) => a.affected.size - b.affected.size)) {
      other.#followGraph();
      const isKept = (id: NodeId): boolean => !affected.has(id);
      this.#nominals.takeOver(other.#nominals.values, isKept);
      for (const [id, study] of other.#studies) if (isKept(id) && !this.#studies.has(id)) this.#studies.set(id, study);
      this.#found.takeOver(other.#found, isKept, { draws: false, whole: false });
      if (other.#options.samples < this.#options.samples) continue;
      // What evidence draws anew are all draws together: the beginning of more is not what fewer would give.
      const isSame = other.#options.samples === this.#options.samples;
      const drawnAnew = isSame ? new Set<NodeId>() : narrowed(this.graph, this.graph.nodes().filter(isEvidence));
      const isDrawn = (id: NodeId): boolean => isKept(id) && !drawnAnew.has(id);
      this.#found.takeOver(other.#found, isDrawn, { draws: true, whole: affected.size === 0 && drawnAnew.size === 0 });
      this.#sampler.takeOver(other.#sampler, isDrawn);
    }
  }

  #newSampler(): Sampler {
    const study = (id: NodeId) => this.#study(id);
    const stated = new Sampler(this.graph, this.#options, study);
    return this.graph.evidence === 0 ? stated : new Sampler(this.graph, this.#options, study, stated);
  }

  /** A node that was replaced may change everything that was remembered. */
  #followGraph(): void {
    if (this.graph.revision === this.#revision && this.graph.evidence === this.#evidence) return;
    if (this.graph.revision === this.#revision) this.#forgetNarrowed();
    else this.#forgetAll();
    this.#evidence = this.graph.evidence;
    this.#before = undefined;
  }

  /** One more reading is evidence: what rests on what it narrows was drawn without it. */
  #forgetNarrowed(): void {
    const moved = narrowed(this.graph, this.graph.nodes().filter(isEvidence));
    this.#earlier?.forget();
    this.#found.forget((id) => moved.has(id));
    const sampler = this.#newSampler();
    sampler.takeOver(this.#sampler, (id) => !moved.has(id));
    this.#sampler = sampler;
  }

  #forgetAll(): void {
    this.#revision = this.graph.revision;
    this.#earlier?.forget();
    this.#nominals.clear();
    this.#studies.clear();
    this.#found.clear();
    this.#swings.clear();
    this.#sampler = this.#newSampler();
  }
}
