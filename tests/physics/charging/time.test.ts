/** The closed form of a charge against the simulation that steps through it, and against the closed form of one straight table. */
import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readReferences } from "../../../lib/design/reference";
import { curveArgument } from "../../../lib/graph/model";
import type { TableNode } from "../../../lib/graph/node";
import { battery, charging } from "../../../lib/physics";

const references = readReferences({ "cells.yaml": readFileSync(new URL("../../../data/reference/cells.yaml", import.meta.url), "utf8") });
const rows = references.nodes.get("reference.cells.lithium-polymer") as TableNode;
const polymer = curveArgument({ x: Float64Array.from(rows.x), y: Float64Array.from(rows.y) });
const straight = (a: number, b: number) => curveArgument({ x: Float64Array.of(0, 1), y: Float64Array.of(a, a + b) });
const cell = { Q: 1440, R: 0.4, R_d: 0.5, tau: 300, s_0: 0, ocv: polymer };
const setting = { I: 0.28, V_cv: 4.2, I_end: 0.02 };

/** Of nothing but its setting: a source, heat and dropout far away. */
const stepped = (given: typeof cell & typeof setting) =>
  charging.linearCharge.evaluate({ ...given, I_pre: 0, V_pre: 0, V_in: 6, I_in: 9, R_on: 0, P_max: 99 });

const cases = [0.1, 0.2, 0.28, 0.4, 0.8].flatMap((I) =>
  [
    { R_d: 0, tau: 0 },
    { R_d: 0.2, tau: 60 },
    { R_d: 0.5, tau: 300 },
    { R_d: 0.6, tau: 1800 },
    { R_d: 1.2, tau: 900 },
  ].flatMap((branch) => [0, 0.37, 0.96].flatMap((s_0) => [0.1, 0.9].map((R) => ({ ...cell, ...setting, ...branch, I, s_0, R })))),
);

describe("charging.chargeTime", () => {
  it.each(cases)(
    "takes as long as the charge that is stepped through, with $I A, R = $R Ω, R_d = $R_d Ω, tau = $tau s from $s_0",
    (given) => {
      const [closed, steps] = [charging.chargeTime.evaluate(given), stepped(given)];
      expect(Math.abs(closed.t - steps.t)).toBeLessThan(1e-4 * steps.t + 0.1);
      expect(Math.abs(closed.t_cv - steps.t_cv)).toBeLessThan(1e-4 * steps.t + 0.1);
      expect(closed.s_end).toBeCloseTo(steps.s_end, 5);
    },
  );

  it("is the one exponential of a straight table and a lump", () => {
    const given = { ...cell, ...setting, R: 0.4, R_d: 0, tau: 0, s_0: 0.1, ocv: straight(3.5, 0.7) };
    const one = battery.linearChargeTime.evaluate({ a: 3.5, b: 0.7, R: 0.4, V_cv: 4.2, I: 0.28, I_end: 0.02, Q: 1440, s_0: 0.1 });
    const closed = charging.chargeTime.evaluate(given);
    expect(closed.t / one.t).toBeCloseTo(1, 10);
    expect(closed.t_cv / one.t_cv).toBeCloseTo(1, 10);
    expect(closed.s_end).toBeCloseTo(one.s_end, 10);
  });

  it("puts into the cell what flowed, also of a cell that is nearly full or full", () => {
    const full = charging.chargeTime.evaluate({ ...cell, ...setting, s_0: 1 });
    expect(full).toEqual({ t: 0, t_cv: 0, s_end: 1 });
    const { t, t_cv } = charging.chargeTime.evaluate({ ...cell, ...setting, s_0: 0.97 });
    expect(t_cv).toBeLessThanOrEqual(t);
  });

  it.each([
    [{ R: 0 }, /R and V_cv > 0/],
    [{ s_0: -0.1 }, /a start inside the table/],
    [{ V_cv: 4.5 }, /goes beyond the last row/],
    [{ tau: 0 }, /tau > 0/],
  ])("refuses %j", (change, message) => {
    expect(() => charging.chargeTime.evaluate({ ...cell, ...setting, ...change })).toThrow(message);
  });
});
