/** Ends of a result's spread by name: what links in text, and whoever shows one number of a spread, can ask for. */
import type { Evaluation } from "../analysis/evaluation";
import type { NodeId } from "../graph/node";
import { roundOutward } from "../quantity/format";
import { fixedText, outwardDecimals } from "../quantity/number-text";
import type { Unit } from "../quantity/quantity";

export const endNames = ["worst-low", "worst-high", "units-low", "units-high", "doubt-low", "doubt-high"] as const;
/** Of the worst case; of the middle 95 % of units; of what the middle unit could be. */
export type EndName = (typeof endNames)[number];

export function isEndName(name: string): name is EndName {
  return endNames.some((one) => one === name);
}

/** Both ends of the spread that an end belongs to, SI; the nominal value twice where there is none. */
function bothEnds(end: EndName, node: NodeId, evaluation: Evaluation): readonly [number, number] {
  const { nominal, worst, interval, doubt } = evaluation.analysis(node);
  const spread = end.startsWith("worst") ? worst : end.startsWith("units") ? interval : doubt;
  return [spread?.low ?? nominal, spread?.high ?? nominal];
}

/** One end, SI. */
export function endOf(end: EndName, node: NodeId, evaluation: Evaluation): number {
  return bothEnds(end, node, evaluation)[end.endsWith("low") ? 0 : 1];
}

/** One end with its unit, rounded outward at the digits that both ends get together. */
export function endText(end: EndName, node: NodeId, unit: Unit<any>, evaluation: Evaluation): string {
  const [low, high] = bothEnds(end, node, evaluation).map((si) => unit.fromSI(si)) as [number, number];
  const rounded = roundOutward(low, high, 2)[end.endsWith("low") ? 0 : 1] as number;
  const number = fixedText(rounded, outwardDecimals(low, high, 2));
  return unit.symbol === "1" ? number : `${number}\u00a0${unit.symbol}`;
}
