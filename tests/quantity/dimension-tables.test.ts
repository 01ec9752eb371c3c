import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
// @ts-expect-error a build script, without declarations
import { generateTables } from "../../.build/generate-types.mjs";
import { dimension } from "../../lib/quantity/dimension";
import { keyOf, namedDimensions } from "../../lib/quantity/named-dimensions";
import { unitOf } from "../../lib/quantity/unit";

test("the tables of types are what the generator writes from the rows", async () => {
  const committed = readFileSync(new URL("../../lib/quantity/dimension-tables.ts", import.meta.url), "utf8");
  expect(await generateTables()).toBe(committed);
});

test("there are at least 55 named dimensions, no name or key twice", () => {
  expect(namedDimensions.length).toBeGreaterThanOrEqual(55);
  expect(new Set(namedDimensions.map(keyOf)).size).toBe(namedDimensions.length);
  expect(new Set(namedDimensions.map(({ name }) => name)).size).toBe(namedDimensions.length);
});

test.each(namedDimensions.map((row) => [row.name, row] as const))(
  "%s has a canonical key and a coherent unit of its SI dimension",
  (_, row) => {
    expect(dimension(keyOf(row))).toMatchObject({ key: keyOf(row), si: row.si, label: row.label });
    const unit = unitOf(row.unit, dimension(keyOf(row)));
    expect(unit.dimension.si).toBe(row.si);
    expect(unit.toSI(1)).toBe(1);
  },
);
