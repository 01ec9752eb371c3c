/** The second route of discharges: ngspice on the netlist of the same circuit data, with its own integration and devices. */
import { describe, expect, it } from "vitest";
import { circuit, esd } from "../../../lib/physics";
import type { Circuit } from "../../../lib/physics/circuit/data";
import { peakOf } from "../../../lib/physics/circuit/waves";
import type { Protection } from "../../../lib/physics/esd/protection";
import { isFull } from "../../full";
import { ngspicePresent, ngspiceRows } from "../ngspice";

const skip = !ngspicePresent && process.env["CI"] !== "true";
const base: Protection = {
  L_st: 0.3e-9,
  V_br: 5.5,
  R_dyn: 0.12,
  C_cl: 15e-12,
  L: 0.9e-6,
  L_sat: 100e-9,
  I_sat: 0.3,
  R_dc: 0.35,
  R_p: 1100,
  R: 4.7,
  C_pin: 5e-12,
  V_rail: 0,
  V_f: 0.6,
  R_pin: 0.3,
};
const noChoke: Protection = { ...base, L: 0, R_dc: 0 };
const generator = { U: 8000, C_0: 150e-12, R_0: 330, L_0: 100e-9 };
const body = { U: 4000, C_0: 100e-12, R_0: 1500, L_0: 7.5e-6 };
type Figures = ReturnType<typeof esd.contactDischarge.evaluate>;
const contact = (protection: Protection, U: number) =>
  [esd.dischargeCircuit(protection, U), () => esd.contactDischarge.evaluate({ U, ...protection })] as const;
const charged = (protection: Protection, source: typeof generator) =>
  [esd.bodyCircuit(protection, source), () => esd.bodyDischarge.evaluate({ ...source, ...protection })] as const;
const ringing = { U: 2000, C_0: 1e-9, R_0: 10, L_0: 5e-6 };
/** Each to where all is at rest. */
const cases: readonly (readonly [string, Circuit, () => Figures, number])[] = [
  ["8 kV contact into clamp, saturating choke and pin, unpowered", ...contact(base, 8000), 400e-9],
  ["8 kV contact through a choke that saturates early and hard", ...contact({ ...base, I_sat: 0.05, L_sat: 10e-9 }, 8000), 400e-9],
  ["8 kV contact, powered", ...contact({ ...base, V_rail: 4.5 }, 8000), 400e-9],
  ["15/8 of the contact wave without a choke, unpowered", ...contact(noChoke, 15000), 400e-9],
  ["the 150 pF, 330 Ω generator at 8 kV", ...charged(noChoke, generator), 495e-9],
  ["1 nF at 2 kV behind 5 µH and 10 Ω, which ring", ...charged(noChoke, ringing), 6e-6],
  ["the same behind 1 Ω", ...charged(noChoke, { ...ringing, R_0: 1 }), 80e-6],
  ["the human-body model at 4 kV straight into the pin", ...charged({ ...noChoke, V_br: 1e4, L_st: 0 }, body), 1.5e-6],
];
const options = ".options RELTOL=1e-5 ABSTOL=1e-9 VNTOL=1e-6 METHOD=GEAR";

/** Waves of both programs: current into the pin's clamp, voltages of connector and pin. */
function compared(network: Circuit, stop: number) {
  const names = ["v(jack)", "v(pin)"];
  const rows = ngspiceRows(
    circuit.netlist(network, { analysis: { kind: "tran", step: stop / 20_000, stop }, print: names, lines: [options] }),
  );
  const ours = circuit.transient(network, { stop });
  return { rows, ours };
}

/** Charge of either sign, peak and energy of the pin's clamp from samples of its voltage. */
function pinFigures(t: readonly number[], v: readonly number[], network: Circuit) {
  const clamp = network.find(({ name }) => name === "pin_clamp");
  if (clamp?.kind !== "diode") throw new Error("no pin clamp");
  const i = v.map((volts) =>
    volts > clamp.V_f ? (volts - clamp.V_f) / clamp.R_f : volts < -clamp.V_br ? (volts + clamp.V_br) / clamp.R_br : 0,
  );
  const integral = (f: (k: number) => number): number =>
    t.reduce((sum, time, k) => (k === 0 ? 0 : sum + ((time - (t[k - 1] ?? 0)) * (f(k) + f(k - 1))) / 2), 0);
  return {
    peak: Math.abs(peakOf(Float64Array.from(t), Float64Array.from(i)).value),
    charge: integral((k) => Math.abs(i[k] ?? 0)),
    energy: integral((k) => (i[k] ?? 0) * (v[k] ?? 0)),
  };
}

describe("the netlist of a discharge in ngspice", () => {
  it.skipIf(skip).each(isFull ? cases : [cases[0], cases[2], cases[4], cases[7]].filter((one) => one !== undefined))(
    "gives the same peaks, charge and energy as the library within 2 per cent: %s",
    (name, network, model, stop) => {
      const { rows, ours } = compared(network, stop);
      expect(rows.length, name).toBeGreaterThan(1000);
      const [t, jack, pin] = [0, 1, 2].map((k) => rows.map((row) => row[k] ?? Number.NaN)) as [number[], number[], number[]];
      const theirs = { ...pinFigures(t, pin, network), jack: jack.reduce((most, v) => Math.max(most, Math.abs(v)), 0) };
      const mine = {
        ...pinFigures([...ours.t], [...ours.voltage("pin")], network),
        jack: Math.abs(peakOf(ours.t, ours.voltage("jack")).value),
      };
      for (const figure of ["peak", "charge", "energy", "jack"] as const) {
        expect(Math.abs(mine[figure] / theirs[figure] - 1), `${figure}: ${mine[figure]}, ngspice ${theirs[figure]}`).toBeLessThan(0.02);
      }
      expect(ours.energy("pin_clamp") / theirs.energy).toBeCloseTo(1, 1);
      const { I_pin, V_j, V_pin, E_pin } = model();
      const clamped = pin.reduce((most, v) => Math.max(most, Math.abs(v)), 0);
      for (const [figure, got, wanted] of [
        ["I_pin", I_pin, theirs.peak],
        ["V_j", V_j, theirs.jack],
        ["V_pin", V_pin, clamped],
        ["E_pin", E_pin, theirs.energy],
      ] as const) {
        expect(Math.abs(got / wanted - 1), `${figure} of the model: ${got}, ngspice ${wanted}`).toBeLessThan(0.03);
      }
    },
  );
});

describe("the energy of a contact discharge", () => {
  it("is all of it: followed five times as long, no part grows by half a per cent", () => {
    for (const V_rail of [0, 4.5]) {
      const protection = { ...base, V_rail };
      const { E_pin, E_cl, E_R } = esd.contactDischarge.evaluate({ U: 8000, ...protection });
      const long = circuit.transient(esd.dischargeCircuit(protection, 8000), { stop: 2e-6, tolerance: 1e-3 });
      expect(Math.abs(long.energy("pin_clamp") / E_pin - 1)).toBeLessThan(5e-3);
      expect(Math.abs(long.energy("clamp") / E_cl - 1)).toBeLessThan(5e-3);
      expect(Math.abs((long.energy("R") * 4.7) / 5.05 / E_R - 1)).toBeLessThan(5e-3);
    }
  });
});

describe("esd.levels", () => {
  it.skipIf(skip)("has ngspice's peak of the pin's current at 2, 4, 6 and 8 kV, powered and not, and the margin that it leaves", () => {
    const [I_max, protection] = [3, { ...base, V_rail: 4.5 }];
    const { I_on, I_off, M_on, M_off } = esd.levels.evaluate({ I_max, ...protection });
    expect(Array.from(I_on.x)).toEqual([2000, 4000, 6000, 8000]);
    for (const [V_rail, I, M] of [
      [4.5, I_on, M_on],
      [0, I_off, M_off],
    ] as const) {
      Array.from(I.x).forEach((U, k) => {
        const network = esd.dischargeCircuit({ ...protection, V_rail }, U);
        const { rows } = compared(network, 120e-9);
        const [t, , pin] = [0, 1, 2].map((column) => rows.map((row) => row[column] ?? Number.NaN)) as [number[], number[], number[]];
        const { peak } = pinFigures(t, pin, network);
        // 2 %; of a clamp that just begins 10 mA, which are 3 mV of 5.1 V across its 0.3 Ω
        const allowed = Math.max(0.02 * peak, 0.01);
        expect(Math.abs((I.y[k] as number) - peak), `${U} V, rail at ${V_rail} V: ngspice ${peak} A`).toBeLessThan(allowed);
        expect(Math.abs((M.y[k] as number) - (1 - peak / I_max))).toBeLessThan(allowed / I_max);
      });
    }
  });
});
