/** The enclosure sheet as a whole: another design, and figures that agree by other routes. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { readNotebook } from "../../lib/kernel/notebook";
import { isFull } from "../full";
import { root } from "../root";
import { type Fresh, freshOf, freshRun } from "./run";

const sheetPath = join(root, "notebooks/02-enclosure.ipynb");

/** The node that the sheet publishes under a name. */
function published({ displays }: Fresh, name: string): string {
  for (const { block } of displays) if (block.type === "publish" && name in block.names) return block.names[name] ?? "";
  throw new Error(`nothing is published as ${name}`);
}

describe("the enclosure worksheet", { timeout: 120_000 }, () => {
  const first = freshOf(readNotebook(sheetPath));
  const nominal = (name: string): number => first.evaluation.nominal(published(first, name));

  it.runIf(isFull)("runs on another product's design file without an edit, and gives other numbers", async () => {
    const other = await freshRun(readFileSync(join(root, "tests/designs/second.yaml"), "utf8"), sheetPath);
    const named = (ids: Iterable<string>) => [...ids].filter((id) => id.startsWith("enclosure."));
    // Which moves most, and so stands first, is each design's own.
    expect(named(other.shown.keys()).toSorted()).toEqual(named(first.shown.keys()).toSorted());
    const ids = named(first.shown.keys());
    const moved = ids.filter((id) => other.shown.get(id) !== first.shown.get(id));
    expect(moved.length).toBeGreaterThan(0.8 * ids.length);
  });

  it("meets every requirement that it judges, as decided", () => {
    const ids = ["wall", "crush", "size-length", "size-width", "size-height"];
    expect(first.verdicts).toEqual(Object.fromEntries(ids.map((id) => [id, "holds"])));
  });

  it("claims nothing of the drop: what the case lands on is not known, and the limit lies within what that may be", () => {
    const { low = 0, high = 0 } = first.evaluation.analysis("enclosure.a_f").worst ?? {};
    expect(low).toBeLessThan(1500 * 9.80665);
    expect(high).toBeGreaterThan(1500 * 9.80665);
  });

  it("gives each material the least wall, in steps of a tenth, with which it keeps the limit on deflection", () => {
    for (const name of ["pc-abs", "pc-gf20", "pa-gf30", "pbt-gf30"]) {
      const id = `enclosure.material[${name}].w`;
      const worst = first.evaluation.analysis(id).worst?.high ?? 0;
      expect(worst).toBeLessThan(0.5e-3);
      // A tenth less: the deflection goes at least with the cube of the least wall, of 2.1, 1.7, 1.6 and 1.5 mm.
      const wall = { "pc-abs": 2.1, "pc-gf20": 1.7, "pa-gf30": 1.6, "pbt-gf30": 1.5 }[name] as number;
      expect(worst * (wall / (wall - 0.1)) ** 3).toBeGreaterThan(0.5e-3);
    }
  });

  it("shows that the first draft misses the wall's limit in the worst case only", () => {
    const draft = first.evaluation.verdict("enclosure.material[draft].w", { high: 0.5e-3 }, "worst case");
    expect(draft.verdict).toBe("does not hold");
    expect(first.evaluation.nominal("enclosure.material[draft].w")).toBeLessThan(0.45e-3);
  });

  it("finds no wall of PC/ABS that keeps the limits on deflection and on the room above the cell", () => {
    const low = (name: string) => first.evaluation.analysis(`enclosure.material[${name}].c`).worst?.low ?? 0;
    expect(first.evaluation.analysis("enclosure.material[draft].w").worst?.high).toBeGreaterThan(0.5e-3);
    expect(low("pc-abs")).toBeLessThan(0);
    expect(low("pa-gf30")).toBeGreaterThan(0.5e-3);
  });

  it("says that a landing which takes more than the free height is outside its law", () => {
    expect(first.evaluation.outside("enclosure.a_f").map(({ fault }) => fault)).toEqual([
      expect.stringMatching(/^u is 2\.\d+ in the worst case/),
    ]);
  });

  // 12.81 g for PC/ABS at 2.0 mm and 0.442 mm under 50 N: a rough sum in numpy, from Navier's double series and Steiner's formula.
  it("agrees with a rough sum on shell and deflection of the first draft", () => {
    expect(first.evaluation.nominal("enclosure.material[draft].w")).toBeCloseTo(0.442e-3, 6);
    const halves = first.evaluation.nominal("enclosure.material[draft].m_s");
    expect(halves / 1.04).toBeCloseTo(12.81e-3, 5);
  });

  it("lies between its limiting cases: a thumb that is a point, and edges that are clamped", () => {
    const w = nominal("deflection");
    const [point, clamped] = ["enclosure.w_p", "enclosure.w_c"].map((id) => first.evaluation.nominal(id));
    expect(point).toBeGreaterThan(w);
    expect(point).toBeLessThan(1.2 * w);
    expect(clamped).toBeLessThan(0.5 * w);
  });

  it("keeps its energy in the drop, and its masses add up", () => {
    const spring = first.evaluation.nominal("enclosure.E_s");
    // What falls on while the spring gives counts too: m·g·(h + x).
    expect(spring / nominal("energy")).toBeCloseTo(1 + nominal("stop") / 1.2, 6);
    const items = first.displays.flatMap(({ block }) => (block.type === "contribution" && block.budget === "mass" ? block.items : []));
    const sum = items.reduce((total, { node }) => total + first.evaluation.nominal(node), 0);
    expect(sum).toBeCloseTo(nominal("case"), 9);
  });
});
