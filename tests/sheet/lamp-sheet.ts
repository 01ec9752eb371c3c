/** A worksheet about a lamp, made anew for each test, and what it has shown. */
import { afterEach, beforeEach, expect } from "vitest";
import { readDesign } from "../../lib/design/read";
import type { GraphNode } from "../../lib/graph/node";
import type { Quantity } from "../../lib/quantity/quantity";
import type { Display } from "../../lib/sheet/block";
import { Session } from "../../lib/sheet/session";
import { storedDisplay } from "../../lib/sheet/stored";
import { Worksheet } from "../../lib/sheet/worksheet";
import { mA, ohm, volt } from "../../lib/units";

export const designText = `
product: { name: Lamp, revision: "1" }
sources: { own: { type: document, title: Made up for this test } }
requirements:
  cool: { statement: Stays cool., limit: "<= 20 mW", judged: worst case, source: own }
  bright: { statement: Is bright., limit: ">= 1.7 mA", judged: 95 %, source: own }
decisions:
  lamp: { rail: { chosen: high, reason: it is there, reconsider: never } }
givens:
  low: { value: 3.0 V ±2 %, meaning: the low rail, source: own }
  high: { value: 5.0 V ±2 %, meaning: the high rail, source: own }
  room: { value: 2 V in 1 V to 3 V, meaning: a condition of use, source: own }
  forward: { value: 2.85 V ±0.12 V, meaning: forward voltage, source: own }
  current: { value: 2 mA, meaning: current wanted, source: own }
  part: { value: ±1 %, meaning: tolerance of a part, source: own }
  iv:
    meaning: current against voltage
    source: own
    table: { columns: [voltage in V, current in mA], interpolation: linear, rows: [[2, 0], [3, 2], [4, 6]] }
`;

export const sinkKey = Symbol.for("workings.display");
export const cellKey = Symbol.for("workings.cell");
export const shared = globalThis as Record<symbol, unknown>;

export let shown: { readonly data: Readonly<Record<string, unknown>> }[] = [];
export let sheet: Worksheet;

/** For all tests of the file that calls it. */
export function anewForEachTest(): void {
  beforeEach(() => {
    shown = [];
    shared[sinkKey] = (message: (typeof shown)[number]) => shown.push(message);
    sheet = new Worksheet(new Session("lamp", readDesign(designText, "design.yaml")));
  });
  afterEach(() => {
    delete shared[sinkKey];
    delete shared[cellKey];
  });
}

export const displays = () => shown.map((output) => storedDisplay(JSON.parse(JSON.stringify(output)), "lamp", 1)?.display as Display);
export const last = () => displays().at(-1) as Display;
export const plain = () => String(shown.at(-1)?.data["text/plain"]);
export const loose = <T>(value: unknown) => value as T;
export const node = <K extends GraphNode["kind"]>(id: string, kind: K) => {
  const found = sheet.session.node(id);
  expect(found.kind).toBe(kind);
  return found as Extract<GraphNode, { kind: K }>;
};
export const givens = () => sheet.given({ V_s: ["high", volt], V_f: ["forward", volt], I: ["current", mA] });
export const resistor = () => sheet.derive("R = (V_s - V_f)/I", givens(), ohm, "series resistor");
export const analysis = (quantity: Quantity<any>) => sheet.session.evaluation.analysis(sheet.session.enter(quantity));
