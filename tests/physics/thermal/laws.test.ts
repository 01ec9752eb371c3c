/** The second routes of chains and lumps: ngspice with ohms for K/W, farads for J/K and amperes for watts; limiting cases. */
import { describe, expect, it } from "vitest";
import { thermal } from "../../../lib/physics";
import { law, reference, si } from "../check-rows";
import { ngspicePresent, ngspiceRows } from "../ngspice";

const skip = !ngspicePresent && process.env["CI"] !== "true";

describe("a chain of thermal resistances in ngspice", () => {
  const chain = { T_a: si("40 °C"), P: 1.2, R_jc: 5, R_cs: 0.8, R_sa: 28 };

  it.skipIf(skip)("has the same temperatures of junction and case", () => {
    const netlist = [
      "* chain",
      "IP 0 j 1.2",
      "RJC j k 5",
      "RCS k s 0.8",
      "RSA s a 28",
      "VA a 0 40",
      ".tran 1 2",
      ".print tran v(j) v(k)",
      ".end",
      "",
    ];
    const [, j = 0, k = 0] = ngspiceRows(netlist.join("\n")).at(-1) ?? [];
    expect(law(thermal.junctionTemperature, chain) - 273.15).toBeCloseTo(j, 4);
    expect(law(thermal.temperatureBehind, { T_a: chain.T_a, P: 1.2, R: 28.8 }) - 273.15).toBeCloseTo(k, 4);
  });

  it.skipIf(skip)("with a second way to the ambient beside the first has both in parallel", () => {
    const netlist = ["* ways", "IP 0 j 1.2", "R1 j 0 62", "R2 j 0 40", ".tran 1 2", ".print tran v(j)", ".end", ""];
    const R = law(thermal.parallelResistance, { R_1: 62, R_2: 40 });
    expect(law(thermal.finalRise, { P: 1.2, R })).toBeCloseTo(ngspiceRows(netlist.join("\n")).at(-1)?.[1] ?? 0, 4);
  });
});

describe("a lump in ngspice", () => {
  it.skipIf(skip)("warms as thermal.riseAfter says within 0.1 % of its final rise", () => {
    const [C, R, P] = [72, 8, 2];
    const rows = ngspiceRows(
      ["* lump", `IP 0 x ${P}`, `C1 x 0 ${C} IC=0`, `R1 x 0 ${R}`, ".tran 5 2400 0 5 UIC", ".print tran v(x)", ".end", ""].join("\n"),
    );
    expect(rows.length).toBeGreaterThan(100);
    const tau = law(thermal.timeConstant, { C, R });
    for (const [t = 0, x = 0] of rows) expect(Math.abs(law(thermal.riseAfter, { P, R, t, tau }) - x), `${t} s`).toBeLessThan(0.016);
  });
});

describe("laws of heat", () => {
  it("turn round: a junction at its limit from the heat that brings it there", () => {
    const P = law(thermal.maximumDissipation, { T_j: si("125 °C"), T_a: si("50 °C"), R: 62 });
    expect(law(thermal.temperatureBehind, { T_a: si("50 °C"), P, R: 62 })).toBeCloseTo(si("125 °C"), 9);
    const less = law(thermal.maximumDissipation, { T_j: si("125 °C"), T_a: si("51 °C"), R: 62 });
    expect(P - less).toBeCloseTo(law(thermal.deratingSlope, { R: 62 }), 12);
  });

  it("warm a lump by 63.2 % in one time constant, and tell the time of any rise", () => {
    const lump = { P: 2, R: 8, tau: 576 };
    expect(law(thermal.riseAfter, { ...lump, t: 576 }) / 16).toBeCloseTo(1 - 1 / Math.E, 12);
    expect(law(thermal.riseAfter, { ...lump, t: 0 })).toBe(0);
    expect(law(thermal.timeToRise, { ...lump, dT: law(thermal.riseAfter, { ...lump, t: 300 }) })).toBeCloseTo(300, 9);
    // At first all heat is stored: P/C in kelvin a second
    expect(law(thermal.riseAfter, { ...lump, t: 0.1 })).toBeCloseTo((2 / 72) * 0.1, 6);
  });

  it("hold a wall's drop to some kelvin: 2 mm of plastic under 0.75 W on 68 cm²", () => {
    const R = law(thermal.conductionResistance, { l: 2e-3, k: 0.2, A: 6.8e-3 });
    expect(law(thermal.finalRise, { P: 0.75, R })).toBeCloseTo(1.1, 1);
  });

  it("let the sun bring a small case some watts", () => {
    expect(law(thermal.sunPower, { alpha: 0.8, G: 1000, A: 58e-3 * 36e-3 })).toBeCloseTo(1.67, 2);
  });
});

describe("touch temperatures", () => {
  const touch = reference("touch");

  it("rise from metal to wood, and as the touch gets shorter", () => {
    for (const time of ["held", "short", "brief", "contact"]) {
      const row = ["metal", "glass", "plastic", "wood"].map((material) => touch.value(`ts1-${time}-${material}`));
      expect(row).toEqual([...row].sort((a, b) => a - b));
    }
    for (const material of ["metal", "glass", "plastic", "wood"]) {
      const column = ["held", "short", "brief", "contact"].map((time) => touch.value(`ts1-${time}-${material}`));
      expect(column).toEqual([...column].sort((a, b) => a - b));
      expect(column[0]).toBeCloseTo(si("48 °C"), 9);
    }
  });

  it("leave a worn case at 40 °C three kelvin", () => {
    expect(law(thermal.touchMargin, { T_max: touch.value("ts1-worn"), T_s: si("40 °C") })).toBeCloseTo(3, 9);
    expect(touch.value("burn-8h")).toBe(touch.value("ts1-worn"));
  });
});
