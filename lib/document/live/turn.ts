/** An input turned by the reader: the text typed for a given, read as the design file is; a table scaled by a factor. */
import { keptSpread, keptSpreads } from "../../analysis/kept-spread";
import type { GivenChange, TableChange } from "../../graph/graph";
import type { GivenNode, TableNode } from "../../graph/node";
import { comparable, dimension } from "../../quantity/dimension";
import { readDoubt, splitKinds } from "../../quantity/doubt";
import { WorkingsError } from "../../quantity/error";
import { formatInterval } from "../../quantity/format";
import { limitsOf } from "../../quantity/limits";
import { parseQuantity } from "../../quantity/parse";
import type { Quantity } from "../../quantity/quantity";
import type { Spread } from "../../quantity/spread";
import { unitOf } from "../../quantity/unit";

export interface TurnedGiven {
  readonly change: GivenChange;
  /** Says what was done about the spread where the text states none. */
  readonly note?: string;
}

/**
 * The change that a text makes of a given. A text without a tolerance keeps the relative tolerance of the design
 * file (the absolute one about zero, and for temperatures; the level in dB where it is stated so), and so does the doubt beside it; a
 * range keeps its ends, and the nominal must lie between them. `…, doubt ±8 %` states the doubt, `…, knowledge` or `…, production` the kind
 * of the spread; either word alone leaves the value. Throws WorkingsError for text that is no quantity of the given's dimension.
 */
export function turnGiven(node: GivenNode, text: string): TurnedGiven {
  const { value, doubt, kind } = splitKinds(text);
  if (kind !== undefined) refuseKind(node, kind);
  if (value === "")
    return {
      change: { nominal: node.nominal, spread: node.spread, text: `${splitKinds(node.text).value}, ${kind}`, ...(kind && { kind }) },
    };
  const asked = dimension(node.dimension);
  const quantity = parseQuantity(value, { dimension: asked });
  if (!comparable(quantity.dimension, asked)) {
    throw new WorkingsError("dimension", `this given is a ${asked.label}; '${text}' is a ${quantity.dimension.label}`);
  }
  if (!Number.isFinite(quantity.si)) throw new WorkingsError("not-finite", `'${text}' is not a finite number`);
  const change = { nominal: quantity.si, text: text.trim(), ...(kind && { kind }) };
  if (doubt !== undefined) return { change: { ...change, spread: quantity.spread, doubt: statedDoubt(node, doubt, quantity) } };
  const beside = kind === undefined && node.doubt !== undefined && keptSpreads(node, quantity.si).doubt;
  const spreads = { ...(beside && { doubt: beside }) };
  if (quantity.spread.kind !== "exact" || node.spread.kind === "exact") {
    const note = beside ? { note: `doubt kept: ${limits(beside, quantity.si, node)}` } : {};
    return { change: { ...change, ...spreads, spread: quantity.spread }, ...note };
  }
  const spread = kept(node, quantity.si);
  return { change: { ...change, ...spreads, spread }, note: keptNote(spread, quantity.si, node) };
}

/** A condition of use and an exact value have no spread that could be of a kind. */
function refuseKind(node: GivenNode, kind: string): void {
  if (node.doubt !== undefined)
    throw new WorkingsError("usage", `${node.path} has both kinds of spread; write '${node.text}' with other numbers`);
  if (node.spread.kind === "range")
    throw new WorkingsError("usage", `${node.path} is a condition of use, which every unit meets; it cannot be ${kind}`);
}

function statedDoubt(node: GivenNode, text: string, quantity: Quantity<any>): Spread {
  if (quantity.spread.kind === "exact" || quantity.spread.kind === "range" || quantity.spread.kind === "discrete" || node.knowledge)
    throw new WorkingsError(
      "usage",
      `a doubt stands beside a tolerance of production; write ${node.path}=${quantity.toString()} ±…, knowledge`,
    );
  return readDoubt(text, quantity);
}

/**
 * The change that a factor makes of a table: `×0.95`, also `x 0.95`, `*0.95` or the bare number. Every ordinate is multiplied, a level in
 * decibels as the quantity that it is. No change for a factor of 1. Throws WorkingsError "usage" for anything but a positive finite number, "dimension" for temperatures in °C.
 */
export function scaleTable(node: TableNode, text: string): TableChange | undefined {
  const factor = Number(/^\s*[×x*]?\s*(\d*\.?\d+(?:e[+-]?\d+)?)\s*$/i.exec(text)?.[1] ?? "x");
  if (!(factor > 0 && factor < Infinity))
    throw new WorkingsError("usage", `'${text.trim()}' scales no table; write a positive factor for its ${node.yName}, such as ×0.95`);
  if (unitOf(node.unit).affine)
    throw new WorkingsError("dimension", `${node.yName} is a temperature in ${node.unit}, which has no factor; edit the rows instead`);
  if (factor === 1) return undefined;
  const y = node.y.map((value) => value * factor);
  if (y.every(Number.isFinite)) return { x: node.x, y, scale: factor };
  throw new WorkingsError("not-finite", `×${factor} takes ${node.yName} beyond the range of numbers; give a factor nearer to 1`);
}

/** What became of a table, in words. */
export function tableText({ x }: TableNode, change: TableChange | undefined): string {
  if (change === undefined) return `table of ${x.length} rows`;
  return change.scale === undefined ? "rows edited" : `×${change.scale}`;
}

function keptNote(spread: Spread, nominal: number, node: GivenNode): string {
  const words = spread.kind === "range" ? "range kept" : "relative tolerance kept";
  return `${words}: ${limits(spread, nominal, node)}`;
}

function limits(spread: Spread, nominal: number, node: GivenNode): string {
  const [low, high] = limitsOf(spread, nominal);
  return formatInterval(low, high, unitOf(node.unit));
}

/** As `keptSpread`; a condition of use that the nominal has left is an error, since nobody has stated the new one. */
function kept(node: GivenNode, nominal: number): Spread {
  const { spread } = node;
  if (spread.kind !== "range") return keptSpread(node, nominal);
  const [low, high] = limitsOf(spread, nominal);
  if (nominal >= low && nominal <= high) return spread;
  throw new WorkingsError(
    "quantity-text",
    `this is a condition of use from ${limits(spread, nominal, node)}; state the new range with the value, such as '${node.text}'`,
  );
}
