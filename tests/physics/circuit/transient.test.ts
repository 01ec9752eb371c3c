/** Circuits in time against closed forms, and against the balance of their energies. */
import { describe, expect, it } from "vitest";
import { circuit } from "../../../lib/physics";
import type { Circuit, CircuitElement } from "../../../lib/physics/circuit/data";

const resistor = (name: string, a: string, b: string, R: number): CircuitElement => ({ kind: "resistor", name, nodes: [a, b], R });
const capacitor = (name: string, a: string, b: string, C: number, initial = 0): CircuitElement => ({
  kind: "capacitor",
  name,
  nodes: [a, b],
  C,
  initial,
});
const inductor = (name: string, a: string, b: string, L: number): CircuitElement => ({ kind: "inductor", name, nodes: [a, b], L });
const supply = (name: string, a: string, value: number): CircuitElement => ({ kind: "voltage", name, nodes: [a, "0"], value });
const end = (wave: Float64Array): number => wave.at(-1) ?? Number.NaN;

/** Largest deviation of a wave from a function of time. */
function deviation(t: Float64Array, wave: Float64Array, form: (t: number) => number): number {
  return wave.reduce((most, value, i) => Math.max(most, Math.abs(value - form(t[i] ?? Number.NaN))), 0);
}

describe("transient(circuit, { stop }) follows closed forms", () => {
  it("of a capacitor that discharges through a resistor, from its voltage at t = 0", () => {
    const waves = circuit.transient([capacitor("C", "a", "0", 150e-12, 8000), resistor("R", "a", "0", 330)], { stop: 300e-9 });
    expect(waves.voltage("a")[0]).toBeCloseTo(8000, 6);
    expect(deviation(waves.t, waves.voltage("a"), (t) => 8000 * Math.exp(-t / (330 * 150e-12))) / 8000).toBeLessThan(2e-3);
  });

  it("closer for a tighter tolerance", () => {
    const network = [capacitor("C", "a", "0", 1e-9, 1), resistor("R", "a", "0", 1000)];
    const error = (tolerance: number): number => {
      const waves = circuit.transient(network, { stop: 5e-6, tolerance });
      return deviation(waves.t, waves.voltage("a"), (t) => Math.exp(-t / 1e-6));
    };
    expect(error(1e-6)).toBeLessThan(error(1e-4) / 4);
    expect(error(1e-6)).toBeLessThan(2e-5);
  });

  it("of a damped oscillation", () => {
    const [R, L, C, V] = [10, 1e-6, 1e-9, 5];
    const network = [supply("V", "s", V), resistor("R", "s", "a", R), inductor("L", "a", "b", L), capacitor("C", "b", "0", C)];
    const waves = circuit.transient(network, { stop: 2e-6, tolerance: 1e-5 });
    const a = R / (2 * L);
    const w = Math.sqrt(1 / (L * C) - a * a);
    const form = (t: number): number => V * (1 - Math.exp(-a * t) * (Math.cos(w * t) + (a / w) * Math.sin(w * t)));
    expect(deviation(waves.t, waves.voltage("b"), form) / V).toBeLessThan(2e-3);
    expect(circuit.peakOf(waves.t, waves.voltage("b")).value).toBeCloseTo(form(Math.PI / w), 2);
  });

  it("of an inductor that saturates: a straight rise of current, then a steeper one", () => {
    const choke: CircuitElement = { kind: "inductor", name: "L", nodes: ["s", "0"], L: 1e-6, saturation: { I: 2, L: 1e-7 } };
    const waves = circuit.transient([supply("V", "s", 10), choke], { stop: 300e-9 });
    const form = (t: number): number => (t < 200e-9 ? 1e7 * t : 2 + 1e8 * (t - 200e-9));
    expect(deviation(waves.t, waves.current("L"), form) / 12).toBeLessThan(2e-3);
  });

  it("of two coupled inductors, one shorted: only the leakage L·(1 − k²) is left", () => {
    const coupling: CircuitElement = { kind: "coupling", name: "K", inductors: ["L1", "L2"], k: 0.9 };
    const network = [
      supply("V", "s", 1),
      inductor("L1", "s", "0", 1e-3),
      inductor("L2", "x", "0", 4e-3),
      resistor("R", "x", "0", 1e-9),
      coupling,
    ];
    const waves = circuit.transient(network, { stop: 1e-3 });
    expect(end(waves.current("L1"))).toBeCloseTo(1e-3 / (1e-3 * (1 - 0.81)), 3);
    expect(end(waves.current("L2")) / end(waves.current("L1"))).toBeCloseTo(-0.9 / 2, 6);
  });

  it("of a diode in straight pieces between a supply and a resistor, either way round", () => {
    const network = (V: number): Circuit => [
      supply("V", "s", V),
      resistor("R", "s", "a", 100),
      { kind: "diode", name: "D", nodes: ["a", "0"], V_f: 0.7, R_f: 5, V_br: 5, R_br: 1 },
    ];
    const current = (V: number): number => end(circuit.transient(network(V), { stop: 1e-6 }).current("D"));
    expect(current(5)).toBeCloseTo((5 - 0.7) / 105, 9);
    expect(current(0.5)).toBe(0);
    expect(current(-9)).toBeCloseTo(-4 / 101, 9);
  });
});

describe("transient(circuit, { stop }) keeps balances", () => {
  it("of charge and energy where one capacitor charges another: half is lost, whatever the resistor", () => {
    for (const R of [1, 330, 1e4]) {
      const network = [capacitor("A", "a", "0", 1e-9, 100), resistor("R", "a", "b", R), capacitor("B", "b", "0", 1e-9)];
      const waves = circuit.transient(network, { stop: 20 * R * 0.5e-9 });
      expect(end(waves.voltage("b"))).toBeCloseTo(50, 3);
      expect(waves.energy("R") / 2.5e-6).toBeCloseTo(1, 2);
    }
  });

  it("of all energies in a network with pulse, clamp and choke", () => {
    const pulse = { scale: 1, terms: [{ peak: 20, rise: 2e-9, fall: 10e-9, power: 2 }] };
    const network: Circuit = [
      { kind: "current", name: "I", nodes: ["0", "j"], value: pulse },
      { kind: "diode", name: "D", nodes: ["j", "0"], V_f: 6, R_f: 0.3, V_br: 6, R_br: 0.3 },
      inductor("L", "j", "p", 200e-9),
      resistor("R", "p", "q", 10),
      capacitor("C", "q", "0", 20e-12),
    ];
    const waves = circuit.transient(network, { stop: 100e-9, tolerance: 1e-5 });
    const stored = (20e-12 * end(waves.voltage("q")) ** 2) / 2 + (200e-9 * end(waves.current("L")) ** 2) / 2;
    const given = -waves.energy("I");
    expect((waves.energy("D") + waves.energy("R") + stored) / given).toBeCloseTo(1, 3);
    expect(given).toBeGreaterThan(1e-7);
  });

  it("gives the same numbers twice", () => {
    const network = [capacitor("C", "a", "0", 1e-9, 10), inductor("L", "a", "b", 1e-6), resistor("R", "b", "0", 5)];
    const run = (): Float64Array => circuit.transient(network, { stop: 1e-6 }).voltage("b");
    expect(run()).toEqual(run());
  });
});

describe("transient(circuit, { stop }) refuses", () => {
  const network = [capacitor("C", "a", "0", 1e-9, 10), resistor("R", "a", "0", 5)];

  it("an end that is none, and names that are not in the circuit", () => {
    expect(() => circuit.transient(network, { stop: 0 })).toThrow(expect.objectContaining({ code: "not-finite" }));
    const waves = circuit.transient(network, { stop: 1e-8 });
    expect(() => waves.voltage("b")).toThrow("the circuit has no node 'b'; there are a");
    expect(() => waves.current("X")).toThrow("no element 'X'; there are C, R");
    expect(() => waves.current("C")).toThrow(expect.objectContaining({ code: "model-argument" }));
  });

  it("two sources at odds", () => {
    expect(() => circuit.transient([supply("V", "a", 1), supply("W", "a", 2)], { stop: 1 })).toThrow("no single solution");
  });
});
