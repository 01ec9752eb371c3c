/** What laws drawn at random are made of: numbers from a seed, inputs within limits, sums and products of extremes. */
import type { GraphNode, NodeId } from "../../lib/graph/node";
import { formula, given, within } from "../graph/nodes";

export interface Law {
  readonly family: string;
  readonly text: string;
  readonly nodes: readonly GraphNode[];
  readonly inputs: number;
  readonly low: number;
  readonly high: number;
}

/** Numbers in [0, 1) from a seed (the mulberry32 generator of the public domain). */
export function random(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t = (t + Math.imul(t ^ (t >>> 7), t | 61)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export interface Input {
  readonly id: NodeId;
  readonly low: number;
  readonly high: number;
  readonly nominal: number;
}

export type Ends = readonly [number, number];

export class Draw {
  readonly #next: () => number;

  constructor(next: () => number) {
    this.#next = next;
  }

  between(low: number, high: number): number {
    return low + (high - low) * this.#next();
  }

  whole(low: number, high: number): number {
    return Math.floor(this.between(low, high + 1));
  }

  sign(): 1 | -1 {
    return this.#next() < 0.5 ? -1 : 1;
  }

  /** Limits about a middle, off centre, and a nominal somewhere between. */
  input(id: NodeId, middle: number, half: number): Input {
    const low = middle - half * this.between(0.6, 1);
    const high = middle + half * this.between(0.6, 1);
    return { id, low, high, nominal: low + (high - low) * this.between(0.3, 0.7) };
  }
}

export const nodesOf = (inputs: readonly Input[], text: string): GraphNode[] => [
  ...inputs.map(({ id, low, high, nominal }) => given(id, nominal, within(low, high))),
  formula("y", text),
];

export const law = (family: string, inputs: readonly Input[], text: string, [low, high]: Ends): Law => ({
  family,
  text,
  nodes: nodesOf(inputs, text),
  inputs: inputs.length,
  low,
  high,
});

export const many = <T>(count: number, make: (k: number) => T): T[] => Array.from({ length: count }, (_, k) => make(k));
export const num = (x: number): number => Number(x.toPrecision(6));
export const sumOf = (ends: readonly Ends[]): Ends => ends.reduce(([a, b], [low, high]): Ends => [a + low, b + high], [0, 0]);
export const hull = (values: readonly number[]): Ends =>
  values.reduce(([low, high], value): Ends => [Math.min(low, value), Math.max(high, value)], [Infinity, -Infinity] as Ends);
export const times = (c: number, [low, high]: Ends): Ends => (c < 0 ? [c * high, c * low] : [c * low, c * high]);
