import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { CurveData } from "../../../lib/graph/curve";
import { curveArgument } from "../../../lib/graph/model";
import { battery } from "../../../lib/physics";
import { type CellUse, constantPowerPoint, dischargeByCurrent, dischargeByPower, meanRoot } from "../../../lib/physics/battery/discharge";

const curve = (x: readonly number[], y: readonly number[], interpolation: CurveData["interpolation"] = "linear"): CurveData => ({
  x: Float64Array.from(x),
  y: Float64Array.from(y),
  interpolation,
});
const bent = curve([0, 0.05, 0.1, 0.3, 0.5, 0.8, 1], [3, 3.4, 3.6, 3.7, 3.8, 4, 4.2]);
const cell: CellUse = { Q: 1440, R: 0.5, V_c: 3.2, s_0: 1, ocv: bent };
const doubles = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** Straight lines between rows, searched from the top: not the library's reading. */
function voltageAt(s: number): number {
  for (let i = bent.x.length - 1; i > 0; i--) {
    const [x0, x1] = [bent.x[i - 1] ?? 0, bent.x[i] ?? 0];
    const [y0, y1] = [bent.y[i - 1] ?? 0, bent.y[i] ?? 0];
    if (s >= x0) return y1 - ((y1 - y0) * (x1 - s)) / (x1 - x0);
  }
  return bent.y[0] ?? 0;
}

interface Stepped {
  readonly t: number;
  readonly s: number;
  readonly load: number;
  readonly loss: number;
  readonly fromCell: number;
}

/** Steps through time, midpoint of each step, until the terminal voltage is below the cut-off or the cell is empty. */
function stepped({ Q, R, V_c, s_0 }: CellUse, current: (V: number) => number, dt: number): Stepped {
  let [t, s, load, loss, fromCell] = [0, s_0, 0, 0, 0];
  for (;;) {
    const half = s - (current(voltageAt(s)) * dt) / 2 / Q;
    const V = voltageAt(half);
    const I = current(V);
    if (half <= 0 || !(V - I * R > V_c)) return { t, s, load, loss, fromCell };
    t += dt;
    s -= (I * dt) / Q;
    load += (V - I * R) * I * dt;
    loss += I * I * R * dt;
    fromCell += V * I * dt;
  }
}

/** The textbook root, which the library does not use. */
const powerRoot = (P: number, R: number) => (V: number) => (V - Math.sqrt(V * V - 4 * R * P)) / (2 * R);

describe("constantPowerPoint(V, R, P)", () => {
  it("gives the load its power, at the root with the lower current", () => {
    fc.assert(
      fc.property(doubles(2.5, 4.5), doubles(1e-3, 1), doubles(0, 0.999), (V, R, part) => {
        const P = (part * V * V) / (4 * R);
        const { I, V_t, P_loss } = battery.constantPowerLoad.evaluate({ V_oc: V, R, P });
        expect(I * V_t).toBeCloseTo(P, 9);
        expect(V_t).toBeGreaterThanOrEqual(V / 2 - 1e-9);
        expect(P + P_loss).toBeCloseTo(V * I, 9);
      }),
      { seed: 11 },
    );
  });

  it("tends to P/V without resistance, exactly at R = 0, and carries nothing at P = 0", () => {
    expect(constantPowerPoint(4, 0, 2)).toEqual({ I: 0.5, V_t: 4, P_loss: 0 });
    expect(constantPowerPoint(4, 1e-12, 2).I).toBeCloseTo(0.5, 11);
    expect(constantPowerPoint(4, 1, 0)).toEqual({ I: 0, V_t: 4, P_loss: 0 });
  });

  it("stands at half the voltage at the largest power, and says that there is no current above it", () => {
    expect(constantPowerPoint(4, 0.5, 8)).toEqual({ I: 4, V_t: 2, P_loss: 8 });
    expect(() => constantPowerPoint(4, 0.5, 8.01)).toThrow(
      "no current gives 8.01 W: a cell of 4 V behind 0.5 Ω gives 8 W at most (V²/(4·R)); lower the load or the resistance",
    );
    expect(() => constantPowerPoint(4, 0.5, 9)).toThrow(expect.objectContaining({ code: "nominal-domain" }));
    expect(() => constantPowerPoint(4, -0.5, 1)).toThrow(/R ≥ 0/);
  });
});

describe("meanRoot(V0, V1, c)", () => {
  it("is the mean of √(V² − c), by Simpson's rule of 2000 intervals", () => {
    fc.assert(
      fc.property(doubles(2.2, 4.2), doubles(2.2, 4.2), doubles(0, 4), (V0, V1, c) => {
        let sum = 0;
        for (let i = 0; i <= 2000; i++) {
          const V = V0 + ((V1 - V0) * i) / 2000;
          sum += (i === 0 || i === 2000 ? 1 : i % 2 === 1 ? 4 : 2) * Math.sqrt(V * V - c);
        }
        expect(meanRoot(V0, V1, c)).toBeCloseTo(sum / 6000, 9);
      }),
      { seed: 12, numRuns: 50 },
    );
  });

  it("loses no digits on a flat piece, and is V itself without resistance", () => {
    expect(meanRoot(3.7, 3.7, 1)).toBeCloseTo(Math.sqrt(3.7 ** 2 - 1), 14);
    expect(meanRoot(3.7, 3.7 + 1e-9, 1)).toBeCloseTo(Math.sqrt(3.7 ** 2 - 1), 8);
    expect(meanRoot(3, 4, 0)).toBeCloseTo(3.5, 14);
    expect(meanRoot(2, 2, 4)).toBe(0);
  });
});

describe("dischargeByPower(cell, P)", () => {
  it("agrees with brute-force steps through time in runtime, charge and both energies", () => {
    for (const P of [0.08, 0.5, 2]) {
      const { t, s_end, Q_out, E_load, E_loss } = battery.runtimeAtPower.evaluate({ ...cell, ocv: curveArgument(bent), P });
      expect(Q_out / cell.Q).toBeCloseTo(1 - s_end, 9);
      const dt = t / 200_000;
      const steps = stepped(cell, powerRoot(P, cell.R), dt);
      expect(Math.abs(steps.t - t)).toBeLessThanOrEqual(2 * dt);
      expect(steps.s).toBeCloseTo(s_end, 4);
      expect(steps.load / E_load).toBeCloseTo(1, 4);
      expect(steps.loss / E_loss).toBeCloseTo(1, 4);
    }
  });

  it("balances to one part in a million: the open-circuit voltage over the charge drawn is load and loss", () => {
    fc.assert(
      fc.property(doubles(0.01, 2), doubles(0, 0.8), doubles(2.8, 3.5), doubles(0.5, 1), (P, R, V_c, s_0) => {
        const { t, s_end, Q_out, E_load, E_loss } = dischargeByPower({ ...cell, R, V_c, s_0 }, P);
        let fromCell = 0;
        let loss = 0;
        const n = 20_000;
        for (let i = 0; i < n; i++) {
          const V = voltageAt(s_end + ((s_0 - s_end) * (i + 0.5)) / n);
          fromCell += (V * Q_out) / n;
          // ∫I²·R dt with dt = dQ/I
          loss += (((2 * P) / (V + Math.sqrt(V * V - 4 * R * P))) * R * Q_out) / n;
        }
        expect(Math.abs(fromCell - E_load - E_loss)).toBeLessThanOrEqual(1e-6 * fromCell);
        expect(Math.abs(loss - E_loss)).toBeLessThanOrEqual(1e-6 * fromCell);
        expect(E_load).toBeCloseTo(P * t, 6);
      }),
      { seed: 13, numRuns: 50 },
    );
  });

  it("stops where the terminal voltage is the cut-off", () => {
    const { s_end } = dischargeByPower(cell, 0.5);
    expect(constantPowerPoint(voltageAt(s_end), cell.R, 0.5).V_t).toBeCloseTo(cell.V_c, 12);
  });

  it("is Q·V/P at a constant voltage without resistance, and lasts as long as the current there says with one", () => {
    const flat = { ...cell, ocv: curve([0, 1], [3.7, 3.7]) };
    expect(dischargeByPower({ ...flat, R: 0 }, 0.5)).toEqual({
      t: (1440 * 3.7) / 0.5,
      s_end: 0,
      Q_out: 1440,
      E_load: 1440 * 3.7,
      E_loss: 0,
    });
    expect(dischargeByPower(flat, 0.5).t * constantPowerPoint(3.7, 0.5, 0.5).I).toBeCloseTo(1440, 9);
  });

  it("tends to its value without resistance as R → 0", () => {
    const t = (R: number): number => dischargeByPower({ ...cell, R, V_c: 1 }, 0.5).t;
    expect(t(1e-9) / t(0)).toBeCloseTo(1, 8);
    expect(t(0) - t(1e-3)).toBeCloseTo((t(0) - t(2e-3)) / 2, 2);
  });

  it("ends at the collapse of the load where that comes before the cut-off", () => {
    const { s_end, t } = dischargeByPower({ ...cell, R: 2, V_c: 0.5 }, 1.5);
    expect(voltageAt(s_end)).toBeCloseTo(2 * Math.sqrt(2 * 1.5), 12);
    expect(t).toBeGreaterThan(0);
  });

  it("is 0 where the cell stands below the cut-off from the start, also by resistance alone", () => {
    expect(dischargeByPower({ ...cell, s_0: 0.01 }, 0.5)).toEqual({ t: 0, s_end: 0.01, Q_out: 0, E_load: 0, E_loss: 0 });
    expect(dischargeByPower({ ...cell, R: 5 }, 3).t).toBe(0);
  });

  it("does not depend on the unit of time: a cell of 3600 times the charge lasts 3600 times as long", () => {
    const { t } = dischargeByPower(cell, 0.5);
    expect(dischargeByPower({ ...cell, Q: 3600 * cell.Q }, 0.5).t / t).toBeCloseTo(3600, 9);
    expect(dischargeByPower({ ...cell, Q: cell.Q / 3600 }, 0.5).t / t).toBeCloseTo(1 / 3600, 15);
  });

  it("is the sum of its parts", () => {
    const whole = dischargeByPower({ ...cell, V_c: 3.2 }, 0.5).t;
    const upper = dischargeByPower({ ...cell, V_c: 3.6 }, 0.5);
    const lower = dischargeByPower({ ...cell, V_c: 3.2, s_0: upper.s_end }, 0.5);
    expect(upper.t + lower.t).toBeCloseTo(whole, 8);
  });

  it("refuses no load, no charge, and rows that are not read along straight lines", () => {
    expect(() => dischargeByPower(cell, 0)).toThrow("P > 0");
    expect(() => dischargeByPower({ ...cell, Q: 0 }, 1)).toThrow("Q > 0");
    expect(() => dischargeByPower({ ...cell, s_0: 1.01 }, 1)).toThrow(expect.objectContaining({ code: "table-range" }));
    expect(() => dischargeByPower({ ...cell, ocv: curve([0, 1], [3, 4.2], "monotone") }, 1)).toThrow(
      "the open-circuit voltage is interpolated monotone; a discharge needs linear rows",
    );
  });
});

describe("dischargeByCurrent(cell, I)", () => {
  it("agrees with brute-force steps through time", () => {
    const { t, s_end, Q_out, E_load, E_loss } = battery.runtimeAtCurrent.evaluate({ ...cell, ocv: curveArgument(bent), I: 0.2 });
    expect(Q_out / (0.2 * t)).toBeCloseTo(1, 12);
    const dt = t / 100_000;
    const steps = stepped(cell, () => 0.2, dt);
    expect(Math.abs(steps.t - t)).toBeLessThanOrEqual(2 * dt);
    expect(steps.s).toBeCloseTo(s_end, 4);
    expect(steps.load / E_load).toBeCloseTo(1, 4);
    expect(steps.loss / E_loss).toBeCloseTo(1, 4);
    expect(steps.fromCell / (E_load + E_loss)).toBeCloseTo(1, 4);
  });

  it("is Q/I for a cut-off that is never reached", () => {
    expect(dischargeByCurrent({ ...cell, V_c: 1 }, 0.2)).toMatchObject({ t: 7200, s_end: 0, Q_out: 1440 });
  });

  it("leaves what lies below V_c + I·R", () => {
    const { s_end, t } = dischargeByCurrent({ ...cell, V_c: 3.6 }, 0.2);
    expect(s_end).toBeCloseTo(0.3, 12);
    expect(t).toBeCloseTo((0.7 * 1440) / 0.2, 8);
  });

  it("lasts longer than the power of its beginning, and shorter than that of its end, would", () => {
    const { t } = dischargeByCurrent(cell, 0.2);
    expect(dischargeByPower(cell, 0.2 * 4.1).t).toBeLessThan(t);
    expect(dischargeByPower(cell, 0.2 * 3.2).t).toBeGreaterThan(t);
  });
});
