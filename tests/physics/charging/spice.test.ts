/** The second route of a charge by a switching charger: ngspice on the cell's circuit, the charger a source of current that takes its power from the terminals. */
import { describe, expect, it } from "vitest";
import { curveArgument } from "../../../lib/graph/model";
import { charging } from "../../../lib/physics";
import { reference } from "../check-rows";
import { ngspicePresent, ngspiceRows } from "../ngspice";

const skip = !ngspicePresent && process.env["CI"] !== "true";
const polymer = reference("cells").table("lithium-polymer");
const ocv = curveArgument({ x: Float64Array.from(polymer.x), y: Float64Array.from(polymer.y) });
const cell = { Q: 1440, R: 0.4, R_d: 0.5, tau: 300, s_0: 0.1, ocv };
const setting = { I: 0.28, V_cv: 4.2, I_end: 0.02, I_pre: 0.04, V_pre: 0, V_in: 4.75, I_in: 0.5, eta: 0.88 };

/** The charge in C_s, 1 V for a full cell; the regulator gives a hundred amperes a volt below V_cv, so that it is 3 mV off at most. */
function netlist({ I, V_cv, V_in, I_in, eta }: typeof setting, stop: number): string {
  const points = polymer.x.map((s, i) => `${s}, ${polymer.y[i]}`);
  return [
    "* charge",
    `B_g 0 t I = max(0, min(min(${I}, ${eta * V_in * I_in}/max(v(t), 1)), 100*(${V_cv} - v(t))))`,
    "V_i t u 0",
    `R_0 u d ${cell.R}`,
    `R_d d oc ${cell.R_d}`,
    `C_d d oc ${cell.tau / cell.R_d} IC=0`,
    `C_s s 0 ${cell.Q} IC=${cell.s_0}`,
    "F_s 0 s V_i 1",
    `B_oc oc 0 V = pwl(v(s), ${points.join(", ")})`,
    ".options RELTOL=1e-5 VNTOL=1e-7 ABSTOL=1e-8",
    `.tran 5 ${stop} 0 5 UIC`,
    ".print tran v(t) i(V_i) v(s)",
    ".end",
    "",
  ].join("\n");
}

describe("a charge by a switching charger in ngspice", () => {
  it.skipIf(skip).each([
    ["as it is set", setting],
    ["held back by its source", { ...setting, I_in: 0.2 }],
  ])("%s has the same course of current, voltage, charge and heat", (_, given) => {
    const curves = charging.switchingChargeCurves.evaluate({ ...cell, ...given });
    const [I, V, s, P] = [curves.I, curves.V, curves.s, curves.P].map(({ x, y }) =>
      curveArgument({ x: Float64Array.from(x), y: Float64Array.from(y) }),
    ) as [typeof ocv, typeof ocv, typeof ocv, typeof ocv];
    const end = curves.I.x[curves.I.x.length - 1] as number;
    const rows = ngspiceRows(netlist(given, end)).filter(([t = 0]) => t > 0 && t < end);
    expect(rows.length).toBeGreaterThan(500);
    for (const [t = 0, volts = 0, amperes = 0, share = 0] of rows) {
      expect(Math.abs(V.at(t) - volts), `V at ${t} s`).toBeLessThan(4e-3);
      expect(Math.abs(I.at(t) - amperes), `I at ${t} s`).toBeLessThan(0.03 * given.I);
      expect(Math.abs(s.at(t) - share), `s at ${t} s`).toBeLessThan(2e-3);
      expect(Math.abs(P.at(t) - volts * amperes * (1 / given.eta - 1)), `P at ${t} s`).toBeLessThan(4e-3);
    }
    const held = rows.filter(([, volts = 0, amperes = 0]) => volts * amperes > 0.995 * given.eta * given.V_in * given.I_in);
    expect(held.length > 100).toBe(given.I_in < 0.3);
  });

  it.skipIf(skip)("takes as long, and puts in and loses as much, within 1 % each", () => {
    const ours = charging.switchingCharge.evaluate({ ...cell, ...setting });
    const rows = ngspiceRows(netlist(setting, 1.1 * ours.t));
    const last = rows.findIndex(([, volts = 0, amperes = 0]) => volts > 4.19 && amperes < setting.I_end);
    const course = rows.slice(0, last);
    const over = (of: (row: readonly number[]) => number): number =>
      course.reduce((sum, row, i) => {
        const before = course[i - 1] ?? row;
        return sum + (((row[0] ?? 0) - (before[0] ?? 0)) * (of(row) + of(before))) / 2;
      }, 0);
    const into = over(([, volts = 0, amperes = 0]) => volts * amperes);
    expect(ours.t / (course.at(-1)?.[0] ?? 0)).toBeCloseTo(1, 2);
    expect(ours.s_end / (course.at(-1)?.[3] ?? 0)).toBeCloseTo(1, 2);
    expect(ours.Q_in / over(([, , amperes = 0]) => amperes)).toBeCloseTo(1, 2);
    expect(ours.E_in / into).toBeCloseTo(1, 2);
    expect(ours.E_heat / (into * (1 / setting.eta - 1))).toBeCloseTo(1, 2);
    expect(ours.P_max / (0.28 * 4.2 * (1 / setting.eta - 1))).toBeCloseTo(1, 2);
    const held = rows.findIndex(([, , amperes = 0], i) => i > 5 && amperes < 0.999 * setting.I);
    expect(Math.abs(ours.t_cv - (ours.t - (rows[held]?.[0] ?? 0)))).toBeLessThan(0.03 * ours.t);
  });
});
