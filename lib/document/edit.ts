/** A given as the reader typed it: the same parser as the design file, and what becomes of a tolerance not stated. */
import type { GivenChange } from "../graph/graph";
import type { GivenNode } from "../graph/node";
import { unitOfNode } from "../graph/node-unit";
import { comparable, dimension } from "../quantity/dimension";
import { WorkingsError } from "../quantity/error";
import { formatInterval } from "../quantity/format";
import { limitsOf } from "../quantity/limits";
import { parseQuantity } from "../quantity/parse";
import type { LogScale, Spread } from "../quantity/spread";

export interface Edit {
  readonly change: GivenChange;
  /** Says what was done about the spread where the text states none. */
  readonly note?: string;
}

/**
 * The change that a text makes of a given. A text without a tolerance keeps the relative tolerance of the design
 * file (the absolute one about zero, and for temperatures; the level in dB where it is stated so); a range keeps
 * its ends, and the nominal must lie between them. Throws WorkingsError for text that is no quantity of the
 * given's dimension.
 */
export function editGiven(node: GivenNode, text: string): Edit {
  const asked = dimension(node.dimension);
  const quantity = parseQuantity(text, { dimension: asked });
  if (!comparable(quantity.dimension, asked)) {
    throw new WorkingsError("dimension", `this given is a ${asked.label}; '${text}' is a ${quantity.dimension.label}`);
  }
  if (!Number.isFinite(quantity.si)) throw new WorkingsError("not-finite", `'${text}' is not a finite number`);
  const change = { nominal: quantity.si, text: text.trim() };
  if (quantity.spread.kind !== "exact" || node.spread.kind === "exact") return { change: { ...change, spread: quantity.spread } };
  const spread = keptSpread(node, quantity.si);
  return { change: { ...change, spread }, note: keptNote(spread, quantity.si, node) };
}

function keptNote(spread: Spread, nominal: number, node: GivenNode): string {
  const words = spread.kind === "range" ? "range kept" : "relative tolerance kept";
  return `${words}: ${limits(spread, nominal, node)}`;
}

function limits(spread: Spread, nominal: number, node: GivenNode): string {
  const [low, high] = limitsOf(spread, nominal);
  return formatInterval(low, high, unitOfNode(node));
}

function levelOf(si: number, { factor, reference }: LogScale): number {
  return factor * Math.log10(si / reference);
}

function keptSpread(node: GivenNode, nominal: number): Spread {
  const { spread, nominal: before } = node;
  if (spread.kind === "exact") return spread;
  if (spread.kind === "range") return insideRange(spread, node, nominal);
  if (spread.scale) return moved(spread, levelOf(nominal, spread.scale) - levelOf(before, spread.scale), 1);
  const absolute = before === 0 || unitOfNode(node).affine === true;
  return absolute ? moved(spread, nominal - before, 1) : moved(spread, 0, nominal / before);
}

function moved(spread: Exclude<Spread, { kind: "exact" }>, shift: number, factor: number): Spread {
  if (spread.kind === "normal") return { ...spread, sigma: spread.sigma * Math.abs(factor) };
  const ends = [spread.low * factor + shift, spread.high * factor + shift];
  return { ...spread, low: Math.min(...ends), high: Math.max(...ends) };
}

function insideRange(range: Extract<Spread, { kind: "range" }>, node: GivenNode, nominal: number): Spread {
  const [low, high] = limitsOf(range, nominal);
  if (nominal >= low && nominal <= high) return range;
  throw new WorkingsError(
    "quantity-text",
    `this is a condition of use from ${limits(range, nominal, node)}; state the new range with the value, such as '${node.text}'`,
  );
}
