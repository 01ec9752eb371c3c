/** Lays out the map of decisions: which decision rests on which, and which requirements rest on them. */
import type { Graph } from "../../graph/graph";
import type { NodeId } from "../../graph/node";
import type { DecisionBlock } from "../../sheet/block";
import { type Box, type Corner, wrap } from "../drawing/boxes";
import { inRanks } from "../drawing/ranks";
import type { BookData, MapLayout, MapPlace } from "../model/book-data";

interface Item {
  readonly decision?: DecisionBlock;
  readonly requirements?: readonly string[];
  /** Choices that it rests on. */
  readonly rests: ReadonlySet<NodeId>;
}

const lineHeight = 18;
const letter = 8;
const padding = 10;
const widest = 620;

export function mapLayout(book: Pick<BookData, "blocks" | "requirements">, graph: Graph): MapLayout {
  const items = [...decisions(book, graph), ...requirements(book, graph)].toSorted((a, b) => byName(nameOf(a), nameOf(b)));
  const index = new Map(items.flatMap(({ decision }, place) => (decision ? [[decision.choice, place] as const] : [])));
  const edges = items.flatMap(({ rests }, to) =>
    [...rests].flatMap((choice) => {
      const from = index.get(choice);
      return from === undefined ? [] : [{ from, to }];
    }),
  );
  return fromTop(
    draw(
      items,
      direct(edges).toSorted((a, b) => a.from - b.from || a.to - b.to),
    ),
  );
}

/** The key by which places are sorted before they are laid out, so that the order of the sheets does not change the map. */
function nameOf({ decision, requirements: ids = [] }: Item): string {
  return decision?.choice ?? ids.join("\n");
}

const byName = (a: string, b: string) => (a < b ? -1 : a > b ? 1 : 0);

/** Places from top to bottom and from left to right, as the list beside the map tells them. */
function fromTop({ places, lines, ...size }: MapLayout): MapLayout {
  const order = places
    .map((_, index) => index)
    .toSorted((a, b) => {
      const [[x, y], [u, v]] = [(places[a] as MapPlace).box, (places[b] as MapPlace).box];
      return y - v || x - u;
    });
  const turned = lines.map(({ from, to, corners }) => ({ from: order.indexOf(from), to: order.indexOf(to), corners }));
  return {
    ...size,
    places: order.map((index) => places[index] as MapPlace),
    lines: turned.toSorted((a, b) => a.from - b.from || a.to - b.to),
  };
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
  const texts = items.map(wording);
  const { width, height, boxes, corners } = inRanks({ sizes: texts, lines: edges, widest, beside: 18 });
  const places = items.map(({ decision, requirements: ids }, index): MapPlace => {
    const { lines } = texts[index] as Wording;
    return { box: boxes[index] as Box, lines, ...(decision && { decision: decision.choice }), ...(ids && { requirements: ids }) };
  });
  return { width, height, places, lines: edges.map(({ from, to }, index) => ({ from, to, corners: corners[index] as readonly Corner[] })) };
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
