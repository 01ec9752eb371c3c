/** What becomes of a given's spread when only its nominal value is changed. */
import type { GivenNode } from "../graph/node";
import { WorkingsError } from "../quantity/error";
import { toLevel } from "../quantity/level";
import type { Spread } from "../quantity/spread";
import { unitOf } from "../quantity/unit";

/**
 * The relative tolerance stays (the absolute one about zero, and for temperatures; the level in dB where it is stated
 * so). A range, a condition of use, keeps its ends, and a list of values that holds the new nominal stays as it is.
 */
export function keptSpread(node: GivenNode, nominal: number): Spread {
  const { spread, nominal: before } = node;
  if (spread.kind === "exact" || spread.kind === "range") return spread;
  if (spread.kind === "discrete" && spread.values.includes(nominal)) return spread;
  if (spread.kind !== "discrete" && spread.scale && !(nominal / spread.scale.reference > 0))
    throw new WorkingsError(
      "level",
      `${node.path}: its tolerance is stated in decibels or as a factor, so its value is above 0, not ${nominal}`,
      {
        node: node.id,
      },
    );
  if (spread.kind !== "discrete" && spread.scale) return moved(spread, toLevel(nominal, spread.scale) - toLevel(before, spread.scale), 1);
  const absolute = before === 0 || unitOf(node.unit).affine === true;
  return absolute ? moved(spread, nominal - before, 1) : moved(spread, 0, nominal / before);
}

/** The same of a spread and the doubt beside it. */
export function keptSpreads(node: GivenNode, nominal: number): { readonly spread: Spread; readonly doubt?: Spread } {
  const { doubt } = node;
  const spread = keptSpread(node, nominal);
  return doubt === undefined ? { spread } : { spread, doubt: keptSpread({ ...node, spread: doubt }, nominal) };
}

function moved(spread: Exclude<Spread, { kind: "exact" | "range" }>, shift: number, factor: number): Spread {
  if (spread.kind === "normal") return { ...spread, sigma: spread.sigma * Math.abs(factor) };
  if (spread.kind === "discrete") return { ...spread, values: spread.values.map((value) => value * factor + shift) };
  const ends = [spread.low * factor + shift, spread.high * factor + shift];
  return { ...spread, low: Math.min(...ends), high: Math.max(...ends) };
}
