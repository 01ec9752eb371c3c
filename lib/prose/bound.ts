/** Numbers in the text of a worksheet that are bound to results by links, held against what was computed. */
import type { Link, Nodes } from "mdast";
import remarkParse from "remark-parse";
import { unified } from "unified";
import { dimension } from "../quantity/dimension";
import { WorkingsError } from "../quantity/error";
import { format } from "../quantity/format";
import { parseQuantity } from "../quantity/parse";
import { unitOf } from "../quantity/unit";
import { type EndName, endNames, isEndName } from "../sheet/ends";
import { withinDepth } from "./depth";
import { isNumber, type LinkTargets, linkedEnd, linkedName, linkedResult } from "./links";

/** A result as a link sees it: nominal in coherent SI, with the unit it is shown in. */
export interface BoundResult {
  readonly nominal: number;
  readonly unit: string;
  readonly dimension: string;
}

export interface BoundTargets extends LinkTargets {
  /** `end`: one of {@link endNames}; the nominal value without. */
  result(id: string, end?: EndName): BoundResult;
}

export interface BoundProblem {
  /** Line within the Markdown, from 1. */
  readonly line: number;
  readonly message: string;
}

/** Half of the last digit is rounding, but no more than this share: "1 kΩ" is not said of 1.3 kΩ. */
const mostRounding = 0.05;
/** Ends of a spread are shown rounded outward: a whole last digit. */
const outward = 1.0000001;

/**
 * Every link of a Markdown text whose number is not the computed one to the digits that it shows, or that leads to a
 * result which does not exist. Links elsewhere and links in words are none of its business.
 */
export function boundProblems(markdown: string, sheet: string, targets: BoundTargets): BoundProblem[] {
  const found = withinDepth(markdown, () => links(unified().use(remarkParse).parse(markdown)));
  return found.flatMap((link) => {
    const message = problemOf(link, sheet, targets);
    return message === undefined ? [] : [{ line: link.position?.start.line ?? 1, message }];
  });
}

/** Targets of all links of a Markdown text, in order. */
export function markdownLinks(markdown: string): string[] {
  return withinDepth(markdown, () => links(unified().use(remarkParse).parse(markdown))).map(({ url }) => url);
}

function links(node: Nodes): Link[] {
  const own = node.type === "link" ? [node] : [];
  return "children" in node ? [...own, ...node.children.flatMap((child) => links(child))] : own;
}

function problemOf(link: Link, sheet: string, targets: BoundTargets): string | undefined {
  const name = linkedName(link.url, sheet);
  const text = textOf(link);
  if (name === undefined || (!link.url.includes(".ipynb") && !isNumber(text))) return undefined;
  const id = linkedResult(link.url, sheet, targets);
  if (id === undefined) return `[${text}](${link.url}) leads to no result; there is no ${name}`;
  if (!isNumber(text)) return undefined;
  const end = linkedEnd(link.url);
  if (end !== undefined && !isEndName(end))
    return `[${text}](${link.url}): ?${end} is none of ${endNames.map((name) => `?${name}`).join(", ")}`;
  return disagreement(text, targets.result(id, end), link.url, end === undefined ? 0.5000001 : outward);
}

function disagreement(text: string, result: BoundResult, url: string, rounding: number): string | undefined {
  const kind = dimension(result.dimension);
  const unit = unitOf(result.unit);
  const computed = format({ si: result.nominal, unit });
  try {
    const stated = parseQuantity(text.replace(/^[\s≈~]+/, ""), { dimension: kind });
    const inUnit = stated.unit.fromSI(result.nominal);
    const shown = stated.unit.fromSI(stated.si);
    const allowed = Math.min(rounding * lastDigit(text), mostRounding * Math.abs(inUnit));
    return Math.abs(inUnit - shown) <= allowed ? undefined : `[${text}](${url}) is ${computed} now`;
  } catch (error) {
    if (!(error instanceof WorkingsError)) throw error;
    return `[${text}](${url}) cannot be read as ${kind.label}: ${error.message}; the result is ${computed}`;
  }
}

/** The weight of the last digit that a number shows: 0.1 for `10.5 mW`, 10 for `910 Ω` (a trailing zero may be rounding). */
function lastDigit(text: string): number {
  const number = /\d[\d ]*(?:\.(\d+))?(?:[eE]([+-]?\d+))?/.exec(text);
  const power = Number(number?.[2] ?? 0);
  if (number?.[1] !== undefined) return Number(`1e${power - number[1].length}`);
  const zeros = /0*$/.exec((number?.[0] ?? "").replace(/[^\d].*$/, ""))?.[0].length ?? 0;
  return Number(`1e${power + zeros}`);
}

function textOf(node: Nodes): string {
  if ("value" in node) return node.value;
  return "children" in node ? node.children.map((child) => textOf(child)).join("") : "";
}
