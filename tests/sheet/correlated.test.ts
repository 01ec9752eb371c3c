/** Correlated givens in worksheets: parts of one reel, results taken by another sheet, stored nodes. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { readDesign } from "../../lib/design/read";
import { Graph } from "../../lib/graph/graph";
import { Session } from "../../lib/sheet/session";
import { storedDisplays } from "../../lib/sheet/stored";
import { Worksheet } from "../../lib/sheet/worksheet";
import { mA, ohm, one, volt } from "../../lib/units";

const design = readDesign(
  `
product: { name: Lamp, revision: "1" }
sources: { own: { type: document, title: Made up for this test } }
givens:
  high: { value: 5 V σ 0.1 V, meaning: the high rail, source: own }
  low: { value: 3 V σ 0.1 V, meaning: the low rail, source: own }
  current: { value: 2 mA ±1 %, meaning: current, source: own }
  resistor: { value: 100 Ω ±1 %, meaning: a resistor of the reel, source: own }
correlations:
  - { between: [high, low], coefficient: 0.95, source: own }
common:
  reel: { paths: [resistor], share: 1, reason: one reel, source: own }
`,
  "design.yaml",
);

const sinkKey = Symbol.for("workings.display");
const shared = globalThis as Record<symbol, unknown>;
let folder: string;
let outputs: { readonly output_type: string; readonly data: Record<string, unknown> }[];

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "correlated-"));
  outputs = [];
  shared[sinkKey] = ({ data }: { data: Record<string, unknown> }) => outputs.push({ output_type: "display_data", data });
});
afterEach(() => {
  delete shared[sinkKey];
  rmSync(folder, { recursive: true, force: true });
});

const worksheet = (name: string) => new Worksheet(new Session(name, design), folder);
const analysisOf = (sheet: Worksheet, quantity: Parameters<Session["enter"]>[0]) =>
  sheet.session.evaluation.analysis(sheet.session.enter(quantity));

describe("correlated givens in a worksheet", () => {
  it("reach the stored nodes, the sheet that takes the result, and the page's graph, with the same numbers", () => {
    const lamp = worksheet("lamp");
    const { V, W, I } = lamp.given({ V: ["high", volt], W: ["low", volt], I: ["current", mA] });
    const R = lamp.derive("R = (V - W)/I", { V, W, I }, ohm, "series resistor");
    lamp.publish({ R });
    const own = analysisOf(lamp, R);
    // 2·0.1²·(1 − 0.95) V² beside 1 % of 2 mA.
    expect(own.standardUncertainty).toBeCloseTo(Math.sqrt(0.001 / 4e-6 + (1000 * 0.01) ** 2 / 3), 6);
    const cells = [{ cell_type: "code", id: "one", metadata: {}, source: "", execution_count: 1, outputs }];
    writeFileSync(join(folder, "07-lamp.ipynb"), JSON.stringify({ nbformat: 4, nbformat_minor: 5, metadata: {}, cells }));
    const stored = storedDisplays(JSON.parse(JSON.stringify({ cells })), "lamp").flatMap(({ display }) => display.nodes);
    expect(stored.find(({ id }) => id === "givens.low")).toHaveProperty("shared", [{ with: "givens.high", weight: 0.95 }]);
    expect(stored.find(({ id }) => id === "givens.current")).not.toHaveProperty("shared");
    expect(new Evaluation(Graph.from(stored)).analysis("lamp.R")).toEqual(own);
    const budget = worksheet("budget");
    const { S } = budget.take({ S: ["lamp.R", ohm] });
    expect(analysisOf(budget, S)).toEqual(own);
  });

  it("give parts of one reel what they have in common", () => {
    const divider = worksheet("divider");
    const a = divider.part("a", "resistor", ohm);
    const b = divider.part("b", "resistor", ohm);
    const ratio = divider.derive("k = R_a/(R_a + R_b)", { R_a: a, R_b: b }, one, "ratio");
    const { standardUncertainty, worst } = analysisOf(divider, ratio);
    expect(standardUncertainty).toBeLessThan(1e-9);
    expect(worst).toMatchObject({ low: expect.closeTo(0.5, 9), high: expect.closeTo(0.5, 9) });
  });
});
