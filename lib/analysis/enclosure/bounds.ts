/**
 * The extremes of a result over a box, proved or enclosed. Along an input of which the way is known, the extreme lies at an end: those
 * inputs are set there. Where that is all of them, the two corners are the worst case. Else the box is split along the others, the part
 * with the furthest bound first, until the bound meets the value that a search found or the budget is spent (branch and bound; R. E.
 * Moore, R. B. Kearfott and M. J. Cloud, Introduction to Interval Analysis, SIAM 2009, section 11.5).
 */
import { special } from "../../graph/code";
import type { GivenNode, NodeId } from "../../graph/node";
import type { Program } from "../../graph/program";
import type { ProgramState } from "../../graph/state";
import { betweenLimits } from "../distribution";
import type { Bounds } from "../result";
import type { Tied } from "../tie";
import { type Box, enclose, type Known } from "./enclosure";
import { FurthestFirst } from "./furthest-first";
import { type Heading, unknown, type Way } from "./heading";

/** Instructions that the splitting for one end may cost, and the share of the spread at which a bound is as good as met. */
const usual = 40_000;
/** What the two calls of a model cost, in instructions: less than most, more than some. */
const perModel = 100;
const nearEnough = 1e-3;

/** Part of the way, from and to, of each coordinate. */
type Parts = readonly (readonly [from: number, to: number])[];

export class Enclosure {
  readonly #program: Program;
  readonly #state: ProgramState;
  readonly #positions: readonly number[];
  readonly #givens: readonly GivenNode[];
  readonly #tied: Tied;
  readonly #values: readonly ((part: number) => number)[];
  readonly #slots: readonly number[];
  readonly #output: number;
  /** Of one part, in instructions. */
  readonly #cost: number;
  readonly #first: ReturnType<typeof enclose>;

  constructor(program: Program, state: ProgramState, givens: readonly GivenNode[], tied: Tied, id: NodeId) {
    this.#program = program;
    this.#state = state;
    this.#givens = givens;
    this.#tied = tied;
    this.#values = givens.map(betweenLimits);
    this.#slots = givens.map((given) => program.slot(given.id));
    this.#output = program.slot(id);
    this.#positions = program.plan(
      givens.map((given) => given.id),
      [id],
    ).positions;
    const { words, specials } = program.tape;
    const models = this.#positions.filter((at) => words[at] === special && specials[words[at + 2] as number]?.kind === "model");
    this.#cost = this.#positions.length + perModel * models.length;
    this.#first = this.#over(tied.leaders.map(() => [0, 1] as const));
  }

  /** Which way the result goes along each coordinate, over the whole box. */
  get ways(): Heading {
    return this.#first.heading;
  }

  /** Models that the ways and bounds rest on. */
  get given(): readonly string[] {
    return this.#first.given;
  }

  /** Whether the extremes lie at the corners that `corner` names. */
  get isKnown(): boolean {
    return this.ways.every((way) => way !== unknown);
  }

  /** Part of the way of each coordinate at which the result is highest (sign 1) or lowest (−1); of one that does not matter or is not known, the nominal's. */
  readonly corner = (sign: 1 | -1, nominal: ArrayLike<number>): Float64Array => {
    const at = (way: Way, k: number): number => (way === 0 || way === unknown ? (nominal[k] as number) : way === sign ? 1 : 0);
    return Float64Array.from(this.ways as Int8Array & ArrayLike<Way>, at);
  };

  /** Bounds about the extremes that a search found; absent where no finite one is known. */
  bounds(low: number, high: number, budget = usual): Bounds | undefined {
    const { interval } = this.#first;
    if (!Number.isFinite(interval.low) || !Number.isFinite(interval.high)) return undefined;
    const near = nearEnough * (high - low);
    const found = { low: -this.#furthest(-1, -low, near, budget), high: this.#furthest(1, high, near, budget) };
    return this.given.length === 0 ? found : { ...found, given: this.given };
  }

  /** The least upper bound of sign·result that the budget finds. */
  #furthest(sign: 1 | -1, reached: number, near: number, budget: number): number {
    const start: Parts = Array.from(this.ways, (way) => endOf(way as Way, sign) ?? ([0, 1] as const));
    const open = new FurthestFirst<{ readonly parts: Parts; readonly bound: number }>();
    open.add({ parts: start, bound: this.#bound(start, sign) });
    let closed = reached;
    for (let spent = 0; spent < budget; spent += 2 * this.#cost) {
      const part = open.first;
      if (part === undefined || part.bound <= reached + near) break;
      open.take();
      const k = widest(part.parts);
      if (k === undefined) {
        closed = Math.max(closed, part.bound);
        continue;
      }
      for (const half of halves(part.parts, k)) {
        const { parts, bound } = this.#narrowed(half, sign);
        open.add({ parts, bound: Math.min(bound, part.bound) });
      }
    }
    return Math.max(open.first?.bound ?? closed, closed);
  }

  #bound(parts: Parts, sign: 1 | -1): number {
    const { low, high } = this.#over(parts).interval;
    return sign > 0 ? high : -low;
  }

  /** A part in which more ways are known, these coordinates at their ends. */
  #narrowed(parts: Parts, sign: 1 | -1): { readonly parts: Parts; readonly bound: number } {
    const { interval, heading } = this.#over(parts);
    const own = sign > 0 ? interval.high : -interval.low;
    const set = parts.map(([from, to], k): readonly [number, number] => {
      const end = from === to ? undefined : endOf(heading[k] as Way, sign);
      return end === undefined ? [from, to] : end[0] === 0 ? [from, from] : [to, to];
    });
    const isMore = set.some(([from, to], k) => from === to && parts[k]?.[0] !== parts[k]?.[1]);
    return isMore ? { parts: set, bound: Math.min(own, this.#bound(set, sign)) } : { parts, bound: own };
  }

  #over(parts: Parts): ReturnType<typeof enclose> {
    return enclose(this.#program.tape, this.#positions, this.#state, this.#box(parts), this.#output);
  }

  #box(parts: Parts): Box {
    const [lower, upper] = [0, 1].map((end) =>
      this.#tied.follow(parts.map((part) => Float64Array.of(part[end] as number))).map(([part]) => part as number),
    ) as [number[], number[]];
    const known = this.#givens.map((_, i): Known => {
      const of = this.#values[i] as (part: number) => number;
      const [first, last] = [of(lower[i] as number), of(upper[i] as number)];
      const heading = new Int8Array(parts.length);
      const leader = this.#leaderOf(i);
      if (first !== last) heading[leader] = first < last ? 1 : -1;
      return { interval: { low: Math.min(first, last), high: Math.max(first, last) }, heading };
    });
    return { slots: this.#slots, known, dimensions: parts.length };
  }

  #leaders: readonly number[] | undefined;

  #leaderOf(i: number): number {
    this.#leaders ??= leadersOf(this.#tied, this.#givens.length);
    return this.#leaders[i] as number;
  }
}

/** Where a known way puts a coordinate for the highest (sign 1) or lowest value; undefined where it is not known or stands still. */
function endOf(way: Way, sign: 1 | -1): readonly [number, number] | undefined {
  return way === unknown ? undefined : way === sign ? [1, 1] : [0, 0];
}

function widest(parts: Parts): number | undefined {
  let [found, most] = [-1, 0];
  parts.forEach(([from, to], k) => {
    if (to - from > most) [found, most] = [k, to - from];
  });
  return found < 0 || most < 1e-9 ? undefined : found;
}

function halves(parts: Parts, k: number): Parts[] {
  const [from, to] = parts[k] as readonly [number, number];
  const middle = (from + to) / 2;
  return [[from, middle] as const, [middle, to] as const].map((half) => parts.map((part, j) => (j === k ? half : part)));
}

/** Of each given, the coordinate that moves it. */
export function leadersOf({ leaders, follow }: Tied, count: number): number[] {
  const still = follow(leaders.map(() => Float64Array.of(0)));
  const moved = leaders.map((_, k) => follow(leaders.map((_, j) => Float64Array.of(j === k ? 1 : 0))));
  return Array.from({ length: count }, (_, i) =>
    moved.findIndex((parts) => (parts[i] as Float64Array)[0] !== (still[i] as Float64Array)[0]),
  );
}
