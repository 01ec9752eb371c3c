/**
 * Laws used outside the range in which they hold. A law's arguments are looked at where they are nominally and, unless only the
 * nominal value counts, in their own worst case; along a sweep only at the nominal point. Limits that a law states in words alone
 * (`holds`) are not seen.
 */
import type { Graph } from "../graph/graph";
import { isUnnamed } from "../graph/identity";
import { isCurveNode } from "../graph/lower";
import { modelNamed } from "../graph/model";
import type { GraphNode, NodeId, ValidityLimit } from "../graph/node";
import { format } from "../quantity/format";
import { unitOf } from "../quantity/unit";

/** Where a value lies, SI. */
export interface Reach {
  readonly nominal: number;
  readonly low: number;
  readonly high: number;
}

/** An argument that leaves the range in which its law holds. */
export interface Outside {
  /** What the law gives. */
  readonly node: NodeId;
  /** `R = V/I`; the name of a model. */
  readonly law: string;
  /** `V is 5 V in the worst case; the law holds up to 4 V` */
  readonly fault: string;
}

/** For the laws of these nodes, in their order. */
export function outsideOf(graph: Graph, nodes: readonly NodeId[], reach: (id: NodeId) => Reach): Outside[] {
  return nodes.flatMap((id) => {
    const node = graph.get(id);
    if (node.kind !== "formula" && node.kind !== "model") return [];
    const limits = node.kind === "formula" ? node.valid : modelNamed(node.model).valid;
    return (limits ?? []).flatMap((limit): Outside[] => {
      const argument = node.arguments[limit.symbol];
      if (argument === undefined || isCurveNode(graph, argument)) return [];
      return faultOf(graph.get(argument), limit, reach(argument)).map((fault) => ({ node: id, law: lawName(node), fault }));
    });
  });
}

/** Arguments whose worst case {@link outsideOf} looks at, each once. */
export function lawArguments(graph: Graph, nodes: readonly NodeId[]): NodeId[] {
  const looked = new Set<NodeId>();
  const reach = (id: NodeId): Reach => {
    looked.add(id);
    return { nominal: Number.NaN, low: Number.NaN, high: Number.NaN };
  };
  outsideOf(graph, nodes, reach);
  return [...looked];
}

/** The node, and the unnamed intermediates and curves before it, which are shown nowhere else. */
export function shownWith(graph: Graph, id: NodeId, inputs: (id: NodeId) => readonly NodeId[]): NodeId[] {
  const found = [id];
  for (let i = 0; i < found.length; i++)
    for (const input of inputs(found[i] as NodeId))
      if (!found.includes(input) && (isUnnamed(input) || isCurveNode(graph, input))) found.push(input);
  return found;
}

function faultOf(argument: GraphNode, limit: ValidityLimit, { nominal, low, high }: Reach): string[] {
  const outside = [nominal, low, high].find((value) => value < limit.low || value > limit.high);
  if (outside === undefined) return [];
  const where = outside === nominal ? "here" : "in the worst case";
  return [`${limit.symbol} is ${valueText(argument, outside)} ${where}; the law holds ${bounds(argument, limit)}`];
}

function bounds(argument: GraphNode, { low, high }: ValidityLimit): string {
  if (low === -Infinity) return `up to ${valueText(argument, high)}`;
  if (high === Infinity) return `from ${valueText(argument, low)}`;
  return `from ${valueText(argument, low)} to ${valueText(argument, high)}`;
}

function valueText(node: GraphNode, si: number): string {
  return Number.isFinite(si) ? format({ si, unit: unitOf(node.unit) }) : String(si);
}

function lawName(node: GraphNode & { readonly kind: "formula" | "model" }): string {
  if (node.kind === "model") return node.model;
  return node.symbol === undefined ? node.text : `${node.symbol} = ${node.text}`;
}
