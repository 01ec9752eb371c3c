/** Changing one value of a design file and leaving every other byte as it was. */
import { isMap, isScalar, isSeq, type Node, parseDocument, type Scalar } from "yaml";
import { nearest, suggestion } from "../../lib/design/nearest";
import { WorkingsError } from "../../lib/quantity/error";

type Step = string | number;

/** The file with another value at a given: `editGiven(text, "rails.positive", "5 V ±5 %")`. */
export function editGiven(text: string, path: string, value: string): string {
  return replaceScalar(text, ["givens", ...path.split("."), "value"], value);
}

/** A reference table's file with another value at an entry: `editReference(text, "abs-density", "1.04 g/cm³ ±0.02 g/cm³")`. */
export function editReference(text: string, entry: string, value: string): string {
  return replaceScalar(text, ["entries", entry, "value"], value);
}

/** The file with another number in a table; row and column count from 0. `under`: where its tables stand, in a design file or a reference. */
export function editTableCell(
  text: string,
  path: string,
  row: number,
  column: number,
  value: number,
  under: "givens" | "entries" = "givens",
): string {
  if (!Number.isFinite(value)) throw new WorkingsError("not-finite", `a table cell cannot be ${value}; give a finite number`);
  return replaceScalar(text, [under, ...path.split("."), "table", "rows", row, column], value);
}

/** The file with another alternative chosen: `editDecision(text, "indicators.rail", "logic")`. */
export function editDecision(text: string, name: string, chosen: string): string {
  const path = name.replace(/^decisions\./, "").split(".");
  return replaceScalar(text, ["decisions", ...path, "chosen"], chosen);
}

function replaceScalar(text: string, steps: readonly Step[], value: string | number): string {
  const old = scalarAt(text, steps);
  const [from, to] = old.range ?? [0, 0];
  const candidates = typeof value === "number" ? [String(value)] : [inStyleOf(old, value), JSON.stringify(value)];
  for (const candidate of candidates) {
    const edited = text.slice(0, from) + candidate + text.slice(to);
    if (reads(edited, steps, value)) return edited;
  }
  throw new WorkingsError("design", `'${value}' cannot be written at ${steps.join(".")}; give one line of text`);
}

function inStyleOf(old: Scalar, value: string): string {
  if (old.type === "QUOTE_SINGLE") return `'${value.replaceAll("'", "''")}'`;
  return old.type === "PLAIN" ? value : JSON.stringify(value);
}

// A plain scalar may come out as another value, or break the file: it is read again before it is trusted.
function reads(edited: string, steps: readonly Step[], value: string | number): boolean {
  const document = parseDocument(edited, { logLevel: "silent" });
  if (document.errors.length > 0) return false;
  const found = document.getIn(steps, true);
  return isScalar(found) && (found.value === value || (typeof found.value === "number" && found.source === value));
}

function scalarAt(text: string, steps: readonly Step[]): Scalar {
  let node: Node | null | undefined = parseDocument(text, { logLevel: "silent" }).contents;
  steps.forEach((step, index) => {
    const keys: string[] = isMap(node) ? node.items.map(({ key }) => String(isScalar(key) ? key.value : key)) : [];
    const next: unknown = isMap(node) || isSeq(node) ? node.get(step, true) : undefined;
    if (next === undefined) throw missing(steps.slice(0, index + 1), keys);
    node = next as Node | null;
  });
  if (isScalar(node)) return node;
  throw new WorkingsError("path", `${steps.join(".")} holds no single value; name a value of the file`);
}

function missing(steps: readonly Step[], keys: readonly string[]): WorkingsError {
  const last = String(steps.at(-1));
  return new WorkingsError(
    "path",
    `the file has no ${steps.join(".")}; ${suggestion(nearest(last, keys), "look at the keys of the file")}`,
  );
}
