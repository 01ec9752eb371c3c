/**
 * JSON as Python's `json.dumps(value, indent=1, sort_keys=True, ensure_ascii=False, separators=(",", ": "))` writes
 * it, and Python's `str.splitlines(True)`: what nbformat uses, so that files do not change with the tool that saved them.
 */

export type Json = null | boolean | number | string | Json[] | JsonObject;
export interface JsonObject {
  [key: string]: Json;
}

/** No newline at the end. Members with an undefined value are left out. */
export function pythonJson(value: Json): string {
  return write(value, "\n");
}

/** The lines of a text with their ends kept. "" has none. */
export function splitLines(text: string): string[] {
  return (
    text.match(
      /[^\n\r\v\f\x1c-\x1e\x85\u2028\u2029]*(?:\r\n|[\n\r\v\f\x1c-\x1e\x85\u2028\u2029])|[^\n\r\v\f\x1c-\x1e\x85\u2028\u2029]+$/g,
    ) ?? []
  );
}

function write(value: Json, newline: string): string {
  if (typeof value === "number") return pythonNumber(value);
  if (value === null || typeof value !== "object") return JSON.stringify(value);
  const inner = `${newline} `;
  const [open, close] = Array.isArray(value) ? "[]" : "{}";
  const items = Array.isArray(value)
    ? value.map((item) => write(item, inner))
    : Object.keys(value)
        .filter((key) => value[key] !== undefined)
        .sort(byCodePoint)
        .map((key) => `${JSON.stringify(key)}: ${write(value[key] as Json, inner)}`);
  return items.length === 0 ? `${open}${close}` : `${open}${inner}${items.join(`,${inner}`)}${newline}${close}`;
}

/** Both languages print the shortest digits that read back; they differ in when the exponent appears and its width. */
export function pythonNumber(x: number): string {
  const text = JSON.stringify(x);
  const scientific = /^(-?\d(?:\.\d+)?)e([+-])(\d+)$/.exec(text);
  if (scientific) return `${scientific[1]}e${scientific[2]}${(scientific[3] as string).padStart(2, "0")}`;
  const small = /^(-?)0\.0000(0*)(\d+)$/.exec(text);
  if (!small) return text;
  const digits = small[3] as string;
  const exponent = 5 + (small[2] as string).length;
  return `${small[1]}${digits[0]}${digits.length > 1 ? `.${digits.slice(1)}` : ""}e-${String(exponent).padStart(2, "0")}`;
}

/** Python orders strings by code point, JavaScript by UTF-16 unit: they differ above U+FFFF. */
function byCodePoint(a: string, b: string): number {
  if (a === b) return 0;
  const left = [...a],
    right = [...b];
  for (let i = 0; i < Math.min(left.length, right.length); i++) {
    const difference = codePoint(left[i]) - codePoint(right[i]);
    if (difference !== 0) return difference;
  }
  return left.length - right.length;
}

const codePoint = (character: string | undefined) => character?.codePointAt(0) ?? 0;
