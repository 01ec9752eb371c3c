/** Headings of a table of `each`: what the rows of a column share, and the cell's own word where they share nothing. */
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { readDesign } from "../../lib/design/read";
import type { BlockOf, Display } from "../../lib/sheet/block";
import { Session } from "../../lib/sheet/session";
import { storedDisplay } from "../../lib/sheet/stored";
import { Worksheet } from "../../lib/sheet/worksheet";
import { mA, mW, volt } from "../../lib/units";

const designText = `
product: { name: Lamp, revision: "1" }
sources: { own: { type: document, title: Made up for this test } }
givens:
  low: { value: 3.0 V ±2 %, meaning: voltage of the low rail, symbol: V_l, source: own }
  high: { value: 5.0 V ±2 %, meaning: voltage of the high rail, symbol: V_h, source: own }
  bus: { value: 9.0 V ±2 %, meaning: what the bus has, symbol: V_b, source: own }
  current: { value: 2 mA, meaning: current wanted, symbol: I_w, source: own }
`;
const sinkKey = Symbol.for("workings.display");
const globals = globalThis as Record<symbol, unknown>;
let shown: unknown[] = [];
let sheet: Worksheet;

beforeEach(() => {
  shown = [];
  globals[sinkKey] = (message: unknown) => shown.push(message);
  sheet = new Worksheet(new Session("lamp", readDesign(designText, "design.yaml")));
});
afterEach(() => {
  delete globals[sinkKey];
});

describe("each(name, members, evaluate, caption)", () => {
  const columns = (of: "rails" | "all") => {
    const g = sheet.given({ low: ["low", volt], high: ["high", volt], bus: ["bus", volt], I: ["current", mA] });
    const rails: Record<string, typeof g.low> = of === "rails" ? { low: g.low, high: g.high } : { low: g.low, bus: g.bus };
    sheet.each("rail", rails, (V) => ({ V, I: g.I, P: sheet.derive("P = V*I", { V, I: g.I }, mW, "power") }), "Rails");
    const stored = storedDisplay(JSON.parse(JSON.stringify(shown.at(-1))), "lamp", 1)?.display as Display;
    return (stored.block as BlockOf<"table">).columns;
  };

  it("heads a column of different givens by the cell's word and how their meanings begin, not by the first one's", () => {
    expect(columns("rails")[0]).toEqual({ symbol: "V", meaning: "voltage" });
  });

  it("says no meaning where they share none", () => {
    expect(columns("all")[0]).toEqual({ symbol: "V", meaning: "" });
  });

  it("heads a column of one given, or of one law, by its own symbol and meaning", () => {
    expect(columns("rails").slice(1)).toEqual([
      { symbol: "I_w", meaning: "current wanted" },
      { symbol: "P", meaning: "power" },
    ]);
  });
});
