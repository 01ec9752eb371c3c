/**
 * What an evaluation has found, in brief: a published document holds it, so that opening computes nothing and a change only what it
 * reaches. What follows quickly from the graph and the rest is left out: where a worst case lies in SI, and the contributions.
 */
import type { NodeId } from "../graph/node";
import { WorkingsError } from "../quantity/error";
import { type Ask, answering, passesKey, verdictKey, yieldKey } from "./ask";
import type { Band } from "./band";
import type { Evaluation } from "./evaluation";
import type { FoundData } from "./found";
import type { Analysis, Bounds, Interval, Verdict, Yield } from "./result";
import { ancestry, type Study } from "./study";
import { lawArguments } from "./validity";
import { pointAt, type WorstCaseFound } from "./worst-case";

/** JSON has no −0, no infinity and no NaN: these are words. */
type Exact = number | string;
/** Parts of the way between the limits; a text of the digits 0 and 1 where every one is at a limit. */
type Place = string | readonly number[];

/** `[low, high, where they lie, searched, tried, failed, doubts, bounds]`; bounds are 1 where they are the ends themselves. */
export type BriefWorst = readonly [
  low: Exact,
  high: Exact,
  lowPlace: Place,
  highPlace: Place,
  searched: 0 | 1,
  tried: number,
  failed: number,
  lowDoubt?: string | null,
  highDoubt?: string | null,
  bounds?: 1 | BriefBounds,
];

/** `[low, high]`, then the models whose declared ways they rest on. */
type BriefBounds = readonly [low: Exact, high: Exact, ...given: string[]];

/** `[low, high, samples]`. */
type BriefInterval = readonly [low: Exact, high: Exact, samples: number];

export interface BriefAnalysis {
  readonly interval: BriefInterval | null;
  readonly doubt?: BriefInterval;
  readonly outside?: readonly string[];
  readonly warnings?: readonly string[];
}

export interface BriefFound {
  readonly worst: Readonly<Record<NodeId, BriefWorst | null>>;
  readonly analyses: Readonly<Record<NodeId, BriefAnalysis>>;
  readonly bands: Readonly<Record<NodeId, { readonly [K in keyof Band]: readonly Exact[] }>>;
  readonly verdicts: Readonly<Record<string, Verdict>>;
  /** By node and limit: the number of units drawn, and how many meet it between one that does not and the next. */
  readonly passes: Readonly<Record<string, readonly [units: number, ...gaps: number[]]>>;
  readonly yields: Readonly<Record<string, Yield>>;
}

/** The answers to some asks and all that they rest on; what has no answer is left out. The same whatever else the evaluation has found. */
export function briefOf(evaluation: Evaluation, asks: readonly Ask[]): BriefFound {
  const answered = asks.filter((ask) => isComputed(() => [...answering(ask, evaluation)]));
  const of = <K extends Ask["kind"]>(kind: K) => answered.filter((ask): ask is Extract<Ask, { kind: K }> => ask.kind === kind);
  const analysed = of("analysis").map(({ node }) => node);
  const judged = [...analysed, ...of("verdict").map(({ node }) => node), ...of("validity").map(({ node }) => node)];
  // What the validity of laws has looked at is known only then.
  const checked = judged.filter((id) => isComputed(() => evaluation.outside(id)));
  const yields = of("yield").map(({ asked }) => asked);
  for (const { node, limit } of yields.flat()) evaluation.passes(node, limit);
  const { graph, found } = evaluation;
  return {
    worst: record(
      new Set([
        ...analysed,
        ...lawArguments(
          graph,
          checked.flatMap((id) => ancestry(graph, id)),
        ),
      ]),
      found.worst,
      briefWorst,
    ),
    analyses: record(analysed, found.analyses, briefAnalysis),
    bands: record(
      of("band").map(({ node }) => node),
      found.bands,
      (band) => exactly(mapped(band, (column) => [...(column as Float64Array)])),
    ) as BriefFound["bands"],
    verdicts: record(of("verdict").map(verdictKey), found.verdicts, exactly) as BriefFound["verdicts"],
    passes: record(yields.flat().map(passesKey), found.passes, gapsOf),
    yields: record(yields.map(yieldKey), found.yields, exactly) as BriefFound["yields"],
  };
}

function record<T, B>(
  keys: readonly string[] | ReadonlySet<string>,
  found: ReadonlyMap<string, T>,
  shorten: (value: T) => B,
): Record<string, B> {
  const missing = [...keys].find((key) => !found.has(key));
  if (missing !== undefined) throw new Error(`an answer rests on '${missing}', which was not computed`);
  return Object.fromEntries([...keys].map((key) => [key, shorten(found.get(key) as T)]));
}

/** False where the values allow no answer. */
function isComputed(ask: () => unknown): boolean {
  try {
    ask();
    return true;
  } catch (error) {
    if (!(error instanceof WorkingsError)) throw error;
    return false;
  }
}

function briefWorst(found: WorstCaseFound | undefined): BriefWorst | null {
  if (found === undefined) return null;
  const { worst, places, tried, failed } = found;
  const [low, high] = places.map(placeOf) as [Place, Place];
  const { lowDoubt, highDoubt, bounds } = worst;
  const bare = [exact(worst.low), exact(worst.high), low, high, worst.searched ? 1 : 0, tried, failed] as const;
  const doubted = [...bare, lowDoubt ?? null, highDoubt ?? null] as const;
  if (bounds === undefined) return lowDoubt === undefined && highDoubt === undefined ? bare : doubted;
  const isWhole = Object.is(bounds.low, worst.low) && Object.is(bounds.high, worst.high);
  return [...doubted, isWhole && bounds.given === undefined ? 1 : [exact(bounds.low), exact(bounds.high), ...(bounds.given ?? [])]];
}

/** The same as was found. */
export function restoredWorst(brief: BriefWorst | null, study: Study): WorstCaseFound | undefined {
  if (brief === null) return undefined;
  const [low, high, lowPlace, highPlace, searched, tried, failed, lowDoubt, highDoubt, bounds] = brief;
  const places = [lowPlace, highPlace].map((place) => Float64Array.from(place, Number)) as [Float64Array, Float64Array];
  const worst = {
    low: Number(low),
    high: Number(high),
    lowAt: pointAt(study, places[0]),
    highAt: pointAt(study, places[1]),
    searched: searched === 1,
    ...(lowDoubt != null && { lowDoubt }),
    ...(highDoubt != null && { highDoubt }),
    ...(bounds !== undefined && { bounds: bounds === 1 ? pair([low, high]) : pair(bounds) }),
  };
  return { worst, tried, failed, places };
}

const pair = ([low, high, ...given]: BriefBounds): Bounds => ({
  low: Number(low),
  high: Number(high),
  ...(given.length > 0 && { given }),
});

function placeOf(place: Float64Array): Place {
  return place.every((part) => Object.is(part, 0) || part === 1) ? place.join("") : [...place];
}

function briefAnalysis({ interval, doubt, outside, warnings }: Analysis): BriefAnalysis {
  return {
    interval: interval && briefInterval(interval),
    ...(doubt && { doubt: briefInterval(doubt) }),
    ...(outside && { outside }),
    ...(warnings.length > 0 && { warnings }),
  };
}

/** What is kept whole. */
export function restored({ bands, verdicts, passes, yields }: BriefFound): Pick<FoundData, "bands" | "verdicts" | "passes" | "yields"> {
  const column = (values: readonly Exact[]) => Float64Array.from(values, Number);
  const band = (kept: BriefFound["bands"][string]) =>
    Object.fromEntries(Object.entries(kept).map(([name, values]) => [name, column(values)])) as unknown as Band;
  const map = <T, B>(record: Readonly<Record<string, B>>, lengthen: (value: B) => T) =>
    new Map(Object.entries(record).map(([key, value]) => [key, lengthen(value)]));
  return {
    bands: map(bands, band),
    verdicts: map(verdicts, (value) => inexact(value) as Verdict),
    passes: map(passes, passesOf),
    yields: map(yields, (value) => inexact(value) as Yield),
  };
}

function briefInterval({ low, high, samples }: Interval): BriefInterval {
  return [exact(low), exact(high), samples];
}

/** The same as was found. */
export function restoredIntervals({ interval, doubt }: BriefAnalysis): Pick<Analysis, "interval" | "doubt"> {
  const whole = ([low, high, samples]: BriefInterval): Interval => ({ low: Number(low), high: Number(high), samples });
  return { interval: interval && whole(interval), ...(doubt && { doubt: whole(doubt) }) };
}

function gapsOf(passes: Uint8Array): readonly [number, ...number[]] {
  const gaps: number[] = [];
  let last = -1;
  for (const [row, passed] of passes.entries()) {
    if (passed === 1) continue;
    gaps.push(row - last - 1);
    last = row;
  }
  return [passes.length, ...gaps];
}

function passesOf([units, ...gaps]: readonly [number, ...number[]]): Uint8Array {
  const passes = new Uint8Array(units).fill(1);
  let row = -1;
  for (const gap of gaps) {
    row += gap + 1;
    passes[row] = 0;
  }
  return passes;
}

const words: readonly string[] = ["NaN", "Infinity", "-Infinity", "-0"];

function exact(value: number): Exact {
  return Number.isFinite(value) && !Object.is(value, -0) ? value : Object.is(value, -0) ? "-0" : String(value);
}

/** Every number within plain data. */
function exactly(value: unknown): unknown {
  if (typeof value === "number") return exact(value);
  return mapped(value, exactly);
}

function inexact(value: unknown): unknown {
  if (typeof value === "string" && words.includes(value)) return Number(value);
  return mapped(value, inexact);
}

function mapped(value: unknown, change: (value: unknown) => unknown): unknown {
  if (Array.isArray(value)) return value.map(change);
  if (typeof value !== "object" || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, own]) => [key, change(own)]));
}
