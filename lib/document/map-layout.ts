/** Lays out the map of decisions: which decision rests on which, and which requirements rest on them. */
import { Graph as Layout, layout } from "@dagrejs/dagre";
import type { Graph } from "../graph/graph";
import type { NodeId } from "../graph/node";
import type { DecisionBlock } from "../sheet/block";
import type { BookData, MapLayout, MapPlace } from "./book-data";

interface Item {
  readonly decision?: DecisionBlock;
  readonly requirements?: readonly string[];
  /** Choices that it rests on. */
  readonly rests: ReadonlySet<NodeId>;
}

const lineHeight = 18;
const letter = 8;
const padding = 10;

export function mapLayout(book: Pick<BookData, "blocks" | "requirements">, graph: Graph): MapLayout {
  const items = [...decisions(book, graph), ...requirements(book, graph)];
  const index = new Map(items.flatMap(({ decision }, place) => (decision ? [[decision.choice, place] as const] : [])));
  const edges = items.flatMap(({ rests }, to) =>
    [...rests].flatMap((choice) => {
      const from = index.get(choice);
      return from === undefined ? [] : [{ from, to }];
    }),
  );
  return draw(items, direct(edges));
}

/** Each choice once, resting on the choices behind the results that its alternatives are compared by. */
function decisions({ blocks }: Pick<BookData, "blocks">, graph: Graph): Item[] {
  return Object.values(blocks).flatMap((block) => {
    if (block.type !== "decision") return [];
    const compared = block.alternatives.flatMap(({ values }) => Object.values(values));
    const rests = choicesBehind(compared, graph);
    rests.delete(block.choice);
    return [{ decision: block, rests }];
  });
}

/** Requirements that rest on the same choices share a place; those that rest on none are not on the map. */
function requirements({ requirements: all }: Pick<BookData, "requirements">, graph: Graph): Item[] {
  const groups = new Map<string, { requirements: string[]; rests: ReadonlySet<NodeId> }>();
  for (const { id, answers } of all) {
    const rests = choicesBehind(
      answers.map(({ node }) => node),
      graph,
    );
    if (rests.size === 0) continue;
    const key = [...rests].toSorted().join("\n");
    const group = groups.get(key) ?? { requirements: [], rests };
    group.requirements.push(id);
    groups.set(key, group);
  }
  return [...groups.values()];
}

function choicesBehind(nodes: readonly NodeId[], graph: Graph): Set<NodeId> {
  return new Set(graph.ancestors(nodes).filter((id) => graph.get(id).kind === "choice"));
}

interface Edge {
  readonly from: number;
  readonly to: number;
}

/** Without the lines that a longer way already tells. */
function direct(edges: readonly Edge[]): Edge[] {
  const leads = (from: number, to: number, seen: Set<number>): boolean =>
    edges.some((edge) => {
      if (edge.from !== from || seen.has(edge.to)) return false;
      seen.add(edge.to);
      return edge.to === to || leads(edge.to, to, seen);
    });
  return edges.filter(({ from, to }) => {
    const between = edges.filter((edge) => edge.from === from && edge.to !== to);
    return !between.some((edge) => leads(edge.to, to, new Set([from, edge.to])) && !leads(edge.to, from, new Set([edge.to])));
  });
}

function draw(items: readonly Item[], edges: readonly Edge[]): MapLayout {
  const graph = new Layout();
  graph.setGraph({ rankdir: "TB", nodesep: 18, ranksep: 34, marginx: 2, marginy: 2 });
  graph.setDefaultEdgeLabel(() => ({}));
  const texts = items.map(wording);
  texts.forEach(({ width, height }, index) => {
    graph.setNode(`${index}`, { width, height });
  });
  for (const { from, to } of edges) graph.setEdge(`${from}`, `${to}`);
  layout(graph);
  const places = items.map(({ decision, requirements: ids }, index): MapPlace => {
    const { x = 0, y = 0 } = graph.node(`${index}`) as { x?: number; y?: number };
    const { width, height, lines } = texts[index] as Wording;
    const box = [round(x - width / 2), round(y - height / 2), width, height] as const;
    return { box, lines, ...(decision && { decision: decision.choice }), ...(ids && { requirements: ids }) };
  });
  const lines = edges.map(({ from, to }) => {
    const { points = [] } = graph.edge({ v: `${from}`, w: `${to}` }) as { points?: readonly { x: number; y: number }[] };
    return { from, to, corners: points.map(({ x, y }) => [round(x), round(y)] as const) };
  });
  const { width = 0, height = 0 } = graph.graph() as { width?: number; height?: number };
  return { width: Math.ceil(width), height: Math.ceil(height), places, lines };
}

interface Wording {
  readonly lines: readonly string[];
  readonly width: number;
  readonly height: number;
}

/** A decision: its question, and a line for what was chosen. Requirements: a line each, with the verdict's mark. */
function wording({ decision, requirements: ids = [] }: Item): Wording {
  const lines = decision ? wrap(decision.question, 26) : [];
  const labels = decision ? decision.alternatives.map(({ label }) => label) : ids.map((id) => `✓ ${id}`);
  const longest = Math.max(...[...lines, ...labels].map((text) => text.length));
  const count = decision ? lines.length + 1 : ids.length;
  return { lines, width: Math.ceil(longest * letter) + 2 * padding, height: count * lineHeight + 2 * padding - 4 };
}

function wrap(text: string, width: number): string[] {
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
