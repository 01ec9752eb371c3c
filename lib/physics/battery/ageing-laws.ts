/**
 * What is left of a cell's capacity: temperature, cycles, calendar, and the part that cannot be used. The losses of
 * cycling and of the calendar are added, as in J. Schmalstieg et al., Journal of Power Sources 257 (2014) 325 (from
 * memory). Left out: the sudden fall late in life, and that deep or fast cycles cost more than shallow or slow ones.
 */
import { commonPractice, formula } from "../../formula/formula";
import type { Rate } from "../../quantity/dimension-tables";
import type { Unit } from "../../units";
import { celsius, J_per_mol, J_per_mol_K, mAh, month, ohm, one, unitOf, year } from "../../units";

const perDay: Unit<Rate> = unitOf("1/d");

export const cyclesInUse = formula("N = f*t", { f: perDay, t: year }, one, {
  meaning: "full cycles over the time t, at f full-cycle equivalents a day: to the end of the warranty with t its length",
  source: commonPractice,
  valid: { f: ">= 0", t: ">= 0" },
});

export const cycleLoss = formula("L_cyc = L_N*(N/N_0)^z", { L_N: one, N: one, N_0: one, z: one }, one, {
  meaning: "share of the capacity lost after N full cycles, from the share L_N lost after N_0; z = 1 is even, 0.5 slows down",
  source: "power law of cycle ageing; common practice",
  valid: { N: ">= 0", N_0: "> 0", z: "0.5 to 1.5" },
});

export const calendarLoss = formula("L_cal = L_t*x*sqrt(t/t_0)", { L_t: one, x: one, t: month, t_0: month }, one, {
  meaning: "share of the capacity lost by the calendar after the time t, from the share L_t lost after t_0, sped up by x",
  source: "square-root-of-time law of a growing surface layer; common practice",
  valid: { t: ">= 0 month", t_0: "> 0 month" },
});

export const ageingSpeed = formula("x = exp(E_a/R_m*(1/T_0 - 1/T))", { E_a: J_per_mol, R_m: J_per_mol_K, T: celsius, T_0: celsius }, one, {
  meaning: "factor on calendar loss at the temperature T, 1 at T_0",
  source: "Arrhenius's law, with the molar gas constant R_m; 40 to 60 kJ/mol is common for lithium cells (from memory)",
  valid: { T: "273 K to 333 K", T_0: "273 K to 333 K" },
});

export const retention = formula("k_age = 1 - L_cyc - L_cal", { L_cyc: one, L_cal: one }, one, {
  meaning: "share of the first capacity that is left after the losses of cycles and of the calendar",
  source: "superposition as in Schmalstieg et al., Journal of Power Sources 257 (2014) 325 (from memory)",
  valid: { L_cyc: "0 to 1", L_cal: "0 to 1" },
});

export const usableCapacity = formula("Q_u = Q*k_T*k_age*(1 - u)", { Q: mAh, k_T: one, k_age: one, u: one }, mAh, {
  meaning:
    "capacity that serves at a temperature and an age: its share k_T in the cold, k_age left with age, less the share u that is never used",
  source: commonPractice,
  valid: { k_T: "0 to 1.1", k_age: "0 to 1", u: "0 to 1" },
});

export const agedResistance = formula("R = R_0*(1 + g*N/N_0)", { R_0: ohm, g: one, N: one, N_0: one }, ohm, {
  meaning: "internal resistance after N cycles, having grown by the share g after N_0",
  source: commonPractice,
  valid: { N: ">= 0", N_0: "> 0" },
});
