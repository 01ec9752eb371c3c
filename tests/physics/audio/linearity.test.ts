/** Deviation from linear phase against a search over every delay, and against closed forms. */
import { describe, expect, it } from "vitest";
import { audio } from "../../../lib/physics";
import { linearity } from "../../../lib/physics/audio/linearity";
import { type ChainParts, chainPhase, chainSections } from "../../../lib/physics/audio/response";

const none: ChainParts = { f_h1: 0, f_h2: 0, f_h3: 0, f_l1: 0, f_l2: 0, f_l3: 0, f_h0: 0, Q_h: 1, f_l0: 0, Q_l: 1, f_p: 0, f_z: 0 };
const degrees = (radians: number): number => (radians * 180) / Math.PI;
const deviation = (parts: Partial<ChainParts>, f_1 = 40, f_2 = 16e3) => audio.phaseDeviation.evaluate({ f_1, f_2, ...none, ...parts });

/** Largest deviation over a fine grid of another make (even in hertz and in ratio), least over delays by thirds of a bracket. */
function searched(parts: Partial<ChainParts>, free: boolean): number {
  const chain = chainSections({ ...none, ...parts });
  const f = [
    ...Array.from({ length: 800 }, (_, i) => 40 + (i * 15960) / 799),
    ...Array.from({ length: 800 }, (_, i) => Math.min(16e3, 40 * 400 ** (i / 799))),
  ];
  const phases = f.map((at) => chainPhase(chain, at));
  const value = (tau: number): number => {
    const rest = phases.map((phi, i) => phi + 2 * Math.PI * (f[i] as number) * tau);
    const [low, high] = [Math.min(...rest), Math.max(...rest)];
    return free ? (high - low) / 2 : Math.max(-low, high);
  };
  let [left, right] = [-1e-3, 1e-3];
  for (let round = 0; round < 90; round++) {
    const third = (right - left) / 3;
    if (value(left + third) < value(right - third)) right -= third;
    else left += third;
  }
  return value((left + right) / 2);
}

const chains: readonly (readonly [string, Partial<ChainParts>])[] = [
  ["a coupling capacitor and a 100 kHz low-pass", { f_h1: 3.55, f_l1: 100e3 }],
  ["two low-passes", { f_l1: 60e3, f_l2: 30e3 }],
  ["a coupling capacitor, a servo and a resonant low-pass", { f_h1: 3.5, f_h2: 0.6, f_l0: 40e3, Q_l: 1.5 }],
];

describe("audio.phaseDeviation", () => {
  it.each(chains)("of %s is the least over all delays, and over all lines", (_, parts) => {
    const { delta, delta_free } = deviation(parts);
    expect(delta / searched(parts, false)).toBeCloseTo(1, 3);
    expect(delta_free / searched(parts, true)).toBeCloseTo(1, 3);
  });

  it("of 1 µF − 5 % into 47 kΩ is 5.1° from 40 Hz to 16 kHz, and half of it where the line's phase at 0 Hz is free", () => {
    const { delta, f, delta_free } = deviation({ f_h1: 1 / (2 * Math.PI * 47150 * 0.95e-6), f_l1: 100e3 });
    expect(degrees(delta)).toBeCloseTo(5.1, 1);
    expect(f).toBeCloseTo(40, 9);
    expect(degrees(delta_free)).toBeLessThan(0.55 * degrees(delta));
  });

  it("of a low-pass is what its formula leaves of its delay: 60 kHz deviates by well under a degree", () => {
    const { delta, tau } = deviation({ f_l1: 60e3 });
    expect(degrees(delta)).toBeLessThan(0.3);
    expect(tau).toBeLessThan(1 / (2 * Math.PI * 60e3));
  });

  it("is none of a pure delay, which all three definitions find", () => {
    const found = linearity((f) => -2 * Math.PI * f * 7e-6, 40, 16e3);
    for (const value of [found.delta, found.delta_ls, found.delta_free]) expect(Math.abs(value)).toBeLessThan(1e-12);
    expect(found.tau).toBeCloseTo(7e-6, 15);
    expect(found.tau_ls).toBeCloseTo(7e-6, 15);
  });

  it("of a constant phase shift is that shift but for a delay, and nothing to a free line", () => {
    const found = linearity(() => 0.1, 40, 16e3);
    expect(found.delta).toBeCloseTo((0.1 * (16e3 - 40)) / (16e3 + 40), 4);
    expect(found.delta_free).toBeCloseTo(0, 9);
  });

  it("by least squares has the delay that makes the squares stationary", () => {
    const chain = chainSections({ ...none, f_h1: 3.5, f_l1: 60e3 });
    const squares = (tau: number): number => {
      let sum = 0;
      for (let f = 40; f < 16e3; f += 2) sum += (chainPhase(chain, f + 1) + 2 * Math.PI * (f + 1) * tau) ** 2;
      return sum;
    };
    const { tau_ls } = deviation({ f_h1: 3.5, f_l1: 60e3 });
    const least = squares(tau_ls);
    expect(squares(tau_ls + 2e-9)).toBeGreaterThan(least);
    expect(squares(tau_ls - 2e-9)).toBeGreaterThan(least);
    expect(deviation({ f_h1: 3.5, f_l1: 60e3 }).delta_ls).toBeGreaterThanOrEqual(deviation({ f_h1: 3.5, f_l1: 60e3 }).delta);
  });

  it("from a stated delay is the sum of arctangents of its sections, and 2π·f·τ", () => {
    const parts = { f_h1: 3.55, f_l1: 80e3, f_h0: 0.6, Q_h: 0.7, f_l0: 120e3, Q_l: 1.5, f_p: 60e3, f_z: 300e3 };
    const tau = 3.2e-6;
    const { delta } = audio.phaseDeviationCurve.evaluate({ f_1: 5, f_2: 500e3, tau, ...none, ...parts });
    expect(delta.x.length).toBe(241);
    Array.from(delta.x).forEach((f, i) => {
      const first = Math.atan(parts.f_h1 / f) - Math.atan(f / parts.f_l1) + Math.atan(f / parts.f_z) - Math.atan(f / parts.f_p);
      const lag = (f_0: number, Q: number): number => Math.atan2(f / (Q * f_0), 1 - (f / f_0) ** 2);
      const second = Math.PI - lag(parts.f_h0, parts.Q_h) - lag(parts.f_l0, parts.Q_l);
      expect(delta.y[i], `${f} Hz`).toBeCloseTo(first + second + 2 * Math.PI * f * tau, 9);
    });
  });

  it("from the delay of a far low-pass is (f/f_l)³/3, the first term that its series leaves", () => {
    const { delta } = audio.phaseDeviationCurve.evaluate({ f_1: 20, f_2: 20e3, tau: 1 / (2 * Math.PI * 1e6), ...none, f_l1: 1e6 });
    expect((delta.y[240] as number) / (0.02 ** 3 / 3)).toBeCloseTo(1, 3);
  });

  it("from a stated delay is a curve: phase less the delay's", () => {
    const { delta } = audio.phaseDeviationCurve.evaluate({ f_1: 20, f_2: 20e3, tau: 1 / (2 * Math.PI * 80e3), ...none, f_l1: 80e3 });
    expect(degrees(delta.y[240] as number)).toBeCloseTo(0.2877014, 6);
  });
});
