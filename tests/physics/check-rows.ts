/** Rows of independently computed or published values: read, and held against the library in the unit of the expected value. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readReferences } from "../../lib/design/reference";
import { evaluate } from "../../lib/formula/evaluate";
import type { AnyFormula } from "../../lib/formula/formula";
import type { GivenNode, TableNode } from "../../lib/graph/node";
import { unitOf } from "../../lib/units";

export interface CheckRow {
  readonly id: string;
  readonly inputs: Readonly<Record<string, string>>;
  readonly expected: Readonly<Record<string, string>>;
  readonly tolerance_rel?: number;
  readonly tolerance_abs?: Readonly<Record<string, string>>;
  readonly source: string;
}

type Inputs = CheckRow["inputs"];
export type Computed = Readonly<Record<string, (inputs: Inputs, expected: CheckRow["expected"]) => Readonly<Record<string, number>>>>;

const read = (path: string): string => readFileSync(new URL(path, import.meta.url), "utf8");

/** How the rows write units, and how they are meant. */
const written = [
  ["mohm", "mΩ"],
  ["ohm", "Ω"],
  ["Pa²h", "Pa²·h"],
  ["kg/m3", "kg/m³"],
  [" (uniform)", ""],
] as const;

function parts(text: string | undefined): readonly [number, string] {
  const plain = written.reduce((words, [as, meant]) => words.replace(as, meant), text ?? "");
  const [, number = "", unit = ""] = /^\s*([-+\d.]+(?:e[-+]?\d+)?)\s*(.*)$/.exec(plain) ?? [];
  return [Number(number), unit || "1"];
}

/** SI value of "number unit". */
export function si(text: string | undefined): number {
  const [number, unit] = parts(text);
  return unitOf(unit).toSI(number);
}

/** A law of SI values; a numerical value equation through its units. */
export function law({ expression, numerical }: AnyFormula, symbols: Readonly<Record<string, number>>): number {
  if (numerical === undefined) return evaluate(expression, symbols);
  const numbers = Object.entries(symbols).map(([symbol, x]) => [symbol, unitOf(numerical.arguments[symbol] ?? "").fromSI(x)]);
  return unitOf(numerical.result).toSI(evaluate(expression, Object.fromEntries(numbers)));
}

/** A reference table of data/reference. */
export function reference(name: string) {
  const { nodes } = readReferences({ [`${name}.yaml`]: read(`../../data/reference/${name}.yaml`) });
  return {
    value: (entry: string): number => (nodes.get(`reference.${name}.${entry}`) as GivenNode).nominal,
    table: (entry: string): TableNode => nodes.get(`reference.${name}.${entry}`) as TableNode,
    size: nodes.size,
  };
}

/** Runs every row of tests/checks/<subject>.json; `count` is how many values they expect. */
export function checkRows(subject: string, computed: Computed, count: number): void {
  const rows: readonly CheckRow[] = JSON.parse(read(`../checks/${subject}.json`));
  const lines = rows.flatMap((row) => linesOf(row, computed[row.id]?.(row.inputs, row.expected) ?? {}));
  describe(`published and independently computed values of ${subject}`, () => {
    for (const { title, off, tolerance } of lines) {
      it(title, () => {
        expect(Math.abs(off)).toBeLessThanOrEqual(tolerance);
      });
    }

    it("leave no row uncomputed", () => {
      expect(rows.map(({ id }) => id).filter((id) => !(id in computed))).toEqual([]);
      expect(lines.length).toBe(count);
    });
  });
}

function linesOf(row: CheckRow, outputs: Readonly<Record<string, number>>) {
  return Object.entries(row.expected).map(([name, text]) => {
    const [expected, unit] = parts(text);
    const got = unitOf(unit).fromSI(outputs[name] ?? Number.NaN);
    const absolute = row.tolerance_abs?.[name];
    const tolerance = absolute === undefined ? (row.tolerance_rel ?? 0) * Math.abs(expected) : parts(absolute)[0];
    const title = `${row.id} ${name}: expected ${text}, got ${Number(got.toPrecision(8))}, within ${Number(tolerance.toPrecision(2))}; ${row.source}`;
    return { title, off: got - expected, tolerance };
  });
}
