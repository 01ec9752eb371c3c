/** Boxes and the lines between them, laid out when the book is published (dagre). */
import { Graph as Layout, layout } from "@dagrejs/dagre";

export interface Size {
  readonly width: number;
  readonly height: number;
}

export interface Line {
  readonly from: number;
  readonly to: number;
  /** How strongly it is kept short and straight, default 1. */
  readonly weight?: number;
}

export type Corner = readonly [x: number, y: number];
/** Left upper corner and size. */
export type Box = readonly [x: number, y: number, width: number, height: number];

export interface Arranged extends Size {
  readonly boxes: readonly Box[];
  readonly corners: readonly (readonly Corner[])[];
}

export interface Spacing {
  readonly beside: number;
  readonly between: number;
}

/** From top to bottom: a box for each size and the corners of each line. Two lines between the same boxes are kept apart. */
export function arrange(sizes: readonly Size[], lines: readonly Line[], { beside, between }: Spacing): Arranged {
  const graph = new Layout({ multigraph: true });
  graph.setGraph({ rankdir: "TB", nodesep: beside, ranksep: between, marginx: 2, marginy: 2 });
  graph.setDefaultEdgeLabel(() => ({}));
  sizes.forEach(({ width, height }, index) => {
    graph.setNode(`${index}`, { width, height });
  });
  lines.forEach(({ from, to, weight = 1 }, index) => {
    graph.setEdge(`${from}`, `${to}`, { weight }, `${index}`);
  });
  layout(graph);
  const boxes = sizes.map(({ width, height }, index): Box => {
    const { x = 0, y = 0 } = graph.node(`${index}`) as { x?: number; y?: number };
    return [round(x - width / 2), round(y - height / 2), width, height];
  });
  const corners = lines.map(({ from, to }, index) => {
    const { points = [] } = graph.edge({ v: `${from}`, w: `${to}`, name: `${index}` }) as { points?: readonly { x: number; y: number }[] };
    return points.map(({ x, y }): Corner => [round(x), round(y)]);
  });
  const { width = 0, height = 0 } = graph.graph() as { width?: number; height?: number };
  return { width: Math.ceil(width), height: Math.ceil(height), boxes, corners };
}

/** A text in lines of so many letters at most, broken between words. */
export function wrap(text: string, width: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(/\s+/)) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= width) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}

function round(value: number): number {
  return Math.round(value * 10) / 10;
}
