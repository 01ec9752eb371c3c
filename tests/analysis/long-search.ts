/** Extremes of a law of few inputs without the library's search: a grid, and from its best points a compass search of halving steps. */
import { Graph } from "../../lib/graph/graph";
import type { GraphNode } from "../../lib/graph/node";
import { Program } from "../../lib/graph/program";

interface Box {
  readonly id: string;
  readonly low: number;
  readonly high: number;
}

const stepsFor = [0, 0, 0, 40, 20, 11];
const kept = 40;

/** Low and high of node `y`. */
export function grid(nodes: readonly GraphNode[], inputs: readonly Box[]): readonly [number, number] {
  const program = Program.compile(Graph.from(nodes), ["y"]);
  const values = (points: readonly (readonly number[])[]): Float64Array =>
    program.block(
      points.length,
      new Map(inputs.map(({ id, low, high }, k) => [id, Float64Array.from(points, (at) => low + (high - low) * (at[k] as number))])),
      ["y"],
    )[0] as Float64Array;
  const n = (stepsFor[inputs.length] as number) + 1;
  const points = Array.from({ length: n ** inputs.length }, (_, i) => inputs.map((_, k) => (Math.floor(i / n ** k) % n) / (n - 1)));
  const found = values(points);
  const order = [...points.keys()].sort((i, j) => (found[i] as number) - (found[j] as number));
  const climb = (start: number, sign: number): number => compass(values, points[start] as readonly number[], found[start] as number, sign);
  return [Math.min(...order.slice(0, kept).map((i) => climb(i, -1))), Math.max(...order.slice(-kept).map((i) => climb(i, 1)))];
}

function compass(
  values: (points: readonly (readonly number[])[]) => Float64Array,
  start: readonly number[],
  value: number,
  sign: number,
): number {
  let [at, best] = [start, value];
  for (let step = 1 / 16; step > 1e-7; ) {
    const polls = at.flatMap((_, k) => [step, -step].map((by) => at.map((t, j) => (j === k ? Math.min(1, Math.max(0, t + by)) : t))));
    const found = values(polls);
    let better = -1;
    for (let i = 0; i < polls.length; i++)
      if ((found[i] as number) * sign > (better < 0 ? best : (found[better] as number)) * sign) better = i;
    if (better < 0) step /= 2;
    else [at, best] = [polls[better] as readonly number[], found[better] as number];
  }
  return best;
}
