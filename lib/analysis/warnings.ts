/** Sentences that an analysis adds to the document. */

import type { Graph } from "../graph/graph";
import type { GraphNode, NodeId } from "../graph/node";
import { drawnDeviation } from "./expanded";
import type { SpreadKind, SpreadPart } from "./kinds";
import { finiteValues, moments } from "./quantile";
import type { Contribution, WorstCase } from "./result";

/** Standard deviations to first order and by sampling may differ by this share of the larger. */
const agreement = 0.1;

/** Of the first that disagree, by the draws of either kind of spread. */
export function disagreementWarnings(
  node: GraphNode,
  parts: readonly SpreadPart[],
  drawn: Readonly<Record<SpreadKind, Float64Array | undefined>>,
  contributions: readonly Contribution[],
): string[] {
  const found = (["production", "knowledge"] as const).flatMap((kind) => {
    const own = parts.filter((part) => part.kind === kind);
    const column = drawn[kind];
    if (column === undefined || own.length === 0) return [];
    return disagreementWarning(node, drawnDeviation(own, contributions), moments(finiteValues(column)).deviation);
  });
  return found.slice(0, 1);
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

/** Whether a warning is about contributions alone: value, worst case, interval and verdict are as good without it. */
export function isOfShares(warning: string): boolean {
  return /its contributions are approximate|of the variance of .*: by correlation/.test(warning);
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

/** Where the search for the worst case has cause for doubt. */
export function doubtWarning({ lowDoubt, highDoubt }: WorstCase): string[] {
  const told = (end: string, doubt: string | undefined): string[] =>
    doubt === undefined ? [] : [`The ${end} end of the worst case was searched and may fall short: ${doubt}.`];
  if (lowDoubt !== undefined && lowDoubt === highDoubt)
    return [`Both ends of the worst case were searched and may fall short: ${lowDoubt}.`];
  return [...told("low", lowDoubt), ...told("high", highDoubt)];
}
