/** The worst case and the 95 % interval of a curve at every one of its points. */
import type { CurveData } from "../graph/curve";
import type { Graph } from "../graph/graph";
import { spelledName } from "../graph/identity";
import { curveAt } from "../graph/interpolate";
import type { GivenNode, NodeId, SweepNode } from "../graph/node";
import { Program } from "../graph/program";
import { limitsOf } from "../quantity/limits";
import { betweenLimits, isRange, isTolerance } from "./distribution";
import { decidingPoints, intervalAt, union } from "./interval";
import { hasKind, type SpreadKind } from "./kinds";
import { finiteValues, quantile } from "./quantile";
import type { Sampler } from "./sampler";
import { Stream } from "./stream";
import { Study } from "./study";
import { type WorstCaseFound, worstCaseOfBand } from "./worst-case";

/** SI. Where nothing but what is swept has a spread, all four equal the curve. */
export interface Band {
  readonly x: Float64Array;
  readonly worstLow: Float64Array;
  readonly worstHigh: Float64Array;
  /** Of units, what is not known at its best estimate. */
  readonly low: Float64Array;
  readonly high: Float64Array;
  /** What the middle unit could be; absent where all is known. */
  readonly doubtLow?: Float64Array;
  readonly doubtHigh?: Float64Array;
}

interface BandRow {
  readonly worstLow: number;
  readonly worstHigh: number;
  readonly low: number;
  readonly high: number;
  readonly doubt?: { readonly low: number; readonly high: number };
}

/** Draws at each point of a band, the same at all of them: its ends lie within a tenth of the deviation, a line's width on a plot. */
const bandDraws = 500;
/**
 * At one point in so many the worst case is searched from nothing, with a smaller budget than that of a verdict; at the others it is
 * climbed from that of the point before. No doubt is told of a band.
 */
const searchedWholly = 10;
/** Rows of a band about a model's curve, for each of: spread over the limits, drawn. */
const curveRows = 256;

/** Of a sweep, the analysis of its result with the swept node held at each point; a step is a point. */
export function* sweepBand(graph: Graph, node: SweepNode, { x, y }: CurveData, sampler: Sampler): Generator<undefined, Band> {
  const program = Program.compile(graph, [node.of], new Set([node.over]));
  const rows: BandRow[] = [];
  let before: WorstCaseFound | undefined;
  for (const [j, point] of node.points.entries()) {
    const study = new Study(graph, node.of, program, new Map([[node.over, point]]));
    const found = worstCaseOfBand(study, j % searchedWholly === 0 ? undefined : before);
    rows.push(sweepRow(study, y[j] as number, found, sampler));
    before = found;
    yield;
  }
  return bandOf(x, rows);
}

function sweepRow(study: Study, nominal: number, found: WorstCaseFound | undefined, sampler: Sampler): BandRow {
  if (found === undefined) return flat(nominal);
  const { worst } = found;
  const points = decidingPoints(study, sampler, worst);
  const drawn = (kind: SpreadKind) =>
    union(
      points.map((at) =>
        intervalAt(study.drawnWith(kind).length > 0 ? sampler.sample(study, at, bandDraws, kind) : Float64Array.of(study.valueAt(at))),
      ),
    );
  const { low, high } = drawn("production");
  const doubt = study.drawnWith("knowledge").length > 0 && { doubt: drawn("knowledge") };
  return { worstLow: worst.low, worstHigh: worst.high, low, high, ...doubt };
}

/**
 * Of a curve that a model gives, rows of curves read at the abscissae of the nominal one: givens spread over their
 * limits (corners among them) for the worst case, drawn for the interval. No search: a plot's band, not a verdict.
 * Abscissae that a row does not reach are left out of it. A table has no spread.
 */
export function curveBand(graph: Graph, id: NodeId, { x, y }: CurveData, seed: number, sampler: Sampler): Band {
  const program = Program.compile(graph, [id]);
  const nodes = program.tape.order
    .map((other) => graph.get(other))
    .filter((node): node is GivenNode => node.kind === "given" && (isTolerance(node) || isRange(node)));
  const moving = new Set(
    program.dependencies(
      id,
      nodes.map((node) => node.id),
    ),
  );
  const givens = nodes.filter((node) => moving.has(node.id));
  if (givens.length === 0) return bandOf(x, Array.from(y, flat));
  const run = (column: (given: GivenNode) => Float64Array): readonly CurveData[] =>
    program.block(curveRows, new Map(givens.map((given) => [given.id, column(given)])), [id])[0] as readonly CurveData[];
  const spread = run((given) => spreadOver(given, seed));
  const drawn = (kind: SpreadKind) => run((given) => (isRange(given) ? ends(given, seed) : draws(given, kind, sampler)));
  const units = drawn("production");
  const truths = givens.some((given) => isTolerance(given) && hasKind(given, "knowledge")) ? drawn("knowledge") : [];
  return bandOf(
    x,
    Array.from(x, (abscissa, j) => curveRow(abscissa, y[j] as number, spread, units, truths)),
  );
}

function curveRow(
  x: number,
  nominal: number,
  spread: readonly CurveData[],
  units: readonly CurveData[],
  truths: readonly CurveData[],
): BandRow {
  const at = (curves: readonly CurveData[]) => finiteValues(Float64Array.from(curves, (curve) => readOrNothing(curve, x)));
  const [drawn, doubted] = [at(units), at(truths)];
  const values = [nominal, ...at(spread), ...drawn, ...doubted];
  const middle = (found: Float64Array) => ({
    low: found.length === 0 ? nominal : quantile(found, 0.025),
    high: found.length === 0 ? nominal : quantile(found, 0.975),
  });
  return {
    worstLow: Math.min(...values),
    worstHigh: Math.max(...values),
    ...middle(drawn),
    ...(truths.length > 0 && { doubt: middle(doubted) }),
  };
}

function readOrNothing(curve: CurveData, x: number): number {
  const inside = x >= (curve.x[0] as number) && x <= (curve.x[curve.x.length - 1] as number);
  return inside ? curveAt(curve, x) : Number.NaN;
}

/** Half of the rows at corners, half anywhere between the limits. */
function spreadOver(given: GivenNode, seed: number): Float64Array {
  const stream = new Stream(seed, `${spelledName(given.id)} over its limits`);
  const value = betweenLimits(given);
  return Float64Array.from({ length: curveRows }, (_, i) => value(i % 2 === 0 ? Math.round(stream.uniform(i)) : stream.uniform(i)));
}

/** A range at one of its limits in each row. */
function ends(given: GivenNode, seed: number): Float64Array {
  const stream = new Stream(seed, `${spelledName(given.id)} at its limits`);
  const limits = limitsOf(given.spread, given.nominal);
  return Float64Array.from({ length: curveRows }, (_, i) => limits[stream.uniform(i) < 0.5 ? 0 : 1]);
}

function draws(given: GivenNode, drawn: SpreadKind, sampler: Sampler): Float64Array {
  const known = sampler.draws(given, drawn);
  if (known instanceof Float64Array && known.length >= curveRows) return known.subarray(0, curveRows);
  const column = new Float64Array(curveRows).fill(given.nominal);
  if (typeof known === "function") known(column, 0, curveRows);
  else if (known instanceof Float64Array) for (let i = 0; i < curveRows; i++) column[i] = known[i % known.length] as number;
  return column;
}

function flat(value: number): BandRow {
  return { worstLow: value, worstHigh: value, low: value, high: value };
}

function bandOf(x: Float64Array, rows: readonly BandRow[]): Band {
  const column = (pick: (row: BandRow) => number): Float64Array => Float64Array.from(rows, pick);
  return {
    x,
    worstLow: column((row) => row.worstLow),
    worstHigh: column((row) => row.worstHigh),
    low: column((row) => row.low),
    high: column((row) => row.high),
    ...(rows.some(({ doubt }) => doubt !== undefined) && {
      doubtLow: column(({ doubt, low }) => doubt?.low ?? low),
      doubtHigh: column(({ doubt, high }) => doubt?.high ?? high),
    }),
  };
}
