/** The battery worksheet as a whole: another design, what its decisions turn, and its runtime by another route. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { readNotebook } from "../../lib/kernel/notebook";
import { isFull } from "../full";
import { root } from "../root";
import { design, readings, steppedRuntime } from "./battery-by-steps";
import { designText, type Fresh, freshOf, freshRun } from "./run";

const path = join(root, "notebooks/04-battery.ipynb");
const secondText = () => readFileSync(join(root, "tests/designs/second.yaml"), "utf8");
const hour = 3600;

describe("the battery worksheet", () => {
  const first = freshOf(readNotebook(path));
  let other: Fresh;
  beforeAll(async () => {
    if (isFull) other = await freshRun(secondText(), path);
  }, 240_000);

  it.runIf(isFull)("runs on another product's design file without an edit, and gives other numbers", () => {
    const ids = [...first.shown.keys()];
    const own = (id: string) => !id.includes("#");
    // Which moves most, and so stands first, is each design's own.
    expect([...other.shown.keys()].filter(own).toSorted()).toEqual(ids.filter(own).toSorted());
    const moved = ids.filter((id) => other.shown.get(id) !== first.shown.get(id));
    expect(moved.length).toBeGreaterThan(0.8 * ids.length);
  });

  it.runIf(isFull)("freezes nothing: every number follows its givens in the page", () => {
    const frozen = [...first.shown.keys()].filter((id) => first.evaluation.analysis(id).frozen);
    expect(frozen).toEqual([]);
  });

  it("computes the runtimes that stepping through the discharge second by second gives, in a full run for both designs", () => {
    const runs: [Fresh, string][] = [[first, designText()]];
    if (isFull) runs.push([other, secondText()]);
    for (const [run, text] of runs) {
      const P_ind = run.evaluation.nominal("indicators.rail.P");
      const stepped = steppedRuntime(design(text), P_ind);
      expect(run.evaluation.nominal("battery.cell.t") / stepped.fresh).toBeCloseTo(1, 3);
      expect(run.evaluation.nominal("battery.cell.t_a") / stepped.aged).toBeCloseTo(1, 3);
    }
  });

  it("holds both requirements for 95 % of units, not as worst cases; without the reading of the converter that on an aged cell is too close to call", () => {
    expect(first.verdicts).toMatchObject({ "run-new": "holds for 95 %", "run-old": "holds for 95 %" });
    const { limit, judged } = design(designText()).requirement("run-old");
    expect(first.evaluation.withoutEvidence().verdict("battery.cell.t_a", limit, judged).verdict).toBe("too close to call");
    expect(first.evaluation.analysis("battery.cell.t").worst?.low).toBeLessThan(12 * hour);
  });

  it.each([
    ["a forced-PWM converter", "battery.converter[forced].age[new].t", "run-new"],
    ["a forced-PWM converter and an aged cell", "battery.converter[forced].age[aged].t", "run-old"],
    ["the quieter amplifier", "battery.amplifier[bipolar].t", "run-new"],
    ["the small cell", "battery.cell[small].age[new].t", "run-new"],
    ["the small cell, aged,", "battery.cell[small].age[aged].t", "run-old"],
    ["the low-power amplifier's noise", "battery.amplifier[low-power].v_n", "noise"],
  ])("finds that %s does not hold", (_, node, requirement) => {
    const { limit, judged } = design(designText()).requirement(requirement);
    expect(first.evaluation.verdict(node, limit, judged).verdict).toBe("does not hold");
  });

  it("finds that up to 90 dB SPL the level takes less than an eighth of the runtime", () => {
    const at = (level: string) => first.evaluation.nominal(`battery.heard[${level}].t`);
    expect(at("busy") / at("quiet")).toBeGreaterThan(7 / 8 - 0.005);
    expect(at("loud") / at("quiet")).toBeLessThan(0.7);
  });

  it("meets its limiting case: without resistance, cold and cut-off the energy over the power", () => {
    const estimate = first.evaluation.nominal("battery.t_est");
    expect(first.evaluation.nominal("battery.cell.t") / estimate).toBeGreaterThan(0.95);
    expect(first.evaluation.nominal("battery.cell.t") / estimate).toBeLessThan(1);
  });

  it("is set beside the reading of a prototype, which lies within the middle 95 % of units", () => {
    const reading = readings(designText()).find(({ result }) => result === "battery.runtime");
    const interval = first.evaluation.analysis("battery.cell.t").interval;
    expect(reading?.nominal).toBeGreaterThan(interval?.low ?? Number.NaN);
    expect(reading?.nominal).toBeLessThan(interval?.high ?? Number.NaN);
  });
});
