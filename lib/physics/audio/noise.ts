/**
 * Noise at the output of an operational-amplifier stage from all its sources, none correlated with another:
 *   its voltage noise e_n·√(1 + f_e/f), times the noise gain;
 *   its current noise i_n·√(1 + f_i/f), at the non-inverting input through the source network, at the other through R_f;
 *   thermal noise of the source network, 4·k·T·Re Z, and of R_f and R_g, 4·k·T·R_f·G.
 * The source network is R_1 (source and series resistors) in series with a coupling capacitor C, across R_b to ground. At
 * the low end of the band the capacitor leaves R_b's noise and the current noise unloaded. The noise gain is
 * G = 1 + R_f/R_g, limited by a corner of first order f_b. Left out: noise of the source itself beyond R_1, of rails, and
 * the part of the gain that a feedback capacitor leaves above f_b.
 */

import { boltzmann } from "../constants";
import { bandIntegrals, type Weighting } from "./weighting";

/** V/√Hz, A/√Hz, Hz, Ω, F, K. C = 0: coupled directly. f_b = 0: no limit. */
export interface NoisyStage {
  readonly e_n: number;
  readonly f_e: number;
  readonly i_n: number;
  readonly f_i: number;
  readonly R_1: number;
  readonly C: number;
  readonly R_b: number;
  readonly R_f: number;
  readonly R_g: number;
  readonly T: number;
  readonly f_b: number;
}

/** Rms voltages at the output, V: all; voltage noise; current noise; source network; feedback resistors. */
export interface OutputNoise {
  readonly V_n: number;
  readonly V_e: number;
  readonly V_i: number;
  readonly V_s: number;
  readonly V_f: number;
}

/** Squared densities at the output at f (Hz, > 0), V²/Hz: voltage noise, current noise, source network, feedback. */
function noiseDensities(stage: NoisyStage, f: number): readonly [number, number, number, number] {
  const { e_n, f_e, i_n, f_i, R_f, R_g, T, f_b } = stage;
  const G = 1 + R_f / R_g;
  const { square, re } = sourceNetwork(stage, f);
  const passed = f_b > 0 ? 1 / (1 + (f / f_b) * (f / f_b)) : 1;
  const current = i_n * i_n * (1 + f_i / f);
  const thermal = 4 * boltzmann * T;
  return [
    passed * e_n * e_n * (1 + f_e / f) * G * G,
    passed * current * (square * G * G + R_f * R_f),
    passed * thermal * re * G * G,
    passed * thermal * R_f * G,
  ];
}

/** |Z|² (Ω²) and Re Z (Ω) of R_b ‖ (R_1 + 1/(jωC)). */
function sourceNetwork({ R_1, C, R_b }: NoisyStage, f: number): { readonly square: number; readonly re: number } {
  const X = C > 0 ? 1 / (2 * Math.PI * f * C) : 0;
  const below = (R_1 + R_b) * (R_1 + R_b) + X * X;
  return { square: (R_b * R_b * (R_1 * R_1 + X * X)) / below, re: (R_b * (R_1 * (R_1 + R_b) + X * X)) / below };
}

/** Density at the output at f, V/√Hz. */
export function outputDensity(stage: NoisyStage, f: number): number {
  return Math.sqrt(noiseDensities(stage, f).reduce((sum, part) => sum + part, 0));
}

/** Noise at the output from f_1 to f_2 (Hz), weighted. */
export function outputNoise(stage: NoisyStage, weighting: Weighting, f_1: number, f_2: number): OutputNoise {
  const parts = bandIntegrals((f) => noiseDensities(stage, f), weighting, f_1, f_2);
  const [V_e = 0, V_i = 0, V_s = 0, V_f = 0] = parts.map(Math.sqrt);
  return { V_n: Math.sqrt(parts.reduce((sum, part) => sum + part, 0)), V_e, V_i, V_s, V_f };
}
