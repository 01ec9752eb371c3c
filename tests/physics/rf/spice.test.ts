/** The second route of two-ports: ngspice on the netlist of the same circuit data, which shares no code with chain matrices. */
import { describe, expect, it } from "vitest";
import { curveArgument } from "../../../lib/graph/model";
import { circuit, rf } from "../../../lib/physics";
import type { Choke, ChokeFilter } from "../../../lib/physics/rf/choke";
import type { Ends, FilterParts } from "../../../lib/physics/rf/filter";
import { ngspicePresent, ngspiceRows } from "../ngspice";

const skip = !ngspicePresent && process.env["CI"] !== "true";
const sweep = { kind: "ac", from: 1e4, to: 6e9, perDecade: 20 } as const;
const dB = (ratio: number): number => 20 * Math.log10(ratio);

const bead: FilterParts = {
  C_1: 0,
  ESR_1: 0,
  ESL_1: 0,
  L: 0.9e-6,
  R_dc: 0.35,
  R_p: 1100,
  C_p: 0.15e-12,
  C_2: 220e-12,
  ESR_2: 0.1,
  ESL_2: 0.5e-9,
  C_3: 0,
  ESR_3: 0,
  ESL_3: 0,
};
const pi: FilterParts = { ...bead, C_1: 15e-12, ESR_1: 0.2, ESL_1: 0.9e-9 };
const fifty: Ends = { R_s: 50, L_s: 0, R_L: 50, C_L: 0 };
const cases: readonly (readonly [string, FilterParts, Ends])[] = [
  ["a bead and a capacitor between 50 Ω and 50 Ω", bead, fifty],
  ["clamp, bead and capacitor between 50 Ω and 50 Ω", pi, fifty],
  ["clamp, bead and capacitor between 150 Ω + 20 nH and 47 kΩ ‖ 8 pF", pi, { R_s: 150, L_s: 20e-9, R_L: 47e3, C_L: 8e-12 }],
  ["clamp, bead and capacitor between 3 Ω and 38 Ω", pi, { R_s: 3, L_s: 0, R_L: 38, C_L: 0 }],
  ["a bead and two capacitors side by side between 50 Ω and 50 Ω", { ...bead, C_3: 15e-12, ESR_3: 0.1, ESL_3: 0.9e-9 }, fifty],
  ["a choke without loss, with 1 nF", { ...pi, L: 1.2e-6, R_dc: 0.1, R_p: 1e6, C_p: 1.2e-12, C_2: 1e-9 }, fifty],
];

describe("the netlist of a filter in ngspice", () => {
  it.skipIf(skip).each(cases)("gives the insertion loss of %s within 0.1 dB from 10 kHz to 6 GHz", (_, parts, ends) => {
    const chain = rf.filterChain(parts);
    const text = circuit.netlist(rf.chainCircuit(chain, ends), { analysis: sweep, print: ["vr(out)", "vi(out)"] });
    const straight = circuit.netlist(rf.chainCircuit([], ends), { analysis: sweep, print: ["vr(out)", "vi(out)"] });
    const [rows, without] = [ngspiceRows(text), ngspiceRows(straight)];
    expect(rows.length).toBeGreaterThanOrEqual(100);
    rows.forEach(([f = 0, re = 0, im = 0], i) => {
      const [, re_0 = 0, im_0 = 0] = without[i] ?? [];
      const theirs = dB(Math.hypot(re_0, im_0) / Math.hypot(re, im));
      const { IL, phi } = rf.insertionLoss.evaluate({ f, ...ends, ...parts });
      expect(Math.abs(dB(IL) - theirs), `${f} Hz: ${dB(IL)} dB, ngspice ${theirs} dB`).toBeLessThan(0.1);
      const turn = Math.abs(phi - Math.atan2(im, re));
      expect(Math.min(turn, 2 * Math.PI - turn), `phase at ${f} Hz`).toBeLessThan(2e-3);
    });
  });

  it.skipIf(skip)("agrees with the library within 0.002 dB where ngspice prints enough digits", () => {
    const text = circuit.netlist(rf.chainCircuit(rf.filterChain(pi), fifty), { analysis: sweep, print: ["vm(out)"] });
    const worst = ngspiceRows(text).reduce(
      (most, [f = 0, v = 0]) => Math.max(most, Math.abs(dB(rf.insertionLoss.evaluate({ f, ...fifty, ...pi }).IL) - dB(0.5 / v))),
      0,
    );
    expect(worst).toBeLessThan(0.002);
  });
});

describe("a single part in ngspice", () => {
  const impedances = (cards: readonly string[]) =>
    ngspiceRows(["* part", "I_x 0 a AC 1", ...cards, ".ac dec 20 10k 6G", ".print ac vr(a) vi(a)", ".end", ""].join("\n"));

  it.skipIf(skip).each([
    ["100 nF", { C: 100e-9, ESR: 20e-3, ESL: 0.5e-9 }],
    ["15 pF", { C: 15e-12, ESR: 0.2, ESL: 0.9e-9 }],
  ])("that is a capacitor of %s has the same impedance within 0.1 % of its size, through its resonance", (_, part) => {
    const rows = impedances([`C_1 a b ${part.C}`, `R_1 b c ${part.ESR}`, `L_1 c 0 ${part.ESL}`, "R_dc a 0 1T"]);
    expect(rows.length).toBeGreaterThan(100);
    for (const [f = 0, re = 0, im = 0] of rows) {
      const { Z, X } = rf.capacitorImpedance.evaluate({ f, ...part });
      expect(Math.abs(Z / Math.hypot(re, im) - 1), `${f} Hz`).toBeLessThan(1e-3);
      expect(Math.abs(X - im), `${f} Hz`).toBeLessThan(1e-3 * Z + 1e-3 * part.ESR);
    }
  });

  it.skipIf(skip).each([
    ["a bead", { L: 0.9e-6, R_dc: 0.35, R_p: 1100, C_p: 0.15e-12 }],
    ["a choke that resonates", { L: 4.7e-6, R_dc: 0.1, R_p: 20e3, C_p: 1.2e-12 }],
  ])("that is %s has the same impedance, resistance and reactance within 0.1 % of its size", (_, part) => {
    const rows = impedances([`R_1 a b ${part.R_dc}`, `L_1 b 0 ${part.L}`, `R_2 b 0 ${part.R_p}`, `C_2 b 0 ${part.C_p}`]);
    expect(rows.length).toBeGreaterThan(100);
    for (const [f = 0, re = 0, im = 0] of rows) {
      const { Z, R, X } = rf.coilImpedance.evaluate({ f, ...part });
      expect(Math.abs(Z / Math.hypot(re, im) - 1), `${f} Hz`).toBeLessThan(1e-3);
      expect(Math.hypot(R - re, X - im), `${f} Hz`).toBeLessThan(1e-3 * Z);
    }
  });
});

describe("the curve of a filter's loss in ngspice", () => {
  const resonant = ["a filter that rings into an open end", { ...pi, R_p: 20e3 }, { R_s: 1, L_s: 0, R_L: 47e3, C_L: 8e-12 }] as const;

  it.skipIf(skip).each([...cases, resonant])("is the same within 0.1 dB at any frequency from 10 kHz to 6 GHz: %s", (_, parts, ends) => {
    const band = { analysis: { ...sweep, perDecade: 100 }, print: ["vm(out)"] } as const;
    const { IL } = rf.insertionLossCurve.evaluate({ f_1: 9.99e3, f_2: 6e9, ...ends, ...parts });
    const curve = curveArgument({ x: Float64Array.from(IL.x), y: Float64Array.from(IL.y), interpolation: "log-log" });
    const rows = ngspiceRows(circuit.netlist(rf.chainCircuit(rf.filterChain(parts), ends), band));
    const without = ngspiceRows(circuit.netlist(rf.chainCircuit([], ends), band));
    expect(rows.length).toBeGreaterThan(570);
    rows.forEach(([f = 0, v = 0], i) => {
      expect(Math.abs(dB(curve.at(Math.min(f, 6e9))) - dB((without[i]?.[1] ?? 0) / v)), `${f} Hz`).toBeLessThan(0.1);
    });
  });

  it("does not hide the frequency at which a filter rings, 7 dB deeper than a grid shows", () => {
    const [, parts, ends] = resonant;
    const band = { f_1: 1e4, f_2: 6e9, ...ends, ...parts };
    const { IL } = rf.insertionLossCurve.evaluate(band);
    expect(Math.min(...Array.from(IL.y)) / rf.leastInsertionLoss.evaluate(band).IL).toBeCloseTo(1, 5);
  });
});

const choke: Choke = { L: 10e-6, k: 0.97, R_dc: 0.3, R_p: 2200, C_p: 1e-12 };
const filter: ChokeFilter = { ...choke, C_x: 100e-12, C_y: 470e-12, ESR: 0.1, ESL: 0.6e-9 };

describe("the netlist of a common-mode choke in ngspice", () => {
  it.skipIf(skip).each([
    ["common", 100, 25, ["vm(p)"], "with both capacitors", filter],
    ["differential", 100, 76, ["vm(p,q)"], "with both capacitors", filter],
    ["common", 25, 50, ["vm(q)"], "alone", { ...filter, C_x: 0, C_y: 0 }],
    ["differential", 50, 50, ["vm(p,q)"], "alone", { ...filter, C_x: 0, C_y: 0 }],
  ] as const)("gives the insertion loss in %s mode between %d Ω and %d Ω within 0.1 dB (%s, %s)", (mode, R_s, R_L, print, _, parts) => {
    const text = circuit.netlist(rf.chokeCircuit(parts, mode, R_s, R_L), { analysis: sweep, print });
    const rows = ngspiceRows(text);
    expect(rows.length).toBeGreaterThanOrEqual(100);
    for (const [f = 0, v = 0] of rows) {
      const { IL_c, IL_d } = rf.chokeLoss.evaluate({ f, R_cs: R_s, R_cL: R_L, R_ds: R_s, R_dL: R_L, ...parts });
      const ours = dB(mode === "common" ? IL_c : IL_d);
      const theirs = dB(R_L / (R_s + R_L) / v);
      expect(Math.abs(ours - theirs), `${f} Hz: ${ours} dB, ngspice ${theirs} dB`).toBeLessThan(0.1);
    }
  });
});
