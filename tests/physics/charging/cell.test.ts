import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readReferences } from "../../../lib/design/reference";
import { curveIntegral } from "../../../lib/graph/interpolate";
import { curveArgument } from "../../../lib/graph/model";
import type { TableNode } from "../../../lib/graph/node";
import { charging } from "../../../lib/physics";

const references = readReferences({ "cells.yaml": readFileSync(new URL("../../../data/reference/cells.yaml", import.meta.url), "utf8") });
const rows = references.nodes.get("reference.cells.lithium-polymer") as TableNode;
const polymer = curveArgument({ x: Float64Array.from(rows.x), y: Float64Array.from(rows.y) });
const straight = (a: number, b: number) => curveArgument({ x: Float64Array.of(0, 1), y: Float64Array.of(a, a + b) });

const cell = { Q: 1440, R: 0.4, R_d: 0.5, tau: 300, s_0: 0, ocv: polymer };
const setting = { I: 0.28, V_cv: 4.2, I_end: 0.02, I_pre: 0.04, V_pre: 3.05, V_in: 4.75, I_in: 0.5 };
const linear = { ...cell, ...setting, R_on: 0.5, P_max: 5 };
const switching = { ...cell, ...setting, eta: 0.88 };

/** ∫ of the open-circuit voltage from 0 to s, by small pieces. */
function area(s: number): number {
  let sum = 0;
  for (let k = 0; k < 100_000; k++) sum += (polymer.at(Math.min(1, ((k + 0.5) * s) / 100_000)) * s) / 100_000;
  return sum;
}

/** Small steps of the midpoint rule, with limits written out again. */
function stepped(given: typeof linear, dt: number): { readonly t: number; readonly s: number } {
  let [t, s, v] = [0, given.s_0, 0];
  const current = (x: number, drop: number): readonly [number, boolean] => {
    const u = given.ocv.at(Math.min(x, 1)) + drop;
    const wanted = u + given.I_pre * given.R < given.V_pre ? given.I_pre : given.I;
    let free = Math.min(wanted, given.I_in);
    while ((given.V_in - u - free * given.R) * free > given.P_max) free -= 1e-5;
    const held = (given.V_cv - u) / given.R;
    return held < free ? [held, true] : [free, false];
  };
  for (;;) {
    const [I] = current(s, v);
    const [half, held] = current(s + (I * dt) / 2 / given.Q, v + (((I * given.R_d - v) / given.tau) * dt) / 2);
    if (held && half <= given.I_end) return { t, s };
    const middle = v + (((I * given.R_d - v) / given.tau) * dt) / 2;
    s += (half * dt) / given.Q;
    v += ((half * given.R_d - middle) / given.tau) * dt;
    t += dt;
  }
}

describe("a charge by simulation", () => {
  it("agrees with the closed form of a straight open-circuit voltage behind a resistance", () => {
    for (const change of [{}, { s_0: 0.95 }, { R: 0.9 }, { I: 1 }]) {
      const given = { Q: 3600, R: 0.15, s_0: 0, I: 0.5, I_end: 0.05, V_cv: 4.2, ...change };
      const closed = charging.linearChargeTime.evaluate({ a: 3.5, b: 0.7, ...given });
      const simulated = charging.linearCharge.evaluate({
        ...linear,
        ...given,
        R_d: 0,
        V_pre: 0,
        I_in: 2,
        V_in: 6,
        ocv: straight(3.5, 0.7),
      });
      expect(simulated.t / closed.t).toBeCloseTo(1, 5);
      expect(simulated.t_cv / closed.t_cv).toBeCloseTo(1, 4);
      expect(simulated.s_end).toBeCloseTo(closed.s_end, 7);
    }
  });

  it("agrees with the two exponentials of a cell with a diffusion branch at constant voltage", () => {
    const [Q, R, R_d, tau, a, b, V_cv, s_0, I_end] = [1440, 0.4, 0.5, 300, 3.5, 0.7, 4.2, 0.9, 0.02];
    const given = { ...linear, Q, R, R_d, tau, V_cv, s_0, I_end, I: 5, I_in: 9, V_in: 6, P_max: 99, V_pre: 0, ocv: straight(a, b) };
    const { t, t_cv, s_end } = charging.linearCharge.evaluate(given);
    expect(t_cv).toBe(t);
    // x = (s − s*, v_d): dx/dt = M·x with I = −(b·x_1 + x_2)/R
    const M = [-b / (Q * R), -1 / (Q * R), (-b * R_d) / (R * tau), -(1 + R_d / R) / tau] as const;
    const [trace, det] = [M[0] + M[3], M[0] * M[3] - M[1] * M[2]];
    const root = Math.sqrt((trace * trace) / 4 - det);
    const rates = [trace / 2 + root, trace / 2 - root] as const;
    const full = (V_cv - a) / b;
    // Eigenvectors (1, (λ − M_11)/M_12), weights from x(0) = (s_0 − s*, 0)
    const [p, q] = rates.map((rate) => (rate - M[0]) / M[1]) as [number, number];
    const weight = (s_0 - full) / (p - q);
    const state = (time: number): readonly [number, number] => {
      const [one, two] = [-q * weight * Math.exp(rates[0] * time), p * weight * Math.exp(rates[1] * time)];
      return [full + one + two, p * one + q * two];
    };
    const current = (time: number): number => (V_cv - a - b * state(time)[0] - state(time)[1]) / R;
    expect(current(t) / I_end).toBeCloseTo(1, 5);
    expect(s_end).toBeCloseTo(state(t)[0], 7);
    const { I, s } = charging.linearChargeCurves.evaluate(given);
    Array.from(I.x).forEach((time, k) => {
      expect(I.y[k]).toBeCloseTo(current(time), 5);
      expect(s.y[k]).toBeCloseTo(state(time)[0], 6);
    });
  });

  it.each([
    ["with all limits at rest", {}],
    ["held back by the source", { I_in: 0.15 }],
    ["held back by its heat", { P_max: 0.2 }],
    ["begun half full", { s_0: 0.5 }],
  ])("agrees with brute-force steps through time %s", (_case, change) => {
    const given = { ...linear, ...change };
    const { t, s_end } = charging.linearCharge.evaluate(given);
    const steps = stepped(given, 0.5);
    expect(Math.abs(steps.t - t)).toBeLessThan(3);
    expect(steps.s).toBeCloseTo(s_end, 4);
  });

  it("balances charge and energy: source, charger, cell and what its diffusion branch holds", () => {
    const { Q_in, s_end, E_in, E_heat, E_loss } = charging.linearCharge.evaluate(linear);
    expect(Q_in).toBeCloseTo(1440 * s_end, 9);
    expect((E_in + E_heat) / (4.75 * Q_in)).toBeCloseTo(1, 6);
    const { I, V, s } = charging.linearChargeCurves.evaluate(linear);
    expect(curveIntegral({ x: Float64Array.from(I.x), y: Float64Array.from(I.y) }) / Q_in).toBeCloseTo(1, 4);
    const last = I.x.length - 1;
    const v_d = (V.y[last] ?? 0) - (I.y[last] ?? 0) * 0.4 - polymer.at(s.y[last] ?? 0);
    const held = ((300 / 0.5) * v_d * v_d) / 2;
    expect((1440 * area(s_end) + E_loss + held) / E_in).toBeCloseTo(1, 5);
  });

  it("turns the power that a switching charger loses into heat", () => {
    const { E_in, E_heat, P_max } = charging.switchingCharge.evaluate(switching);
    expect(E_heat / (E_in * (1 / 0.88 - 1))).toBeCloseTo(1, 9);
    expect(P_max).toBeLessThan(charging.linearCharge.evaluate(linear).P_max);
  });

  it("depends on no unit of time: charge and time constant 4096 times larger give 4096 times the time, digit for digit", () => {
    const k = 4096;
    const plain = charging.linearCharge.evaluate(linear);
    const slow = charging.linearCharge.evaluate({ ...linear, Q: k * linear.Q, tau: k * linear.tau });
    expect([slow.t, slow.t_cv, slow.E_in, slow.s_end]).toEqual([k * plain.t, k * plain.t_cv, k * plain.E_in, plain.s_end]);
    const hours = charging.linearCharge.evaluate({ ...linear, Q: linear.Q / 3600, tau: linear.tau / 3600 });
    expect(hours.t * 3600).toBeCloseTo(plain.t, 6);
  });

  it("keeps to its limits at every instant", () => {
    const { P, I, V } = charging.linearChargeCurves.evaluate({ ...linear, P_max: 0.25 });
    expect(Math.max(...Array.from(P.y))).toBeLessThanOrEqual(0.25 + 1e-9);
    expect(Math.max(...Array.from(V.y))).toBeLessThanOrEqual(4.2 + 1e-9);
    expect(Math.max(...Array.from(I.y))).toBeLessThanOrEqual(0.28);
    expect(I.y[0]).toBe(0.04);
    const power = charging.switchingChargeCurves.evaluate({ ...switching, I_in: 0.2 });
    const drawn = Array.from(power.I.y).map((amperes, k) => (amperes * (power.V.y[k] ?? 0)) / (0.88 * 4.75));
    expect(Math.max(...drawn)).toBeCloseTo(0.2, 9);
    expect(drawn.filter((amperes) => amperes > 0.2 - 1e-9).length).toBeGreaterThan(20);
  });

  it("is longer with a weaker source, less heat, a larger resistance and a smaller current to end at", () => {
    const t = (change: Partial<typeof linear>): number => charging.linearCharge.evaluate({ ...linear, ...change }).t;
    const plain = t({});
    for (const change of [{ I_in: 0.2 }, { P_max: 0.2 }, { R: 0.6 }, { I_end: 0.01 }, { V_in: 4.25 }])
      expect(t(change)).toBeGreaterThan(plain);
    for (const change of [{ I: 0.4 }, { I_end: 0.04 }, { s_0: 0.3 }]) expect(t(change)).toBeLessThan(plain);
  });

  it("ends at once with a cell that is full, and without constant voltage where there is no resistance", () => {
    expect(charging.linearCharge.evaluate({ ...linear, s_0: 1 })).toMatchObject({ t: 0, s_end: 1, Q_in: 0, P_max: 0 });
    const ideal = charging.linearCharge.evaluate({ ...linear, R: 0, R_d: 0, V_pre: 0 });
    expect(ideal.t).toBeCloseTo(1440 / 0.28, 3);
    expect(ideal.t_cv).toBe(0);
  });

  it("puts in more than the rated charge where the voltage is set above the last row", () => {
    const high = charging.linearCharge.evaluate({ ...linear, V_cv: 4.221 });
    expect(high.s_end).toBeGreaterThan(charging.linearCharge.evaluate(linear).s_end);
    expect(() => charging.linearCharge.evaluate({ ...linear, V_cv: 4.4, V_in: 5 })).toThrow(
      expect.objectContaining({ code: "table-range" }),
    );
  });

  it("says what is wrong with a charge that cannot be", () => {
    expect(() => charging.linearCharge.evaluate({ ...linear, I_in: 0 })).toThrow("a source that leaves it current");
    expect(() => charging.linearCharge.evaluate({ ...linear, V_in: 4.0 })).toThrow("the charge does not end: at");
    expect(() => charging.linearCharge.evaluate({ ...linear, R: 0 })).toThrow("with a diffusion branch, tau and R > 0");
    expect(() => charging.linearCharge.evaluate({ ...linear, I_pre: 0 })).toThrow("begins gently up to 3.05 V");
    expect(() => charging.switchingCharge.evaluate({ ...switching, eta: 1.1 })).toThrow("at most 1, not 1.1");
    const cubic = curveArgument({ x: polymer.x, y: polymer.y, interpolation: "monotone" });
    expect(() => charging.linearCharge.evaluate({ ...linear, ocv: cubic })).toThrow("a charge needs linear rows");
  });
});
