/** `why` and `vary` on the demo's book: what they say follows from its outputs, and no file is touched. */
import { join, resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { nodeNamed } from "../../lib/book/name";
import { whyLines } from "../../lib/book/why";
import { movedReport } from "../../lib/cli/moved-report";
import { vary } from "../../lib/document/live/vary";
import { readNotebook } from "../../lib/kernel/notebook";
import { madeBook } from "../book/made";
import { demo } from "../demo-book";
import "../../lib/physics";

const root = resolve(__dirname, "../..");
const book = madeBook([{ name: "indicators", notebook: readNotebook(join(root, "notebooks/03-indicators.ipynb")) }], demo.design);
const why = (name: string) => whyLines(nodeNamed(book, name), new Evaluation(book.graph));

describe("why", () => {
  it("leads from a published result through laws to givens with their sources and shares", () => {
    const lines = why("indicators.led");
    expect(lines[0]).toMatch(/^indicators\.rail\.q \(ratio of the brightest to the dimmest of the three\) = 1\.03, worst case/);
    expect(lines).toContain("    law: max(J_g, J_r, J_a)/min(J_g, J_r, J_a)");
    const bin = lines.findIndex((line) => line.trimStart().startsWith("indicators.green.bin"));
    expect(lines[bin]).toMatch(/= ±10 % {2}\[33\.\d % of the variance\] {2}\[at −10\s% 1\.\d+, at 10\s% 1\.\d+\]$/);
    expect(lines[bin + 1]).toMatch(/source: typical, from memory; Half a bin/);
  });

  it("tells beside each given what the result is worth at both ends of its step, exact ones and temperatures too", () => {
    const lines = why("indicators.led").map((line) => line.replaceAll("\u00a0", " "));
    const swings = book.evaluation.swings(nodeNamed(book, "indicators.led"));
    const [low, high] = ["low", "high"].map((end) => swings.find(({ path }) => path === "ambient.rated")?.[end as "low"]?.result ?? 0);
    const ambient = lines.find((line) => line.trimStart().startsWith("ambient.rated"));
    expect(ambient).toContain(`[at 15 °C ${Number(low?.toPrecision(4))}, at 35 °C ${Number(high?.toPrecision(4))}]`);
  });

  it("says of the worst case whether it is proved, given which models, or searched", () => {
    expect(why("indicators.k")[1]).toBe("  worst case: proved");
    expect(why("indicators.led")[1]).toMatch(/^ {2}worst case: (low end )?searched/);
    const given = book.graph.nodes().find(({ id }) => /green.*\.I$/.test(id));
    expect(given && why(given.id)[1]).toMatch(/proved, given the ways stated by light\./);
  });

  it("follows the chosen alternative only, and tells nothing twice", () => {
    const lines = why("indicators.led");
    expect(lines.filter((line) => line.includes("rail[logic]"))).toEqual([]);
    const laws = lines.filter((line) => line.includes("law: pi*eta_p*tau/Omega"));
    expect(laws.length).toBe(1);
  });

  it("knows results that were not published, and names the nearest for one that does not exist", () => {
    expect(why("indicators.k")[0]).toMatch(/^indicators\.k /);
    expect(() => why("indicators.lde")).toThrow('no sheet computes or takes "indicators.lde"; did you mean indicators.led');
  });
});

describe("vary", () => {
  it("says what moves, which verdicts flip and which decisions are in doubt", () => {
    const varied = vary(book, ["decisions.indicators.rail=logic"]);
    expect(varied.changes).toEqual([{ path: "decisions.indicators.rail", before: "positive", after: "logic" }]);
    expect(varied.verdicts).toEqual([{ requirement: "led", before: "holds for 95 %", after: "does not hold" }]);
    expect(varied.flags).toEqual(["rail: The chosen alternative “3.0 V logic rail” misses the limit on brightest to dimmest."]);
    expect(varied.moved.find(({ name }) => name === "indicators.R_green")).toMatchObject({
      before: expect.stringMatching(/^910\sΩ/),
      after: expect.stringMatching(/^91\sΩ/),
    });
  });

  it("sees a tolerance that moves an interval and no nominal value", () => {
    const { moved, verdicts } = vary(book, ["indicators.green.bin=±2 %", "indicators.amber.bin=±2 %"]);
    expect(moved.map(({ name }) => name)).toContain("indicators.led");
    expect(verdicts).toEqual([]);
  });

  it("keeps the tolerance of a value typed without one, as the page does, and says so", () => {
    const [change] = vary(book, ["rails.positive.voltage=5 V"]).changes;
    expect(change?.note).toMatch(/^relative tolerance kept: 4\.90\sV to 5\.10\sV$/);
  });

  it("scales a table whole", () => {
    const { changes, moved } = vary(book, ["indicators.green.relative=×0.9"]);
    expect(changes).toEqual([{ path: "indicators.green.relative", before: "table of 11 rows", after: "×0.9" }]);
    expect(moved.length).toBeGreaterThan(0);
  });

  it("is told in a terminal in a few blocks, the numbers under their sheets", () => {
    const report = movedReport(vary(book, ["decisions.indicators.rail=logic"]));
    expect(report).toMatch(/^decisions\.indicators\.rail: positive → logic\n\nVerdicts\n {2}led: holds for 95 % → does not hold\n/);
    expect(report).toContain("Decisions in doubt\n  rail: The chosen alternative “3.0 V logic rail” misses");
    expect(report).toMatch(/Numbers of indicators\n {2}indicators\./);
    expect(report).toMatch(/\n1 change; \d+ numbers moved; 1 verdict flipped; 1 decision in doubt\n$/);
  });

  it("moves nothing for the values of the design file", () => {
    expect(vary(book, ["rails.positive.voltage=4.5 V ±2 %"])).toMatchObject({ moved: [], verdicts: [], flags: [] });
  });

  it("refuses what is no change, no given or no value of it", () => {
    expect(() => vary(book, ["indicators.green.iv=2 V"])).toThrow("turn all its ordinates by a factor");
    expect(() => vary(book, ["indicators.green.iv=×0"])).toThrow("scales no table");
    expect(() => vary(book, ["rails.positive.voltage"])).toThrow("is no change; write path=value");
    expect(() => vary(book, ["rails.positiv.voltage=5 V"])).toThrow("did you mean rails.positive.voltage");
    expect(() => vary(book, ["rails.positive.voltage=5 A"])).toThrow(/voltage/);
    expect(() => vary(book, ["decisions.indicators.rail=roof"])).toThrow(
      '"roof" is no alternative of decisions.indicators.rail; these are ',
    );
  });
});
