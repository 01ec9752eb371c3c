/** What the unit that a sheet asks for makes of a stated value: no temperature below zero, no bytes counted as a number. */
import { afterEach, beforeEach, expect, it } from "vitest";
import { readDesign } from "../../lib/design/read";
import { Session } from "../../lib/sheet/session";
import { Worksheet } from "../../lib/sheet/worksheet";
import { bit, byte, celsius, one, unitOf } from "../../lib/units";

const head = 'product: { name: Asked, revision: "1" }\nsources: { own: { type: document, title: Made up for this test } }\ngivens:\n';
const design = readDesign(
  `${head}
  cold: { value: -5 K, meaning: a difference or a mistake, source: own }
  loose: { value: 5 K ±10 K, meaning: a difference or a mistake, source: own }
  packet: { value: 20 byte, meaning: size of a packet, source: own }
  count: { value: "160", meaning: a number, source: own }
`,
  "design.yaml",
);
const shared = globalThis as Record<symbol, unknown>;
const sinkKey = Symbol.for("workings.display");
beforeEach(() => {
  shared[sinkKey] = () => undefined;
});
afterEach(() => {
  delete shared[sinkKey];
});
const sheet = () => new Worksheet(new Session("asked", design), ".");

it("refuses kelvins below zero as a temperature, and takes them as a difference", () => {
  expect(() => sheet().given({ T: ["cold", celsius] })).toThrow(
    "cold, -5 K, reaches below absolute zero; as a difference ask for it in Δ°C",
  );
  expect(() => sheet().given({ T: ["loose", celsius] })).toThrow("reaches below absolute zero");
  expect(() => sheet().part("second", "cold", celsius)).toThrow("reaches below absolute zero");
  expect(() => sheet().assume("later", "cold", celsius)).toThrow("reaches below absolute zero");
  expect(sheet().given({ dT: ["cold", unitOf("Δ°C")] }).dT.si).toBe(-5);
});

it("reads bytes in bits or bytes, not as a plain number, nor a number as bits", () => {
  expect(
    sheet()
      .given({ N: ["packet", bit] })
      .N.in(bit),
  ).toBe(160);
  expect(
    sheet()
      .given({ N: ["packet", byte] })
      .N.in(byte),
  ).toBe(20);
  expect(() => sheet().given({ N: ["packet", one] })).toThrow("packet is information; the worksheet asks for dimensionless");
  expect(() => sheet().given({ N: ["count", byte] })).toThrow("count is dimensionless; the worksheet asks for information");
});

it("refuses a temperature below zero in a table", () => {
  const table =
    "  cell: { meaning: a curve, source: own, table: { columns: [temperature in °C, voltage in V], interpolation: linear, rows: [[-300, 1], [20, 2]] } }\n";
  expect(() => readDesign(head + table, "design.yaml")).toThrow("-300 lies below absolute zero");
});
