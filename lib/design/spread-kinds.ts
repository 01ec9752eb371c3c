/**
 * Which kind the spread of a given is: `spread: knowledge` where it says what nobody has measured, the same in every unit; production, units
 * that differ, where nothing is said. `doubt` beside a tolerance of production states both.
 */
import { isScalar, type Node } from "yaml";
import type { GivenNode } from "../graph/node";
import { readDoubt } from "../quantity/doubt";
import { WorkingsError } from "../quantity/error";
import { Quantity } from "../quantity/quantity";
import { unitOf } from "../quantity/unit";
import type { Fields } from "./fields";
import { faultOf, type StatedValue, scalarText } from "./value";

export const kindKeys = ["spread", "doubt"] as const;
export const spreadWords = ["production", "knowledge"] as const;

type Kinds = Pick<GivenNode, "text" | "knowledge" | "doubt">;

/** Kind and doubt of a stated value, with its text; undefined after a report. */
export function readKinds(fields: Fields, stated: StatedValue): Kinds | undefined {
  const word = fields.node("spread");
  const doubt = fields.node("doubt");
  const isKnowledge = word !== undefined && isScalar(word) && word.value === "knowledge";
  if (word !== undefined && !wordIsSound(fields, word, stated)) return undefined;
  if (doubt === undefined) return { text: stated.text, ...(isKnowledge && { knowledge: true }) };
  const refused = isKnowledge
    ? ([
        "has spread: knowledge, and a doubt beside it",
        "one of the two",
        "delete spread where the tolerance is of units, else widen the tolerance",
      ] as const)
    : withoutTolerance(stated);
  if (refused) return void fields.file.report(doubt, `${fields.subject} ${refused[0]}`, refused[1], refused[2]);
  return besideTolerance(fields, doubt, stated);
}

/** Where what a leaf holds has no spread of its own. */
export function refuseKinds(fields: Fields, why: string, remedy: string): void {
  for (const key of kindKeys) {
    const node = fields.node(key);
    if (node) fields.file.report(node, `${fields.subject} has a key '${key}', but ${why}`, `no key '${key}'`, remedy);
  }
}

function wordIsSound(fields: Fields, node: Node, { spread }: StatedValue): boolean {
  const { file, subject } = fields;
  const found = isScalar(node) ? String(node.value) : "no word";
  if (!spreadWords.some((word) => word === found)) {
    file.report(node, `spread of ${subject} is '${found}'`, "production or knowledge", "write knowledge where nobody has measured it");
    return false;
  }
  if (spread.kind === "range") {
    file.report(
      node,
      `${subject} is a condition of use, which every unit meets: it is of neither kind`,
      "no key 'spread' beside a range",
      "delete it, or state a tolerance instead of the range",
    );
    return false;
  }
  if (spread.kind !== "exact") return true;
  file.report(node, `${subject} is exact: it has no spread that could be of a kind`, "a tolerance", "state one, or delete spread");
  return false;
}

function withoutTolerance({ spread, text }: StatedValue): readonly [fault: string, expected: string, remedy: string] | undefined {
  if (spread.kind === "exact")
    return ["has a doubt, but no tolerance beside it", "a value with a tolerance", `write value: ${text} ±… and spread: knowledge`];
  if (spread.kind === "range")
    return [
      "is a condition of use, which is never drawn and has no doubt",
      "a value with a tolerance",
      "state the doubt as a given of its own that the law adds",
    ];
  if (spread.kind === "discrete")
    return [
      "is a list of values, which has no doubt beside it",
      "a value with a tolerance",
      "state the doubt as a given of its own that the law multiplies",
    ];
  return undefined;
}

function besideTolerance(fields: Fields, node: Node, stated: StatedValue): Kinds | undefined {
  const what = `doubt of ${fields.subject}`;
  const text = scalarText(fields.file, node, what);
  if (text === undefined) return undefined;
  const unit = unitOf(stated.unit);
  try {
    const value = new Quantity<any>(stated.nominal, unit.dimension, unit, { spread: stated.spread });
    return { text: `${stated.text}, doubt ${text}`, doubt: readDoubt(text, value) };
  } catch (error) {
    if (!(error instanceof WorkingsError)) throw error;
    return void fields.file.report(
      node,
      `${what}: ${faultOf(error)}`,
      "how far the value may be off, such as ±8 %",
      "mend the text; it is read behind the value",
    );
  }
}
