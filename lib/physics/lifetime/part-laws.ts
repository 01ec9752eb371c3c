/**
 * Wear and ageing of parts, as formulas: contacts by cycles, electrolytic capacitors and stored data by temperature,
 * class-2 ceramic capacitors by the decades of time. Rates by temperature are Arrhenius's law with an activation energy
 * in eV; the laws hold for one failure mechanism at a time.
 */
import { commonPractice, formula } from "../../formula/formula";
import type { Rate } from "../../quantity/dimension-tables";
import type { Unit } from "../../units";
import { ampere, celsius, eV, hour, J_per_K, kelvin, mohm, one, percent, uF, unitOf, year } from "../../units";

const perDay: Unit<Rate> = unitOf("1/d");
const arrhenius = "Arrhenius's law; JEDEC JEP122 for activation energies (from memory)";
const ceramic = "IEC 60384-22, annex B: capacitance ageing of surface-mount multilayer ceramic capacitors, class 2";
const wet = "makers' common rule for aluminium electrolytic capacitors; no standard (from memory)";

export const matings = formula("N = f*u*t", { f: perDay, u: one, t: year }, one, {
  meaning: "times a connector is mated in the time t, at f matings a day on the share u of the days",
  source: commonPractice,
  valid: { f: ">= 0 1/d", u: "0 to 1", t: ">= 0 year" },
});

export const matingYears = formula("t = N/(f*u)", { N: one, f: perDay, u: one }, year, {
  meaning: "time in which a connector rated for N matings is worn out, at f matings a day on the share u of the days",
  source: commonPractice,
  valid: { N: "> 0", f: "> 0 1/d", u: "0 to 1" },
});

export const matingWear = formula("w = n/N", { n: one, N: one }, percent, {
  meaning: "share of its N rated matings that a connector has used up after n",
  source: commonPractice,
  valid: { n: ">= 0", N: "> 0" },
});

export const wornContact = formula("R = R_0 + (R_e - R_0)*n/N", { R_0: mohm, R_e: mohm, n: one, N: one }, mohm, {
  meaning:
    "resistance of a contact after n matings, from R_0 new to R_e after its N rated ones: a straight line, though most of the rise comes late, once the plating is through",
  source: commonPractice,
  valid: { R_0: "> 0 Ω", n: ">= 0", N: "> 0" },
});

export const accelerationFactor = formula("A = exp(E_a/k_B*(1/T - 1/T_t))", { E_a: eV, k_B: J_per_K, T: celsius, T_t: celsius }, one, {
  meaning: "how many times longer something lasts at the temperature T than at T_t, at which it was tested; above 1 where T is cooler",
  source: arrhenius,
  valid: { E_a: "0.2 eV to 1.5 eV", T: "233 K to 423 K", T_t: "233 K to 523 K" },
});

export const halvingEnergy = formula("E_a = k_B*ln(2)*T*(T + dT)/dT", { k_B: J_per_K, T: celsius, dT: kelvin }, eV, {
  meaning:
    "activation energy with which a rise of dT from T halves the life: the ten-degree rule is Arrhenius's law with 0.59 eV at 35 °C, but 0.90 eV at 110 °C",
  source: "Arrhenius's law, solved for a factor of two",
  valid: { T: "233 K to 423 K", dT: "> 0 K" },
});

export const rippleHeating = formula("T_c = T_a + dT_r*(I/I_r)^2", { T_a: celsius, dT_r: kelvin, I: ampere, I_r: ampere }, celsius, {
  meaning: "temperature inside a capacitor in T_a that carries the ripple current I, from the rise dT_r that its rated ripple I_r makes",
  source: wet,
  valid: { dT_r: ">= 0 K", I: ">= 0 A", I_r: "> 0 A" },
});

export const electrolyticLife = formula(
  "L = min(L_max, L_0*2^((T_0 - T)/dT))",
  { L_max: year, L_0: hour, T_0: celsius, T: celsius, dT: kelvin },
  year,
  {
    meaning:
      "life of an aluminium electrolytic capacitor at the inner temperature T, from its life L_0 at the rated T_0: doubled for every dT (10 K) cooler, but never above L_max (about 15 years), which its seal sets; below 40 °C the rule promises nothing more",
    source: wet,
    valid: { L_max: "> 0 year", L_0: "> 0 h", T: "313 K to 423 K", T_0: "343 K to 423 K", dT: "> 0 K" },
  },
);

export const retentionTime = formula(
  "t = t_0*exp(E_a/k_B*(1/T - 1/T_0))",
  { t_0: year, E_a: eV, k_B: J_per_K, T: celsius, T_0: celsius },
  year,
  {
    meaning:
      "time for which a memory cell keeps its charge at the temperature T, from t_0 at T_0; E_a about 1.1 eV for charge lost through oxides without traps, 0.6 eV and less once writing has worn them",
    source: "Arrhenius's law; JEDEC JESD22-A117 and JEP122 (from memory)",
    valid: { t_0: "> 0 year", E_a: "0.2 eV to 1.5 eV", T: "233 K to 423 K", T_0: "233 K to 523 K" },
  },
);

export const lifeOfTwo = formula("t = 1/(d/t_1 + (1 - d)/t_2)", { d: one, t_1: year, t_2: year }, year, {
  meaning:
    "life of a part that spends the share d of its time where it would last t_1, and the rest where it would last t_2: the hot part rules",
  source: "linear addition of damage (Palmgren and Miner)",
  valid: { d: "0 to 1", t_1: "> 0 year", t_2: "> 0 year" },
});

export const ceramicAgeing = formula("k_a = 1 - a*log10(t/t_0)", { a: one, t: hour, t_0: hour }, one, {
  meaning:
    "share of the capacitance of a class-2 ceramic capacitor that is left at the age t, from its value at the age t_0: it loses the share a for every tenfold of the time since it was last heated above 125 °C (soldering counts)",
  source: ceramic,
  valid: { a: "0 to 0.1", t: "> 0 h", t_0: "> 0 h" },
});

export const ceramicAge = formula("t = t_0*10^((1 - k_a)/a)", { t_0: hour, k_a: one, a: one }, year, {
  meaning: "age at which a class-2 ceramic capacitor is down to the share k_a of its capacitance at the age t_0",
  source: ceramic,
  valid: { t_0: "> 0 h", k_a: "0.5 to 1", a: "0.001 to 0.1" },
});

export const agedCapacitance = formula("C = C_0*(1 - a*log10(t/t_0))", { C_0: uF, a: one, t: hour, t_0: hour }, uF, {
  meaning: "capacitance of a class-2 ceramic capacitor at the age t, from C_0 at the age t_0 (data sheets: often 1000 h, or 24 h)",
  source: ceramic,
  valid: { a: "0 to 0.1", t: "> 0 h", t_0: "> 0 h" },
});

export const warrantyMargin = formula("M = k_age - k_min", { k_age: one, k_min: one }, percent, {
  meaning: "distance of the share of capacity that is left (battery.retention) to the share k_min that the warranty promises",
  source: "definition",
  valid: { k_age: "0 to 1", k_min: "0 to 1" },
});
