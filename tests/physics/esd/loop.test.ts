/** The one loop of a discharge against the whole network, ngspice and closed forms. */
import { describe, expect, it } from "vitest";
import { circuit, esd } from "../../../lib/physics";
import { isFull } from "../../full";
import { ngspicePresent, ngspiceRows } from "../ngspice";

const skip = !ngspicePresent && process.env["CI"] !== "true";
const line = { L_st: 0.5e-9, L: 0.9e-6, L_sat: 80e-9, I_sat: 0.3, R_dc: 0.35, V_f: 0.8, R_pin: 0.3 };
/** What the loop leaves out. */
const rest = { C_cl: 15e-12, C_pin: 5e-12, R_p: 1100 };
const clamps = { good: { V_br: 5.5, R_dyn: 0.12 }, poor: { V_br: 6.5, R_dyn: 0.25 } };
const resistors = [2, 3.9, 4.7, 10];
type Line = Parameters<typeof esd.pinCurrent.evaluate>[0];
const at = (U: number, V_rail: number, clamp: keyof typeof clamps, R: number, more: Partial<Line> = {}): Line => ({
  U,
  V_rail,
  R,
  ...line,
  ...clamps[clamp],
  ...more,
});

describe("esd.pinCurrent", () => {
  const strikes = [8000, 15000, 17250].flatMap((U) =>
    resistors.flatMap((R) => (["good", "poor"] as const).map((clamp) => ({ U, R, clamp }))),
  );

  it.each(isFull ? strikes : strikes.filter(({ R }) => R === 4.7))(
    "has the whole network's current and energies within 1 %, and its voltage within 2 %, unpowered: $U V, $clamp clamp, $R Ω",
    ({ U, R, clamp }) => {
      for (const more of [{}, { L_sat: 30e-9, V_br: 6, L_st: 0.6e-9 }, { L_sat: 150e-9 }]) {
        const args = at(U, 0, clamp, R, more);
        const [loop, whole] = [esd.pinCurrent.evaluate(args), esd.contactDischarge.evaluate({ ...args, ...rest })];
        for (const figure of ["I_pin", "E_cl", "E_R"] as const)
          expect(Math.abs(loop[figure] / whole[figure] - 1), figure).toBeLessThan(0.01);
        expect(Math.abs(loop.V_j / whole.V_j - 1)).toBeLessThan(0.02);
      }
    },
  );

  it("has it within 10 mA where a powered pin carries little", () => {
    for (const U of [2000, 8000, 15000]) {
      for (const R of resistors) {
        const args = at(U, 4.5, "good", R);
        const [loop, whole] = [esd.pinCurrent.evaluate(args), esd.contactDischarge.evaluate({ ...args, ...rest })];
        expect(Math.abs(loop.I_pin - whole.I_pin)).toBeLessThan(0.01);
      }
    }
  });

  it.skipIf(skip)("has ngspice's peak of the whole network within 1.5 %, at 15 kV unpowered, typical and at the worst corner", () => {
    for (const more of [{}, { L_sat: 30e-9, V_br: 6, R_dyn: 0.15, L_st: 0.6e-9, V_f: 0.7, R_pin: 0.2, I_sat: 0.21 }]) {
      const args = at(15000, 0, "good", 4.7, more);
      const network = esd.dischargeCircuit({ ...args, ...rest }, args.U);
      const rows = ngspiceRows(
        circuit.netlist(network, {
          analysis: { kind: "tran", step: 2e-11, stop: 120e-9 },
          print: ["v(pin)"],
          lines: [".options RELTOL=1e-5 ABSTOL=1e-9 VNTOL=1e-6 METHOD=GEAR"],
        }),
      );
      const peak = (Math.max(...rows.map(([, v = Number.NaN]) => v)) - args.V_f) / args.R_pin;
      expect(Math.abs(esd.pinCurrent.evaluate(args).I_pin / peak - 1), `ngspice ${peak}`).toBeLessThan(0.015);
    }
  });

  it("carries the whole current where no clamp conducts, and none where the clamp holds less than the pin needs", () => {
    const { I_p } = esd.pulse.evaluate({ U: 4000 });
    const open = esd.pinCurrent.evaluate(at(4000, 0, "good", 0, { V_br: 1e6, L_st: 0, L: 1e-9, L_sat: 1e-9, R_dc: 0 }));
    expect(open.I_pin / I_p).toBeCloseTo(1, 3);
    expect(esd.pinCurrent.evaluate(at(8000, 9, "good", 4.7, { R_dyn: 0, L_st: 0 })).I_pin).toBe(0);
  });

  it("follows a choke too small for its steps without swinging: the pin's current is what the clamp's volts drive", () => {
    const { I_pin } = esd.pinCurrent.evaluate(at(15000, 0, "good", 10, { L: 1e-12, L_sat: 1e-12, L_st: 0, R_dyn: 0 }));
    expect(I_pin).toBeCloseTo((5.5 - 0.8) / (10 + 0.35 + 0.3), 6);
  });
});

describe("esd.pinCurrentCurve", () => {
  it("is V/R·(1 − exp(−R·t/L)) behind a clamp that holds one voltage: closed form", () => {
    const { i_p } = esd.pinCurrentCurve.evaluate(at(8000, 0, "good", 4.7, { L: 80e-9, R_dyn: 0, L_st: 0 }));
    const R = 4.7 + 0.35 + 0.3;
    for (const t of [5e-9, 20e-9, 60e-9, 100e-9]) {
      const k = Array.from(i_p.x).findIndex((x) => x >= t);
      expect((i_p.y[k] as number) / (((5.5 - 0.8) / R) * (1 - Math.exp((-R * (i_p.x[k] as number)) / 80e-9)))).toBeCloseTo(1, 2);
    }
  });

  it("leaves to the clamp what the pin does not take: the source's current at each time", () => {
    const { i_p, i_c } = esd.pinCurrentCurve.evaluate(at(15000, 0, "good", 4.7));
    for (const [k, t] of Array.from(i_p.x).entries()) {
      expect((i_p.y[k] as number) + (i_c.y[k] as number)).toBeCloseTo(esd.pulseCurrent.evaluate({ U: 15000, t }).i, 9);
    }
  });
});
