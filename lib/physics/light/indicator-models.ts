/** Indicators that warm themselves, and sets of them that should look alike, as models. */
import { commonPractice } from "../../formula/formula";
import { defineModel, tableInput } from "../../graph/model";
import { ln } from "../../quantity/elementary";
import { ampere, candela, celsius, K_per_W, mA, mV_per_K, ohm, one, per_kelvin, percent, volt } from "../../units";
import { warmPoint } from "./indicator";
import { relativeIntensity, thermalFactor } from "./luminosity";
import { matchProbability as match } from "./match";

const inside = (symbol: string, low: number, high: number, text: string) => ({ symbol, low, high, text });

/** Current, junction and intensity together. */
export const warmIndicator = defineModel({
  name: "light.warmIndicator",
  inputs: {
    V_s: volt,
    R: ohm,
    dV: volt,
    diode: tableInput(volt, ampere),
    k_V: mV_per_K,
    T_0: celsius,
    T_a: celsius,
    R_th: K_per_W,
    eta: one,
    I_v0: candela,
    relative: tableInput(mA, one),
    alpha: per_kelvin,
  },
  outputs: { I: mA, V_f: volt, T_j: celsius, I_v: candela },
  meaning:
    "current, forward voltage, junction temperature and luminous intensity of an LED in T_a that warms itself through R_th: its I–V table (at T_0, shifted by dV) moves by k_V per kelvin of its junction, its intensity by alpha",
  meanings: { I: "current", V_f: "forward voltage", T_j: "temperature of the junction", I_v: "luminous intensity" },
  source: commonPractice,
  valid: [
    inside("T_a", 233, 358, "233 K to 358 K"),
    inside("k_V", -0.006, 0, "-6 mV/K to 0 mV/K"),
    inside("R_th", 0, 1000, "0 K/W to 1000 K/W"),
    inside("eta", 0, 0.8, "0 to 0.8"),
  ],
  evaluate: ({ I_v0, relative, alpha, ...diode }) => {
    const point = warmPoint(diode);
    return { ...point, I_v: I_v0 * relativeIntensity(point.I, relative) * thermalFactor(alpha, point.T_j, diode.T_0) };
  },
});

/** Whether a set of LEDs looks alike. */
export const matchProbability = defineModel({
  name: "light.matchProbability",
  inputs: { N: one, B: one, sigma: one, r: one },
  outputs: { P: percent },
  meaning:
    "probability P that N LEDs are within the ratio r of one another: each from a bin with its edges in the ratio B (logarithms spread evenly, 1 for no bin), with a normal spread of relative standard deviation sigma on top; N is rounded to whole LEDs",
  source: "range of N independent draws; common practice",
  valid: [
    inside("N", 1, 1000, "1 to 1000"),
    inside("B", 1, 10, "1 to 10"),
    inside("sigma", 0, 0.3, "0 to 0.3"),
    inside("r", 1, Infinity, ">= 1"),
  ],
  evaluate: ({ N, B, sigma, r }) => ({ P: match(Math.round(N), ln(B), sigma, ln(r)) }),
});
