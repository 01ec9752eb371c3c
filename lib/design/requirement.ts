/**
 * Requirements and their limits: `<= 1.3`, `>= 12 h`, `14 dB ±0.3 dB`, `60 kHz to 200 kHz`. A limit is kept in
 * coherent SI; a ± stated in dB is taken on the level.
 */

import type { Scalar } from "yaml";
import type { JudgedBy, Limit } from "../analysis/result";
import { exp } from "../quantity/elementary";
import type { LogScale, Spread } from "../quantity/spread";
import { Fields, mapOf } from "./fields";
import { type Entry, type LocatedFile, start } from "./locate";
import { list, nearest, suggestion } from "./nearest";
import type { RequirementRow } from "./types";
import { parseStated, scalarText } from "./value";

export const judgedWords: readonly JudgedBy[] = ["worst case", "95 %", "typical"];
export const requirementKeys = ["statement", "limit", "judged", "where", "source", "note"] as const;
const limitExample = `a limit such as "<= 1.3", ">= 12 h", "14 dB ±0.3 dB" or "60 kHz to 200 kHz"`;

interface StatedLimit {
  readonly limit: Limit;
  readonly text: string;
  readonly unit: string;
  readonly dimension: string;
}

/** One requirement, or undefined after reports. */
export function readRequirement(file: LocatedFile, { key: id, value }: Entry): RequirementRow | undefined {
  const map = mapOf(file, value, `requirement '${id}'`, "keys statement, limit and judged");
  if (!map) return undefined;
  const fields = new Fields(file, map, requirementKeys, `requirement '${id}'`);
  const statement = fields.requiredText("statement", "write the sentence that the product must meet");
  const stated = readLimit(fields);
  const judged = readJudged(fields);
  const [where, source, note] = [fields.text("where"), fields.text("source"), fields.text("note")];
  if (statement === undefined || !stated || !judged) return undefined;
  const place = file.place(start(fields.node("limit") ?? map));
  return { id, statement, ...stated, judged, place, ...(where && { where }), ...(source && { source }), ...(note && { note }) };
}

function readJudged(fields: Fields): JudgedBy | undefined {
  const text = fields.requiredText("judged", `write ${list(judgedWords, "or")}`);
  const word = judgedWords.find((judged) => judged === text?.replace(/^95\s*%$/, "95 %"));
  if (word || text === undefined) return word;
  fields.file.report(
    fields.node("judged") ?? fields.map,
    `unknown way to judge '${text}'`,
    list(judgedWords, "or"),
    suggestion(nearest(text, judgedWords, 1), "choose one of them"),
  );
  return undefined;
}

function readLimit(fields: Fields): StatedLimit | undefined {
  const node = fields.node("limit");
  if (!node) return void fields.missing("limit", `write ${limitExample}`);
  const what = `limit of ${fields.subject}`;
  const text = scalarText(fields.file, node, what);
  if (text === undefined) return undefined;
  const [, sign, rest = text] = /^\s*(<=|>=|≤|≥|<|>|=)?\s*(.*)$/s.exec(text) ?? [];
  if (sign === "<" || sign === ">" || sign === "=")
    return void fields.file.report(
      node,
      `${what} begins with '${sign}'`,
      limitExample,
      sign === "=" ? "state a tolerance" : `write ${sign}=`,
    );
  const parsed = parseStated(fields.file, node as Scalar, text, rest, what);
  if (!parsed) return undefined;
  const limit = sign ? oneSided(sign, parsed.nominal, parsed.spread) : twoSided(parsed.spread);
  if (!limit)
    return void fields.file.report(
      node,
      `${what} '${text}' sets no limit`,
      limitExample,
      sign ? "leave the tolerance out" : "add <=, >=, a ± or a range",
    );
  if (limit.low !== undefined && limit.high !== undefined && limit.low > limit.high)
    return void fields.file.report(node, `${what} has its minimum above its maximum`, "minimum ≤ maximum", "swap the two");
  return { limit, text, unit: parsed.unit, dimension: parsed.dimension };
}

function oneSided(sign: string, nominal: number, spread: Spread): Limit | undefined {
  if (spread.kind !== "exact") return undefined;
  return sign === "<=" || sign === "≤" ? { high: nominal } : { low: nominal };
}

function twoSided(spread: Spread): Limit | undefined {
  if (!("low" in spread)) return undefined;
  return { low: linear(spread.low, spread.scale), high: linear(spread.high, spread.scale) };
}

/** x = reference · 10^(level/factor). ISO 80000-1. */
function linear(x: number, scale: LogScale | undefined): number {
  return scale ? scale.reference * exp((x / scale.factor) * Math.LN10) : x;
}
