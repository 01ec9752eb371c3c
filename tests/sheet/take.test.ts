/** Results taken from another sheet: found by the sheet's name, with lineage, with the givens of today. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { readDesign } from "../../lib/design/read";
import { Session } from "../../lib/sheet/session";
import { storedDisplay } from "../../lib/sheet/stored";
import { Worksheet } from "../../lib/sheet/worksheet";
import { mA, mW, ohm, volt } from "../../lib/units";

const design = (high: string, chosen = "a") =>
  readDesign(
    `
product: { name: Lamp, revision: "1" }
sources: { own: { type: document, title: Made up for this test } }
decisions: { lamp: { which: { chosen: ${chosen}, reason: so, reconsider: never } } }
givens:
  high: { value: ${high}, meaning: the high rail, source: own }
  low: { value: 3 V ±1 %, meaning: the low rail, source: own }
  current: { value: 2 mA ±10 %, meaning: current, source: own }
`,
    "design.yaml",
  );

const sinkKey = Symbol.for("workings.display");
const shared = globalThis as Record<symbol, unknown>;
let folder: string;
let outputs: object[];

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "take-"));
  outputs = [];
  shared[sinkKey] = ({ data }: { data: object }) => outputs.push({ output_type: "display_data", data, metadata: {} });
});
afterEach(() => {
  delete shared[sinkKey];
  rmSync(folder, { recursive: true, force: true });
});

/** Runs the publishing sheet and leaves its notebook in the folder. */
function publish(high = "5 V ±2 %"): void {
  const lamp = new Worksheet(new Session("lamp", design(high)), folder);
  const { V, W, I } = lamp.given({ V: ["high", volt], W: ["low", volt], I: ["current", mA] });
  const which = lamp.alternatives("which", { a: { label: "a", V }, b: { label: "b", V: W } }, ({ V }) => ({
    P: lamp.derive("P = V*I", { V, I }, mW, "power"),
  }));
  const { P } = lamp.decide(which, { question: "Which?", criteria: {} });
  lamp.publish({ P, R: lamp.derive("R = V/I", { V, I }, ohm, "resistance") });
  const cells = [{ cell_type: "code", id: "one", metadata: {}, source: "", execution_count: 1, outputs }];
  writeFileSync(join(folder, "07-lamp.ipynb"), JSON.stringify({ nbformat: 4, nbformat_minor: 5, metadata: {}, cells }));
  outputs = [];
}

const budget = (high = "5 V ±2 %", chosen = "a") => new Worksheet(new Session("budget", design(high, chosen)), folder);
const worst = (sheet: Worksheet, quantity: Parameters<Session["enter"]>[0]) =>
  sheet.session.evaluation.analysis(sheet.session.enter(quantity)).worst;

describe("take", () => {
  it("gives a published result with its value, spread and meaning, whatever number the file has", () => {
    publish();
    const sheet = budget();
    const { P } = sheet.take({ P: ["lamp.P", mW] });
    expect(P.in(mW)).toBeCloseTo(10, 9);
    expect(P.meaning).toBe("power");
    expect(worst(sheet, P)?.high).toBeCloseTo(5.1 * 2.2e-3, 12);
    expect(JSON.stringify(outputs.at(-1))).toContain('"text/plain":"P = 10');
  });

  it("keeps the lineage, so that a given shared by two sheets cancels", () => {
    publish();
    const sheet = budget();
    const { P } = sheet.take({ P: ["lamp.P", mW] });
    const { V, I } = sheet.given({ V: ["high", volt], I: ["current", mA] });
    const difference = worst(sheet, P.minus(V.mul(I).as(mW)));
    expect(difference?.low ?? 0).toBe(0);
    expect(difference?.high ?? 0).toBe(0);
  });

  it("follows the design file as it is now, though the other sheet has not run since", () => {
    publish();
    expect(
      budget("6 V ±1 %")
        .take({ P: ["lamp.P", mW] })
        .P.in(mW),
    ).toBeCloseTo(12, 9);
    expect(
      budget("5 V ±2 %", "b")
        .take({ P: ["lamp.P", mW] })
        .P.in(mW),
    ).toBeCloseTo(6, 9);
  });

  it("brings the graph behind the result into this sheet's own output", () => {
    publish();
    budget().take({ R: ["lamp.R", ohm] });
    const nodes = storedDisplay(outputs.at(-1), "budget", 1)?.display.nodes;
    expect(nodes?.map(({ id }) => id)).toEqual(["givens.current", "givens.high", "lamp.R"]);
  });

  it("says which sheets and names there are", () => {
    publish();
    expect(() => budget().take({ P: ["lmap.P", mW] })).toThrow('budget: there is no worksheet "lmap" to take from; the book has lamp');
    expect(() => budget().take({ P: ["lamp.Q", mW] })).toThrow('budget: lamp publishes no "Q"; it publishes P, R');
    expect(() => budget().take({ P: ["lamp.P", volt] })).toThrow("budget: lamp.P is power; the worksheet asks for voltage (in V)");
  });

  it("asks for a run of a sheet without outputs", () => {
    writeFileSync(join(folder, "07-lamp.ipynb"), JSON.stringify({ cells: [] }));
    expect(() => budget().take({ P: ["lamp.P", mW] })).toThrow(
      "07-lamp.ipynb holds no published results yet; run it first: workings run lamp",
    );
  });
});
