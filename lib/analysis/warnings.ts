/** Sentences that an analysis adds to the document. */

import type { Graph } from "../graph/graph";
import { isUnnamed } from "../graph/identity";
import { isCurveNode } from "../graph/lower";
import { modelNamed } from "../graph/model";
import type { GraphNode, NodeId, ValidityLimit } from "../graph/node";
import { format } from "../quantity/format";
import { unitOf } from "../quantity/unit";
import type { Contribution } from "./result";

/** Standard deviations to first order and by sampling may differ by this share of the larger. */
const agreement = 0.1;

/** A value of a node in its unit. */
function valueText(node: GraphNode, si: number): string {
  return Number.isFinite(si) ? format({ si, unit: unitOf(node.unit) }) : String(si);
}

export function disagreementWarning(node: GraphNode, firstOrder: number, sampled: number): string[] {
  if (!(Math.abs(firstOrder - sampled) > agreement * Math.max(firstOrder, sampled))) return [];
  const percent = Math.round(100 * Math.abs(1 - firstOrder / sampled));
  const side = firstOrder < sampled ? "smaller" : "larger";
  const difference = sampled === 0 ? "above zero, by sampling zero" : `${percent} % ${side} than by sampling`;
  return [
    `To first order the standard deviation of ${node.symbol ?? node.id} is ${difference}, so its contributions are approximate (the two should agree within ${100 * agreement} %); its interval and worst case are not affected.`,
  ];
}

/** Of correlated givens: those that make the result's spread smaller. */
export function negativeShareWarning(graph: Graph, id: NodeId, contributions: readonly Contribution[]): string[] {
  const negative = contributions.filter(({ share }) => share < 0).map(({ given }) => nameOf(graph, given));
  if (negative.length === 0) return [];
  const share = negative.length === 1 ? "has a negative share" : "have negative shares";
  return [
    `${negative.join(" and ")} ${share} of the variance of ${nameOf(graph, id)}: by correlation with others the spread is smaller than without.`,
  ];
}

function nameOf(graph: Graph, id: NodeId): string {
  return graph.get(id).symbol ?? id;
}

export function failureWarning(failed: number, tried: number, what: string): string[] {
  return failed === 0
    ? []
    : [
        `${failed} of ${tried} ${what} have no value (a table left, a division by zero or a number outside a function's domain); they are left out.`,
      ];
}

interface Reach {
  readonly nominal: number;
  readonly low: number;
  readonly high: number;
}

/** For the law of a node, and of unnamed intermediates and curves before it, which nothing else warns of: arguments that leave the limits of validity. */
export function validityWarnings(graph: Graph, id: NodeId, reach: (id: NodeId) => Reach): string[] {
  const warnings: string[] = [];
  const pending = [id];
  const seen = new Set(pending);
  for (let next = pending.pop(); next !== undefined; next = pending.pop()) {
    const node = graph.get(next);
    const follow = (id: NodeId): void => {
      if (seen.has(id) || !(isUnnamed(id) || isCurveNode(graph, id))) return;
      seen.add(id);
      pending.push(id);
    };
    if (node.kind === "curve-operation") for (const id of [node.of, ...(node.argument === undefined ? [] : [node.argument])]) follow(id);
    if (node.kind !== "formula" && node.kind !== "model") continue;
    for (const limit of limitsOf(node)) {
      const argument = node.arguments[limit.symbol];
      if (argument !== undefined && !isCurveNode(graph, argument))
        warnings.push(...validityWarning(graph.get(argument), limit, reach(argument)));
    }
    for (const argument of Object.values(node.arguments)) follow(argument);
  }
  return warnings;
}

function limitsOf(node: GraphNode): readonly ValidityLimit[] {
  if (node.kind === "formula") return node.valid ?? [];
  return node.kind === "model" ? (modelNamed(node.model).valid ?? []) : [];
}

function validityWarning(argument: GraphNode, limit: ValidityLimit, { nominal, low, high }: Reach): string[] {
  const outside = [nominal, low, high].find((value) => value < limit.low || value > limit.high);
  if (outside === undefined) return [];
  const where = outside === nominal ? "here" : "in the worst case";
  return [`${limit.symbol} is ${valueText(argument, outside)} ${where}; the law holds ${bounds(argument, limit)}.`];
}

function bounds(argument: GraphNode, { low, high }: ValidityLimit): string {
  if (low === -Infinity) return `up to ${valueText(argument, high)}`;
  if (high === Infinity) return `from ${valueText(argument, low)}`;
  return `from ${valueText(argument, low)} to ${valueText(argument, high)}`;
}
