/** Procedures of indicators and of light, as models: what has no closed law. */
import { commonPractice } from "../../formula/formula";
import type { CurveData } from "../../graph/curve";
import { defineModel, type Extent, tableInput } from "../../graph/model";
import { ampere, candela, celsius, lm_per_W, mA, nm, ohm, one, per_kelvin, volt } from "../../units";
import { notNegative, positive } from "../model-limits";
import { against, isNotNegative, wayOf } from "../table-ways";
import { tablePoint, tableVoltage } from "./diode-table";
import { bellEfficacy, currentForRelativeIntensity, efficacy, relativeIntensity, thermalFactor } from "./luminosity";
import { shockleyPoint } from "./shockley";

const photopic = "CIE 1924 photopic luminous efficiency, CIE S 010 / ISO 23539; Φ_v = K_m·∫V·Φ_e,λ dλ";
const diode = tableInput(volt, mA);
const relative = tableInput(mA, one);
const efficiency = tableInput(nm, one);

/** The current where a diode's table and the load line of supply and resistor meet. */
export const operatingPoint = defineModel({
  name: "light.operatingPoint",
  inputs: { V_s: volt, R: ohm, dV: volt, diode },
  outputs: { I: mA, V_f: volt },
  meaning: "current I and forward voltage V_f of a diode given by its I–V table, shifted by dV, fed from V_s through R",
  meanings: { I: "current through the diode", V_f: "forward voltage" },
  source: commonPractice,
  valid: notNegative("R"),
  holds: "up to the last row of the table, an error above; below its first row the current goes on as a junction's does",
  ways: ({ diode }) => (wayOf(diode) === 1 && isNotNegative(diode) ? { I: { V_s: 1, R: -1, dV: -1 }, V_f: { V_s: 1, R: -1, dV: 1 } } : {}),
  waysBecause:
    "the load line V_s − I·R falls with the current and the diode's curve rises: more supply lifts the line, more resistance turns it down, a shift moves the curve to the right",
  evaluate: ({ V_s, R, dV, diode }) => tablePoint(V_s, R, diode, dV),
});

/** What the table is shifted by so that it passes through a forward voltage stated for one current. */
export const forwardOffset = defineModel({
  name: "light.forwardOffset",
  inputs: { V_f: volt, I: ampere, diode },
  outputs: { dV: volt },
  meaning: "shift dV that makes a diode's I–V table pass through the forward voltage V_f at the current I",
  source: commonPractice,
  valid: positive("I"),
  holds: "up to the highest current of the table, an error above",
  ways: ({ diode }) => ({ dV: { V_f: 1, I: against(rising(diode)) } }),
  waysBecause: "dV = V_f − V(I), and the voltage of a rising curve rises with the current",
  evaluate: ({ V_f, I, diode }) => ({ dV: V_f - tableVoltage(I, diode, 0) }),
});

/** Forward voltage at a current. */
export const forwardVoltage = defineModel({
  name: "light.forwardVoltage",
  inputs: { I: ampere, dV: volt, diode },
  outputs: { V_f: volt },
  meaning: "forward voltage V_f at the current I of a diode given by its I–V table, shifted by dV",
  source: commonPractice,
  valid: positive("I"),
  holds: "up to the highest current of the table, an error above",
  ways: ({ diode }) => ({ V_f: { I: rising(diode), dV: 1 } }),
  waysBecause: "V_f = V(I) + dV, and the voltage of a rising curve rises with the current",
  evaluate: ({ I, dV, diode }) => ({ V_f: tableVoltage(I, diode, dV) }),
});

/** The same operating point for a diode given by Shockley's law and a series resistance. */
export const shockleyOperatingPoint = defineModel({
  name: "light.shockleyOperatingPoint",
  inputs: { V_s: volt, R: ohm, I_s: ampere, n: one, R_s: ohm, T: celsius },
  outputs: { I: mA, V_f: volt },
  meanings: { I: "current through the junction", V_f: "forward voltage" },
  meaning:
    "current I and forward voltage V_f of a junction with saturation current I_s, ideality n and series resistance R_s, fed from V_s through R",
  source: "Shockley, Bell System Technical Journal 28 (1949) 435",
  valid: [
    { symbol: "n", low: 1, high: 3, text: "1 to 3" },
    { symbol: "T", low: 233, high: 398, text: "233 K to 398 K" },
  ],
  evaluate: ({ V_s, R, I_s, n, R_s, T }) => shockleyPoint(V_s, R, { I_s, n, R_s }, T),
});

/** Luminous intensity at a current and temperature. */
export const intensity = defineModel({
  name: "light.intensity",
  inputs: { I: ampere, I_v0: candela, relative, alpha: per_kelvin, T: celsius, T_0: celsius },
  outputs: { I_v: candela },
  meaning:
    "luminous intensity I_v of an LED at current I and temperature T: I_v0 times the relative intensity of its table times exp(α·(T − T_0))",
  source: commonPractice,
  valid: [{ symbol: "T", low: 233, high: 358, text: "233 K to 358 K" }],
  ways: ({ I, I_v0, relative, alpha, T, T_0 }) => {
    if (I.low < 0 || I_v0.low < 0 || !isNotNegative(relative)) return {};
    return { I_v: { I: rising(relative), I_v0: 1, ...thermalWays(alpha, T, T_0) } };
  },
  waysBecause: "a product of factors that are not below 0; exp(α·(T − T_0)) goes with the signs of α and of T − T_0",
  evaluate: ({ I, I_v0, relative, alpha, T, T_0 }) => ({ I_v: I_v0 * relativeIntensity(I, relative) * thermalFactor(alpha, T, T_0) }),
});

/** The current that a wanted luminous intensity needs: `intensity` turned round. */
export const currentForIntensity = defineModel({
  name: "light.currentForIntensity",
  inputs: { I_v: candela, I_v0: candela, relative, alpha: per_kelvin, T: celsius, T_0: celsius },
  outputs: { I: mA },
  meaning: "current I at which an LED gives the luminous intensity I_v at temperature T, from its table of relative intensity",
  source: commonPractice,
  valid: [{ symbol: "T", low: 233, high: 358, text: "233 K to 358 K" }],
  ways: ({ I_v, I_v0, relative, alpha, T, T_0 }) => {
    if (I_v.low < 0 || I_v0.low <= 0 || !isNotNegative(relative) || rising(relative) !== 1) return {};
    const { alpha: a, T: t, T_0: t_0 } = thermalWays(alpha, T, T_0);
    return { I: { I_v: 1, I_v0: -1, alpha: against(a), T: against(t), T_0: against(t_0) } };
  },
  waysBecause: "the inverse of a rising table, at I_v over factors that are above 0",
  evaluate: ({ I_v, I_v0, relative, alpha, T, T_0 }) => ({
    I: currentForRelativeIntensity(I_v / (I_v0 * thermalFactor(alpha, T, T_0)), relative),
  }),
});

/** Lumens per radiant watt of a spectrum. */
export const spectralEfficacy = defineModel({
  name: "light.spectralEfficacy",
  inputs: { spectrum: tableInput(nm, one), V: efficiency, K_m: lm_per_W },
  outputs: { K: lm_per_W },
  meaning: "luminous efficacy of radiation K of a relative spectrum, weighted by the luminous efficiency V",
  source: photopic,
  valid: positive("K_m"),
  holds: "for a spectrum that its table holds whole; where V has no row the eye is taken to see nothing",
  evaluate: ({ spectrum, V, K_m }) => ({ K: K_m * efficacy(spectrum, V) }),
});

/** Lumens per radiant watt of an LED's bell-shaped spectrum. */
export const ledEfficacy = defineModel({
  name: "light.ledEfficacy",
  inputs: { lambda: nm, width: nm, V: efficiency, K_m: lm_per_W },
  outputs: { K: lm_per_W },
  meaning:
    "luminous efficacy of radiation K of a bell-shaped (Gaussian) spectrum with its peak at λ and the given width at half its height",
  source: photopic,
  valid: positive("lambda", "width", "K_m"),
  holds: "for every bell; where V has no row the eye is taken to see nothing",
  evaluate: ({ lambda, width, V, K_m }) => ({ K: K_m * bellEfficacy(lambda, width, V) }),
});

/** 1 for a table that nowhere falls. */
function rising(table: CurveData): 1 | undefined {
  return wayOf(table) === 1 ? 1 : undefined;
}

/** Of exp(α·(T − T_0)): with T as α is above 0 or below, with α as T lies above T_0 or below. */
function thermalWays(alpha: Extent, T: Extent, T_0: Extent): Readonly<Record<"alpha" | "T" | "T_0", 1 | -1 | undefined>> {
  const byT = alpha.low >= 0 ? 1 : alpha.high <= 0 ? -1 : undefined;
  return { alpha: T.low >= T_0.high ? 1 : T.high <= T_0.low ? -1 : undefined, T: byT, T_0: against(byT) };
}
