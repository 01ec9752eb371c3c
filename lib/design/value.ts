/** A quantity written in a YAML scalar: parsed strictly, with the place of an error inside the text. */
import { isScalar, type Node, type Scalar } from "yaml";
import { WorkingsError } from "../quantity/error";
import { parseQuantity } from "../quantity/parse";
import type { Spread } from "../quantity/spread";
import { type LocatedFile, start } from "./locate";

/** A value with its spread in coherent SI. */
export interface StatedValue {
  /** As the file states it. */
  readonly text: string;
  readonly nominal: number;
  readonly spread: Spread;
  readonly unit: string;
  readonly dimension: string;
  readonly at: number;
}

const example = "a number, a unit and perhaps a tolerance, such as 4.5 V ±2 %";

/** The quantity at a node, or undefined after a report. `what` begins the sentence: `value of 'rails.logic'`. */
export function statedValue(file: LocatedFile, node: Node, what: string): StatedValue | undefined {
  const text = scalarText(file, node, what);
  if (text === undefined) return undefined;
  const at = start(node);
  const parsed = parseStated(file, node as Scalar, text, text, what);
  return parsed && spreadIsSound(file, at, parsed, what) ? { text, at, ...parsed } : undefined;
}

/** The text of a scalar that should hold a quantity. Numbers keep the digits as typed. */
export function scalarText(file: LocatedFile, node: Node, what: string): string | undefined {
  if (!isScalar(node)) file.report(node, `${what} is not one line of text`, example, "write it after the key");
  else if (node.value === null || node.value === "") file.report(node, `${what} is missing`, example, "write it after the colon");
  else if (typeof node.value === "string") return notANumber(file, node, node.value, what);
  else if (typeof node.value === "number") return notANumber(file, node, node.source ?? String(node.value), what);
  else file.report(node, `${what} is ${String(node.value)}`, example, "write a quantity; quote it if it is text");
  return undefined;
}

function notANumber(file: LocatedFile, node: Scalar, text: string, what: string): string | undefined {
  const infinite = /(?:^|[\s±<>=(])[+-]?(?:\.?nan|\.?inf(?:inity)?|∞)(?![\p{L}\d])/iu.test(text) || isOverflow(node.value);
  if (!infinite) return text;
  file.report(node, `${what} is '${text}', which is no finite number`, example, "write the number, or leave the key out");
  return undefined;
}

function isOverflow(value: unknown): boolean {
  return typeof value === "number" && !Number.isFinite(value);
}

type Parsed = Omit<StatedValue, "text" | "at">;

/** Parses `text`, a part of the scalar's `whole` text, and reports an error at the column where it lies. */
export function parseStated(file: LocatedFile, node: Scalar, whole: string, text: string, what: string): Parsed | undefined {
  try {
    const quantity = parseQuantity(text);
    const { si, spread, unit, dimension } = quantity;
    return { nominal: si, spread, unit: unit.symbol || "1", dimension: dimension.key };
  } catch (error) {
    if (!(error instanceof WorkingsError)) throw error;
    const offset = within(file, node, whole) + Math.max(0, whole.indexOf(text)) + offsetOf(error);
    file.report(offset, `${what}: ${faultOf(error)}`, example, "mend the text");
    return undefined;
  }
}

/** Where the text of a scalar begins in the file: after the quote, if it has one. */
function within(file: LocatedFile, node: Scalar, text: string): number {
  const from = start(node);
  const inside = file.text.slice(from, node.range?.[1] ?? from).indexOf(text);
  return from + Math.max(0, inside);
}

/** How far into the text a parser of the quantity floor stopped. */
export function offsetOf({ details }: WorkingsError): number {
  return typeof details.column === "number" ? details.column - 1 : 0;
}

/** What the parser says, without its column within the text: the file's column is told instead. */
export function faultOf({ message }: WorkingsError): string {
  return message.replace(/ at column \d+/, "");
}

function spreadIsSound(file: LocatedFile, at: number, value: Parsed, what: string): boolean {
  const numbers = Object.values(value.spread).filter((x): x is number => typeof x === "number");
  if (![value.nominal, ...numbers].every(Number.isFinite)) {
    file.report(at, `${what} is no finite number`, example, "write the number, or leave the key out");
    return false;
  }
  if (!("low" in value.spread) || value.spread.low <= value.spread.high) return true;
  file.report(at, `${what} has its minimum above its maximum`, "minimum ≤ typical ≤ maximum", "swap the two");
  return false;
}
