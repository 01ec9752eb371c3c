/** The second routes of a product that warms up: ngspice with ohms for K/W and farads for J/K, one lump, the final state. */
import { describe, expect, it } from "vitest";
import { thermal } from "../../../lib/physics";
import { law } from "../check-rows";
import { ngspicePresent, ngspiceRows } from "../ngspice";

const skip = !ngspicePresent && process.env["CI"] !== "true";
const product = { P: 0.25, T_a: 303.15, C_i: 20, C_s: 28, R_i: 7.5, R_o: 23 };
const at = (t: number, more: Partial<typeof product> = {}) => thermal.twoLumps.evaluate({ ...product, ...more, t });

describe("contents and case", () => {
  it.skipIf(skip)("warm as ngspice's two capacitors and two resistors charge, within 0.1 % of the end", () => {
    for (const more of [{}, { C_i: 5 }, { R_i: 25, R_o: 14 }, { P: 1.5, C_s: 6 }]) {
      const { P, C_i, C_s, R_i, R_o } = { ...product, ...more };
      const netlist = [
        "* lumps",
        `IP 0 i ${P}`,
        `CI i 0 ${C_i} IC=0`,
        `RI i s ${R_i}`,
        `CS s 0 ${C_s} IC=0`,
        `RO s 0 ${R_o}`,
        ".tran 5 3600 0 5 UIC",
        ".print tran v(i) v(s)",
        ".end",
        "",
      ];
      const rows = ngspiceRows(netlist.join("\n"));
      expect(rows.length).toBeGreaterThan(100);
      for (const [t = 0, i = 0, s = 0] of rows) {
        const { T_i, T_s } = at(t, more);
        expect(Math.abs(T_i - 303.15 - i), `${t} s`).toBeLessThan(0.001 * P * (R_i + R_o));
        expect(Math.abs(T_s - 303.15 - s), `${t} s`).toBeLessThan(0.001 * P * R_o);
      }
    }
  });

  it("begin at the ambient, the case without slope, and end where all heat passes both resistances", () => {
    expect(at(0)).toMatchObject({ T_i: 303.15, T_s: 303.15 });
    // What heat there is has gone into the contents: P·t/C_i, and of the case P·t²/(2·C_i·R_i·C_s)
    expect((at(0.1).T_i - 303.15) / ((0.25 * 0.1) / 20)).toBeCloseTo(1, 2);
    expect((at(1).T_s - 303.15) / (0.25 / (2 * 20 * 7.5 * 28))).toBeCloseTo(1, 1);
    expect(at(1e5).T_i - 303.15).toBeCloseTo(0.25 * 30.5, 9);
    expect(at(1e5).T_s - 303.15).toBeCloseTo(0.25 * 23, 9);
  });

  it("keep their balance of heat: what was made is in both lumps or has left through the case", () => {
    const [end, steps] = [1800, 18_000];
    let left = 0;
    for (let n = 0; n < steps; n++) left += ((at(((n + 0.5) * end) / steps).T_s - 303.15) / 23) * (end / steps);
    const { T_i, T_s } = at(end);
    expect(20 * (T_i - 303.15) + 28 * (T_s - 303.15) + left).toBeCloseTo(0.25 * end, 4);
  });

  it("are one lump where nothing parts them", () => {
    const tau = law(thermal.timeConstant, { C: 48, R: 23 });
    const close = at(600, { R_i: 1e-3 });
    expect(close.T_i - 303.15).toBeCloseTo(law(thermal.riseAfter, { P: 0.25, R: 23, t: 600, tau }), 3);
    expect(close.tau / tau).toBeCloseTo(1, 4);
  });
});

describe("thermal.gapCoefficient", () => {
  it("is the film of two resistances that thermal.conductionResistance gives for gap and wall", () => {
    const A = 5e-3;
    const gap = law(thermal.conductionResistance, { l: 1e-3, k: 0.026, A });
    const wall = law(thermal.conductionResistance, { l: 1.7e-3, k: 0.3, A });
    const U = law(thermal.gapCoefficient, { k_a: 0.026, l: 1e-3, h_r: 0, t: 1.7e-3, k_w: 0.3 });
    expect(1 / (U * A)).toBeCloseTo(gap + wall, 9);
    const both = law(thermal.parallelResistance, { R_1: gap, R_2: law(thermal.filmResistance, { h: 6, A }) });
    expect(1 / (law(thermal.gapCoefficient, { k_a: 0.026, l: 1e-3, h_r: 6, t: 1.7e-3, k_w: 0.3 }) * A)).toBeCloseTo(both + wall, 9);
  });

  it("shows of a hot place what a divider of the resistances shows", () => {
    const [U, h] = [27, 12];
    expect(law(thermal.shownThrough, { U, h })).toBeCloseTo(1 / h / (1 / h + 1 / U), 12);
  });
});
