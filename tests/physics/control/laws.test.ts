import { describe, expect, it } from "vitest";
import { Evaluation } from "../../../lib/analysis/evaluation";
import { Graph } from "../../../lib/graph/graph";
import type { GraphNode } from "../../../lib/graph/node";
import { control } from "../../../lib/physics";
import { exact, formula, given, range, tolerant, within } from "../../graph/nodes";
import { law, si } from "../check-rows";

const month = si("1 month");
const cell = { Q: si("400 mAh"), s_0: 0.4, s_e: 0, I: si("5 µA"), k: si("2 %/month") };

/** Charge after a time, by small steps of what flows; self-discharge goes with `full` or with what is left. */
function stored(t: number, steps: number, full: boolean): number {
  let q = cell.Q * cell.s_0;
  const dt = t / steps;
  for (let i = 0; i < steps; i++) {
    const slope = (charge: number): number => -cell.I - cell.k * (full ? cell.Q : charge);
    q += dt * slope(q + 0.5 * dt * slope(q));
  }
  return q;
}

describe("the mean current", () => {
  it("of four states is the sum of shares and currents, and of what a walk through them spends", () => {
    const shares = { off: 0.7, sleep: 0.2, play: 0.09, charge: 0.01 };
    const currents = { off: 5e-6, sleep: 1e-4, play: 20e-3, charge: 1e-3 };
    const symbols = { d_1: 0.2, I_1: 1e-4, d_2: 0.09, I_2: 20e-3, d_3: 0.01, I_3: 1e-3 };
    const d_0 = law(control.restShare, symbols);
    expect(d_0).toBeCloseTo(0.7, 12);
    const I = law(control.meanCurrent, { ...symbols, d_0, I_0: 5e-6 });
    expect(I).toBeCloseTo(control.meanOfStates(shares, currents), 15);
    expect(I).toBeCloseTo(1.8335e-3, 9);
  });
});

describe("storage on the shelf", () => {
  it("empties a cell as stepping through the months does", () => {
    const t = 9 * month;
    expect(stored(t, 900, true)).toBeCloseTo(law(control.chargeAfterStorage, { ...cell, t }), 6);
    expect(stored(law(control.shelfLifeByShare, { ...cell, s_e: 0.05 }), 20000, false) / cell.Q).toBeCloseTo(0.05, 7);
  });

  it("lasts as long as the charge does: nine months leave a third of 40 % in 400 mAh", () => {
    const left = law(control.chargeAfterStorage, { ...cell, t: 9 * month });
    expect(left / 3.6).toBeCloseTo(160 - 72 - 32.9, 1);
    const t = law(control.shelfLife, cell);
    expect(law(control.chargeAfterStorage, { ...cell, t })).toBeCloseTo(0, 6);
    expect(t / month).toBeCloseTo(13.7, 1);
  });

  it("turned round gives the current, and the charge at shipping, that it began with", () => {
    const t = law(control.shelfLife, cell);
    expect(law(control.allowedOffCurrent, { ...cell, t })).toBeCloseTo(5e-6, 15);
    expect(law(control.shippingCharge, { ...cell, t })).toBeCloseTo(0.4, 12);
  });

  it("without self-discharge is charge over current, by either law; the linear law is the shorter", () => {
    expect(law(control.shelfLife, { ...cell, k: 0 })).toBeCloseTo((0.4 * cell.Q) / cell.I, 3);
    expect(law(control.shelfLifeByShare, { ...cell, k: 1e-16 }) / ((0.4 * cell.Q) / cell.I)).toBeCloseTo(1, 3);
    expect(law(control.shelfLifeByShare, cell)).toBeGreaterThan(law(control.shelfLife, cell));
  });

  it("in the graph falls short of nine months in the worst case, and reaches it for 95 % of units", () => {
    const nodes: GraphNode[] = [
      given("Q", cell.Q, within(cell.Q * 0.95, cell.Q * 1.05)),
      given("s_0", 0.4, within(0.37, 0.43)),
      given("s_e", 0, exact),
      given("I", cell.I, within(3e-6, 8e-6)),
      given("k", cell.k, within(si("1.5 %/month"), si("3 %/month"))),
      given("t", 9 * month, exact),
      formula("left", "Q*(s_0 - s_e - k*t) - I*t"),
    ];
    const { nominal, worst, interval } = new Evaluation(Graph.from(nodes), { samples: 20000 }).analysis("left");
    expect(nominal).toBeCloseTo(law(control.chargeAfterStorage, { ...cell, t: 9 * month }), 9);
    expect((worst?.low ?? 0) / 3.6).toBeCloseTo(380 * (0.37 - 0.27) - 8e-3 * 6574.5, 0);
    expect(worst?.low).toBeLessThan(0);
    expect(interval?.low).toBeGreaterThan(0);
  });
});

describe("a comparator with hysteresis", () => {
  const stage = { V_ref: 1.2, V_os: 2e-3, R_1: 1e6, R_2: 620e3, R_h: 8.2e6, V_l: 0.05, V_h: 3.0 };

  /** The input by superposition of conductances, and the output it makes: swept up and down in steps of 20 µV. */
  function swept(): readonly [number, number] {
    const { R_1, R_2, R_h, V_ref, V_os, V_l, V_h } = stage;
    const input = (V: number, out: number): number => (V / R_1 + out / R_h) / (1 / R_1 + 1 / R_2 + 1 / R_h);
    const step = 20e-6;
    let out = V_l;
    let V = 2;
    while (out === V_l) {
      V += step;
      if (input(V, out) > V_ref + V_os) out = V_h;
    }
    const rising = V;
    while (out === V_h) {
      V -= step;
      if (input(V, out) < V_ref + V_os) out = V_l;
    }
    return [rising, V];
  }

  it("switches where a sweep up and down finds it to", () => {
    const [rising, falling] = swept();
    expect(law(control.risingThreshold, stage)).toBeCloseTo(rising, 4);
    expect(law(control.fallingThreshold, stage)).toBeCloseTo(falling, 4);
    expect(law(control.thresholdHysteresis, stage)).toBeCloseTo(rising - falling, 4);
  });

  it("comes out of its design: resistors for 3.3 V falling and 120 mV apart give just that", () => {
    const wanted = { ...stage, V_os: 0, V_f: 3.3, V_hys: 0.12 };
    const R_h = law(control.hysteresisResistor, wanted);
    const R_2 = law(control.lowerResistor, { ...wanted, R_h });
    const built = { ...wanted, R_h, R_2 };
    expect(law(control.fallingThreshold, built)).toBeCloseTo(3.3, 9);
    expect(law(control.risingThreshold, built)).toBeCloseTo(3.42, 9);
  });

  it("without feedback has one threshold, that of the divider", () => {
    const open = { ...stage, V_os: 0, R_h: 1e18 };
    expect(law(control.risingThreshold, open)).toBeCloseTo(law(control.plainThreshold, open), 9);
    expect(law(control.fallingThreshold, open)).toBeCloseTo(law(control.plainThreshold, open), 9);
    expect(law(control.biasShift, { I_b: 10e-9, R_1: 1e6 })).toBeCloseTo(-10e-3, 15);
    expect(law(control.dividerDrain, { V: 3.7, R_1: 1e6, R_2: 620e3 })).toBeCloseTo(2.284e-6, 9);
  });

  it("in the graph has the corners of its parts as its worst case", () => {
    const text = "V_ref + V_os + R_1*((V_ref + V_os)/R_2 - (V_h - V_ref - V_os)/R_h)";
    const nodes: GraphNode[] = [
      tolerant("V_ref", 1.2, 0.01),
      given("V_os", 0, within(-5e-3, 5e-3)),
      tolerant("R_1", 1e6, 0.01),
      tolerant("R_2", 620e3, 0.01),
      tolerant("R_h", 8.2e6, 0.01),
      given("V_h", 3, range(2.9, 3.1)),
      formula("V_f", text),
    ];
    const { worst, interval } = new Evaluation(Graph.from(nodes), { samples: 20000 }).analysis("V_f");
    const at = (s: 1 | -1): number =>
      law(control.fallingThreshold, {
        V_ref: 1.2 * (1 + s * 0.01),
        V_os: s * 5e-3,
        R_1: 1e6 * (1 + s * 0.01),
        R_2: 620e3 * (1 - s * 0.01),
        R_h: 8.2e6 * (1 + s * 0.01),
        V_h: 3 - s * 0.1,
      });
    expect(worst?.low).toBeCloseTo(at(-1), 9);
    expect(worst?.high).toBeCloseTo(at(1), 9);
    expect((interval?.high ?? Infinity) - (interval?.low ?? 0)).toBeLessThan(at(1) - at(-1));
  });

  it("chatters when the cell springs back by more than the hysteresis", () => {
    const rebound = { I_1: 0.1, I_0: 5e-6, R: 0.9 };
    expect(law(control.hysteresisMargin, { V_h: 0.12, ...rebound })).toBeCloseTo(0.03, 4);
    expect(law(control.hysteresisMargin, { V_h: 0.05, ...rebound })).toBeLessThan(0);
  });
});
