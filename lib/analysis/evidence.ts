/**
 * Readings of prototypes as evidence. Each truth that was drawn gets the weight of how likely it makes the reading (Bayes' rule by
 * importance weighting), and truths are drawn anew by these weights (sampling/importance resampling: A. F. M. Smith and A. E. Gelfand,
 * The American Statistician 46, 1992, 84-88; from memory). For truth k and reading y the likelihood is the mean over units of
 * φ((y − f(k) − δ)/s)/s: δ is how far a unit lies from the middle one at the best estimate, s the standard uncertainty of the
 * instrument. The two kinds of spread are taken to add; each reading is of a unit of its own.
 *
 * What differs between units, worst cases and nominal values stay as the design file states them.
 */
import { type Graph, isEvidence } from "../graph/graph";
import { wholeId } from "../graph/identity";
import type { GivenNode, NodeId, ReadingNode } from "../graph/node";
import { exp, ln } from "../quantity/elementary";
import { unitOf } from "../quantity/unit";
import { couple } from "./couple";
import { standardUncertainty } from "./distribution";
import type { SpreadPart } from "./kinds";
import { correlation, finiteValues, moments } from "./quantile";
import type { Sampler } from "./sampler";
import { weightsOf } from "./shared";
import { Stream } from "./stream";
import type { Study } from "./study";

/** Fewer effective draws than this share of all are no sample of anything. */
const leastShare = 1 / 20;
/** Units that stand for the spread of production, and the least width of each as a share of its deviation: they stand for a density. */
const unitsTaken = 200;
const leastWidth = 1 / 20;

/** What a reading says of what is not known. */
export interface Learned {
  readonly isUsed: boolean;
  /** Why it is not used. */
  readonly refused?: string;
  /** (Σw)²/Σw² with all readings about the same givens, and the draws. */
  readonly effective: number;
  readonly draws: number;
  /** By given, its truth before and after, SI. */
  readonly truths: readonly { readonly given: NodeId; readonly before: Moments; readonly after: Moments }[];
}

interface Moments {
  readonly mean: number;
  readonly deviation: number;
}

/** Readings about the same givens, which narrow them together. */
interface Group {
  readonly readings: readonly ReadingNode[];
  /** What the truths of its givens are drawn from. */
  readonly streams: ReadonlySet<string>;
  readonly givens: readonly GivenNode[];
  readonly refused?: string;
  readonly effective: number;
  /** By row, the row of the truth that takes its place; undefined where nothing is narrowed. */
  readonly rows?: Int32Array;
}

export class Evidence {
  readonly #graph: Graph;
  readonly #seed: number;
  readonly #samples: number;
  readonly #prior: Sampler;
  readonly #study: (id: NodeId) => Study;
  #groups: readonly Group[] | undefined;

  /** `prior`: a sampler of the same graph that uses no evidence. */
  constructor(
    graph: Graph,
    { seed, samples }: { readonly seed: number; readonly samples: number },
    prior: Sampler,
    study: (id: NodeId) => Study,
  ) {
    this.#graph = graph;
    this.#seed = seed;
    this.#samples = samples;
    this.#prior = prior;
    this.#study = study;
  }

  /** What another graph's evidence has found, where every reading of both and all that it rests on is the same. */
  takeOver(other: Evidence, isKept: (id: NodeId) => boolean): void {
    this.#prior.takeOver(other.#prior, isKept);
    const isSame = other.#samples === this.#samples && other.#graph.evidence === this.#graph.evidence;
    if (isSame && this.#graph.nodes().every((node) => !isEvidence(node) || isKept(node.id))) this.#groups ??= other.#groups;
  }

  /** By row, the row of the truth that takes its place; undefined for a given that no evidence narrows. */
  rowsOf(given: GivenNode): Int32Array | undefined {
    return this.#groupOf(given)?.rows;
  }

  /** How many truths the draws of a result stand for, as a share of them: 1 without evidence. */
  effectiveShare(study: Study): number {
    const groups = new Set(study.drawnWith("knowledge").flatMap((given) => this.#groupOf(given) ?? []));
    return [...groups].reduce((share, { rows, effective }) => (rows === undefined ? share : (share * effective) / this.#samples), 1);
  }

  learned(reading: NodeId): Learned | undefined {
    const group = this.#all().find(({ readings }) => readings.some(({ id }) => id === reading));
    if (group === undefined) return undefined;
    const { rows, refused, effective, givens } = group;
    const common = { isUsed: rows !== undefined, ...(refused !== undefined && { refused }), effective, draws: this.#samples };
    if (rows === undefined) return { ...common, truths: [] };
    const own = new Set(
      this.#study((this.#graph.get(reading) as ReadingNode).of)
        .drawnWith("knowledge")
        .map(({ id }) => id),
    );
    const truths = givens
      .filter(({ id }) => own.has(id))
      .map((given) => ({ given: given.id, before: moments(this.#truths(given)), after: moments(this.#narrowed(given, rows)) }));
    return { ...common, truths };
  }

  /** The parts of a result's spread, those that evidence has narrowed as normal ones of their deviation and correlations. */
  parts(study: Study): readonly SpreadPart[] {
    const rowsOf = ({ node, kind }: SpreadPart) => (kind === "knowledge" ? this.#groupOf(node)?.rows : undefined);
    const moved = study.parts.filter((part) => rowsOf(part) !== undefined);
    if (moved.length === 0) return study.parts;
    const columns = moved.map((part) => this.#narrowed(part.node, rowsOf(part) as Int32Array));
    const nodes = moved.map(({ node }, k): GivenNode => {
      const { shared: _, ...own } = node;
      return { ...own, spread: { kind: "normal", sigma: moments(columns[k] as Float64Array).deviation, coverage: 1 } };
    });
    const correlations = columns.map((a, i) => columns.map((b, j) => (i === j ? 1 : (correlation(a, b) ?? 0))));
    const shared = couple(nodes, correlations);
    const narrowed = new Map(moved.map((part, k) => [part, { ...nodes[k], shared: shared?.[k] ?? [] } as GivenNode]));
    return study.parts.map((part) => ({ ...part, node: narrowed.get(part) ?? part.node }));
  }

  #groupOf(given: GivenNode): Group | undefined {
    if (this.#all().length === 0) return undefined;
    const streams = streamsOf(given);
    return this.#all().find((group) => streams.some((name) => group.streams.has(name)));
  }

  #all(): readonly Group[] {
    this.#groups ??= this.#graph.evidence === 0 ? [] : this.#grouped();
    return this.#groups;
  }

  #grouped(): Group[] {
    const known = this.#graph.nodes().filter((node): node is GivenNode => node.kind === "given" && streamsOf(node).length > 0);
    let open: { readings: ReadingNode[]; streams: Set<string> }[] = [];
    for (const reading of this.#graph.nodes().filter(isEvidence) as ReadingNode[]) {
      const streams = new Set(this.#study(reading.of).drawnWith("knowledge").flatMap(streamsOf));
      for (let before = -1; before !== streams.size; ) {
        before = streams.size;
        for (const given of known)
          if (streamsOf(given).some((name) => streams.has(name))) for (const name of streamsOf(given)) streams.add(name);
      }
      const same = open.filter((other) => [...other.streams].some((name) => streams.has(name)));
      open = open.filter((other) => !same.includes(other));
      open.push({
        readings: [...same.flatMap(({ readings }) => readings), reading],
        streams: new Set([...same.flatMap((other) => [...other.streams]), ...streams]),
      });
    }
    return open.map(({ readings, streams }) => ({
      readings,
      streams,
      givens: known.filter((given) => streamsOf(given).some((name) => streams.has(name))),
      ...this.#weighed(readings),
    }));
  }

  #weighed(readings: readonly ReadingNode[]): Pick<Group, "refused" | "effective" | "rows"> {
    const weights = new Float64Array(this.#samples).fill(1);
    for (const reading of readings) {
      const refused = this.#weigh(reading, weights);
      if (refused !== undefined) return { refused, effective: 0 };
    }
    const effective = effectiveOf(weights);
    const least = Math.ceil(leastShare * this.#samples);
    if (effective >= least) return { effective, rows: this.#drawnAnew(weights, readings) };
    const refused = `only ${Math.floor(effective)} of ${this.#samples} draws of what is not known agree with it, and at least ${least} must: state wider spreads where the truth may lie so far out, or look for an error in the reading or the law`;
    return { refused, effective };
  }

  /** Multiplies the weights by how likely each truth makes the reading; why it cannot, if so. */
  #weigh({ of, nominal, spread, id, unit }: ReadingNode, weights: Float64Array): string | undefined {
    const study = this.#study(of);
    if (study.ranges.length > 0)
      return `${of} depends on a condition of use, and the reading was taken at one: derive the result at that one`;
    if (study.drawnWith("knowledge").length === 0) return `nothing behind ${of} is stated as knowledge that it could narrow`;
    if (study.maximumDraws < this.#samples) return `a model behind ${of} is given ${study.maximumDraws} draws, too few to weigh`;
    const scale = unitOf(unit).log === undefined ? (x: number) => x : ln;
    const units = finiteValues(this.#prior.column(of, {}, "production"))
      .map(scale)
      .sort();
    const truths = this.#prior.column(of, {}, "knowledge");
    const middle = scale(study.value);
    const error = standardUncertainty({ id, nominal, spread } as GivenNode) / (unitOf(unit).log === undefined ? 1 : Math.abs(nominal));
    const production = study.drawnWith("production").length === 0 ? 0 : moments(units).deviation;
    const width = Math.max(error, leastWidth * production);
    if (!(width > 0)) return "it states no uncertainty, and units do not differ: write value: … ±… with that of the instrument";
    const count = production === 0 ? 1 : Math.min(unitsTaken, units.length);
    const away = Float64Array.from({ length: count }, (_, j) => (units[Math.floor(((j + 0.5) / count) * units.length)] as number) - middle);
    if (production === 0) away[0] = 0;
    for (let k = 0; k < weights.length; k++) {
      const open = scale(nominal) - scale(truths[k] as number);
      let sum = 0;
      for (let j = 0; j < count; j++) {
        const z = (open - (away[j] as number)) / width;
        if (Math.abs(z) < 8) sum += exp(-0.5 * z * z);
      }
      weights[k] = Number.isFinite(open) ? (weights[k] as number) * sum : 0;
    }
    return undefined;
  }

  /** Systematic resampling, then a shuffle: any block of rows is a fair sample. */
  #drawnAnew(weights: Float64Array, readings: readonly ReadingNode[]): Int32Array {
    const stream = new Stream(this.#seed, `evidence ${readings.map(({ id }) => id).join(" ")}`);
    const total = weights.reduce((sum, w) => sum + w, 0);
    const n = weights.length;
    const rows = new Int32Array(n);
    let row = 0;
    let reached = weights[0] as number;
    for (let i = 0; i < n; i++) {
      const at = ((i + stream.uniform(0)) / n) * total;
      while (reached < at && row < n - 1) reached += weights[++row] as number;
      rows[i] = row;
    }
    for (let i = n - 1; i > 0; i--) {
      const j = Math.floor(stream.uniform(i) * (i + 1));
      [rows[i], rows[j]] = [rows[j] as number, rows[i] as number];
    }
    return rows;
  }

  /** Of a given's knowledge, or of the part that is knowledge, as stated. */
  #truths(given: GivenNode): Float64Array {
    const draws = this.#prior.draws(given, "knowledge");
    if (draws instanceof Float64Array) return draws;
    const out = new Float64Array(this.#samples);
    if (typeof draws === "function") draws(out, 0, out.length);
    return out;
  }

  #narrowed(given: GivenNode, rows: Int32Array): Float64Array {
    const truths = this.#truths(given);
    return Float64Array.from(rows, (row) => truths[row] as number);
  }
}

/** What the truth of a given is drawn from; nothing where all of it is known. */
function streamsOf(given: GivenNode): string[] {
  if (given.knowledge === true) return [...weightsOf(given).keys()];
  return given.doubt === undefined ? [] : [`${wholeId(given.id)} doubt`];
}

function effectiveOf(weights: Float64Array): number {
  const [sum, squares] = weights.reduce(([a, b], w) => [a + w, b + w * w] as [number, number], [0, 0] as [number, number]);
  return squares > 0 ? (sum * sum) / squares : 0;
}
