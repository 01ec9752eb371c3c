/**
 * Worst case: the extremes of a result while every tolerance and every range stays inside its limits. Correlations are left out, since
 * no unit is impossible that is merely unlikely; but where one given determines another (a coefficient of 1 or −1, everything in
 * common) the two move together.
 *
 * It is exact, to rounding, where the law goes one way along every input: shown by intervals or stated by the models that it calls
 * (`enclosure/`), or, of plain arithmetic, at all corners where those fit the budget (`search/monotone.ts`: up to 20 inputs, and 2²⁰
 * corners of 64 additions). Inputs whose way is known stand at their ends while the others are searched (`search/search.ts`). A search
 * can only find too little; an end of the worst case at which it has cause for doubt says so, and a requirement is then not sure at best.
 */
import { BlockPlan } from "../graph/block";
import type { GivenNode } from "../graph/node";
import type { ProgramState } from "../graph/state";
import { betweenLimits, nominalPart } from "./distribution";
import { Enclosure, leadersOf } from "./enclosure/bounds";
import { unknown } from "./enclosure/heading";
import type { Bounds, RangePoint, WorstCase } from "./result";
import { Guides } from "./search/guides";
import { monotone } from "./search/monotone";
import type { Law } from "./search/objective";
import type { At } from "./search/points";
import { type Extreme, type Extremes, findExtreme, findExtremes, type SearchOptions } from "./search/search";
import type { Study } from "./study";
import { type Tied, tie } from "./tie";

export interface WorstCaseFound {
  readonly worst: WorstCase;
  readonly tried: number;
  /** Points inside the limits at which the result has no value. */
  readonly failed: number;
  /** Where the extremes lie between the limits: low, high. */
  readonly places: readonly [At, At];
}

/** In additions: 2²⁰ corners of 64 each, and a quarter of that for each extreme. */
const arithmetic: SearchOptions = {
  cornerBudget: 2 ** 26,
  corners: 20,
  budget: 2 ** 24,
  sample: { points: 256, line: 33, bases: 24 },
  climb: { rounds: 80, steps: [1, 0.5, 0.25, 0.1, 0.03, 0.01, 3e-3, 1e-3, 3e-4, 1e-4, 1e-5, 1e-6], directions: 12, pairs: 10 },
  best: 4,
  guided: 8,
  spread: [8, 96],
  line: 3,
  lines: [129, 4097],
};
/** In rows, each of which calls models. */
const costly: SearchOptions = {
  cornerBudget: 2 ** 8,
  corners: 8,
  budget: 2 ** 12,
  sample: { points: 32, line: 9, bases: 6 },
  climb: { rounds: 12, steps: [1, 0.4, 0.1, 0.02, 2e-3, 1e-4], directions: 0, pairs: 0 },
  best: 2,
  guided: 2,
  spread: [8, 16],
  line: 1,
  lines: [17, 33],
};

/** Of a plot's bands: a sixteenth of the budgets. */
const forBand: SearchOptions = { ...arithmetic, cornerBudget: 2 ** 22, budget: 2 ** 20, spread: [8, 16], lines: [65, 513] };

/** Undefined when nothing that the result depends on has a spread. */
export function worstCase(study: Study): WorstCaseFound | undefined {
  return searched(study, arithmetic, undefined);
}

/**
 * The same with less search, for one point of a plot's band, which is looked at and not judged. `near`: of the same result at a point
 * close by; then climbed from its extremes alone.
 */
export function worstCaseOfBand(study: Study, near: WorstCaseFound | undefined): WorstCaseFound | undefined {
  return searched(study, forBand, near);
}

function searched(study: Study, options: SearchOptions, near: WorstCaseFound | undefined): WorstCaseFound | undefined {
  const { givens } = study;
  if (givens.length === 0) return undefined;
  const tied = tie(givens);
  const law = lawOf(study, study.nominal, givens, tied);
  const nominal = Float64Array.from(tied.leaders, nominalPart);
  const enclosure = new Enclosure(study.program, study.nominal, givens, tied, study.id);
  const start = near?.places[0].length === law.dimensions ? near.places : undefined;
  const extremes =
    atKnownCorners(law, enclosure, nominal) ??
    besideKnown(study, givens, tied, enclosure, nominal, options, start) ??
    findExtremes(law, nominal, optionsFor(law, study, options), enclosure.ways, start);
  const point = ({ at }: Extreme) => pointIn(at, givens, tied);
  const bounds = extremes.isProved
    ? provedBounds(extremes, enclosure)
    : options === forBand || extremes.failed > 0 || (law.isCostly && !isDoubted(extremes))
      ? undefined
      : enclosure.bounds(extremes.low.value, extremes.high.value);
  return {
    worst: describe(extremes, point, study.value, bounds),
    tried: extremes.tried,
    failed: extremes.failed,
    places: [extremes.low.at, extremes.high.at],
  };
}

/** Where models are called rows are counted; one that says how few draws it can be given is searched with as few more. */
function optionsFor({ isCostly }: Law, { maximumDraws }: Study, arithmetic: SearchOptions): SearchOptions {
  if (!isCostly) return arithmetic;
  return { ...costly, budget: Math.min(costly.budget, Math.max(256, 2 * maximumDraws)) };
}

/** Both extremes at the corners towards which the law is known to go; undefined where a way is not known or a corner has no value. */
function atKnownCorners(law: Law, enclosure: Enclosure, nominal: At): Extremes | undefined {
  if (!enclosure.isKnown) return undefined;
  const places = [enclosure.corner(-1, nominal), enclosure.corner(1, nominal)] as const;
  const columns = Array.from(nominal, (_, k) => Float64Array.of(places[0][k] as number, places[1][k] as number));
  const values = law.evaluate(columns, 2);
  if (!Number.isFinite(values[0]) || !Number.isFinite(values[1])) return undefined;
  const [low, high] = places.map((at, i): Extreme => ({ value: values[i] as number, at, inside: false, doubts: [] })) as [Extreme, Extreme];
  return { low, high, tried: 2, failed: 0, isProved: true };
}

/**
 * Each extreme searched among the coordinates of which no way is known, the others at the ends towards which the result goes: nothing
 * is lost by that, and the search is of fewer inputs. Undefined where all are of one sort, or places without a value are met.
 */
function besideKnown(
  study: Study,
  givens: readonly GivenNode[],
  tied: Tied,
  { ways, corner }: Enclosure,
  nominal: At,
  options: SearchOptions,
  near: readonly [At, At] | undefined,
): Extremes | undefined {
  const free = [...ways.keys()].filter((k) => ways[k] === unknown);
  if (free.length === 0 || free.length === ways.length) return undefined;
  const leading = leadersOf(tied, givens.length);
  const moving = givens.filter((_, i) => free.includes(leading[i] as number));
  const own = tie(moving);
  const only = (at: At): At => Float64Array.from(free, (k) => at[k] as number);
  const side = (sign: 1 | -1) => {
    const held = corner(sign, nominal);
    const state = study.stateAt(pointIn(held, givens, tied));
    const law = lawOf(study, state, moving, own);
    const found = findExtreme(law, only(nominal), optionsFor(law, study, options), sign, near && only(near[sign === -1 ? 0 : 1]));
    const at = held.map((part, k) => (free.includes(k) ? (found.extreme.at[free.indexOf(k)] as number) : part));
    return { ...found, extreme: { ...found.extreme, at } };
  };
  const [low, high] = [side(-1), side(1)];
  if (low.failed + high.failed > 0) return undefined;
  return { low: low.extreme, high: high.extreme, tried: low.tried + high.tried, failed: 0, isProved: low.isProved && high.isProved };
}

function isDoubted({ low, high }: Extremes): boolean {
  return low.doubts.length > 0 || high.doubts.length > 0;
}

function provedBounds({ low, high }: Extremes, { ways, given }: Enclosure): Bounds {
  const found = { low: low.value, high: high.value };
  return given.length > 0 && ways.some((way) => way !== unknown) ? { ...found, given } : found;
}

/** The result as a law of some givens about a state. */
function lawOf(study: Study, state: ProgramState, givens: readonly GivenNode[], { leaders, follow }: Tied): Law {
  const { program } = study;
  const ids = givens.map((given) => given.id);
  const plan = program.plan(ids, [study.id]);
  const guides = new Guides(program, state, ids, study.id, plan);
  const values = givens.map(betweenLimits);
  const si = (columns: readonly Float64Array[], n: number): Float64Array[] =>
    follow(columns.map((column) => column.subarray(0, n))).map((parts, k) => parts.map(values[k] as (t: number) => number));
  return {
    dimensions: leaders.length,
    operations: plan.operations,
    isCostly: plan.isCostly,
    guides: guides.list.map(({ kind }) => kind),
    evaluate: (columns, n) => plan.run(state, n, si(columns, n))[0] as Float64Array,
    evaluateGuided: (columns, n) => {
      const [result, ...others] = guides.columns(si(columns, n), n);
      return { values: result as Float64Array, guides: others };
    },
    corners: () => allCorners(study, state, givens, { leaders, follow }, plan),
  };
}

/** All corners in one run, with what must keep its sign for them to be the extremes. */
function allCorners(
  study: Study,
  state: ProgramState,
  givens: readonly GivenNode[],
  { leaders, follow }: Tied,
  plan: BlockPlan,
): ReturnType<Law["corners"]> {
  const { program, id } = study;
  const slots = givens.map((given) => program.slot(given.id));
  const ends = [0, 1].map((end) => follow(leaders.map(() => Float64Array.of(end))).map(([part]) => part as number));
  const leading = leadersOf({ leaders, follow }, givens.length);
  const { isAtCorners, definite } = monotone(
    program.tape,
    plan,
    leaders.map((_, k) => slots.filter((_, i) => leading[i] === k)),
    program.slot(id),
  );
  const asked = isAtCorners ? [...new Set([program.slot(id), ...definite])] : [program.slot(id)];
  const columns = givens.map((given, i) => {
    const [low, high] = ends.map((parts) => betweenLimits(given)(parts[i] as number)) as [number, number];
    const bit = leading[i] as number;
    return (out: Float64Array, start: number, n: number): void => {
      for (let row = 0; row < n; row++) out[row] = ((start + row) >> bit) & 1 ? high : low;
    };
  });
  const found = new BlockPlan(program.tape, slots, asked).run(state, 1 << leaders.length, columns) as Float64Array[];
  return { values: found[0] as Float64Array, areExtremes: isAtCorners && found.slice(1).every(keepsSign) };
}

function keepsSign(column: Float64Array): boolean {
  return column.every((value) => value > 0) || column.every((value) => value < 0);
}

/** Share of the spread by which a bound may lie beyond an extreme that is in doubt and still stand in its place. */
const provedWithin = 0.01;

/**
 * The nominal belongs to the worst case: rounding of its part of the way must not leave it outside. An end that the search doubts and a
 * bound comes near is the bound: a little too far out, and safe.
 */
function describe({ low, high }: Extremes, point: (found: Extreme) => RangePoint, nominal: number, bounds: Bounds | undefined): WorstCase {
  const found = { low: Math.min(low.value, nominal), high: Math.max(high.value, nominal) };
  const near = provedWithin * (found.high - found.low);
  const [lowDoubt, highDoubt] = [low, high].map(({ doubts }) => doubts.join("; "));
  const isLowBound = lowDoubt !== "" && bounds !== undefined && bounds.low >= found.low - near;
  const isHighBound = highDoubt !== "" && bounds !== undefined && bounds.high <= found.high + near;
  return {
    low: isLowBound ? bounds.low : found.low,
    high: isHighBound ? bounds.high : found.high,
    lowAt: point(low),
    highAt: point(high),
    searched: low.inside || high.inside,
    ...(bounds !== undefined && { bounds }),
    ...(lowDoubt !== "" && !isLowBound && { lowDoubt: lowDoubt as string }),
    ...(highDoubt !== "" && !isHighBound && { highDoubt: highDoubt as string }),
  };
}

/** The values of the givens where an extreme lies: `WorstCaseFound.places` in SI. */
export function pointAt({ givens }: Study, place: At): RangePoint {
  return pointIn(place, givens, tie(givens));
}

function pointIn(place: At, givens: readonly GivenNode[], { follow }: Tied): RangePoint {
  const parts = follow(Array.from(place, (part) => Float64Array.of(part))).map(([part]) => part as number);
  return Object.fromEntries(givens.map((given, k) => [given.id, betweenLimits(given)(parts[k] as number)]));
}
