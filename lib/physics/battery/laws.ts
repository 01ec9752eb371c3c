/** Closed laws of a rechargeable cell under load and on charge, as formulas. */
import { commonPractice, formula } from "../../formula/formula";
import { Ah, ampere, celsius, hour, J_per_mol, J_per_mol_K, mV, mW, ohm, one, per_hour, second, volt, Wh, watt } from "../../units";

export const cRate = formula("x = I/Q", { I: ampere, Q: Ah }, per_hour, {
  meaning: "C-rate of a current: how many times the capacity Q it would move in one hour",
  source: commonPractice,
  valid: { Q: "> 0 Ah" },
});

export const currentAtRate = formula("I = x*Q", { x: per_hour, Q: Ah }, ampere, {
  meaning: "current at the C-rate x of a cell of capacity Q",
  source: commonPractice,
  valid: { x: ">= 0", Q: "> 0" },
});

export const storedEnergy = formula("E = Q*V", { Q: Ah, V: volt }, Wh, {
  meaning: "energy of a cell from its capacity and its mean voltage over the discharge",
  source: commonPractice,
  valid: { Q: ">= 0", V: "> 0" },
});

export const runtimeByEnergy = formula("t = E*k*eta/P", { E: Wh, k: one, eta: one, P: watt }, hour, {
  meaning: "time for which an energy E, of which the share k is usable, carries a mean load P through a converter of efficiency eta",
  source: commonPractice,
  valid: { k: "0 to 1", eta: "0 to 1", P: "> 0 W" },
});

export const maximumPower = formula("P_max = V_oc^2/(4*R)", { V_oc: volt, R: ohm }, watt, {
  meaning: "largest power that a cell of open-circuit voltage V_oc behind the resistance R can give, at half that voltage",
  source: "maximum power transfer",
  valid: { R: "> 0 Ω" },
});

export const sag = formula("dV = I*R", { I: ampere, R: ohm }, mV, {
  meaning: "fall of the terminal voltage under a current I",
  source: commonPractice,
  valid: { R: ">= 0" },
});

export const terminalVoltage = formula("V_t = V_oc - I*R", { V_oc: volt, I: ampere, R: ohm }, volt, {
  meaning: "terminal voltage of a cell under a current I; a charging current is negative",
  source: commonPractice,
  valid: { V_oc: "> 0", R: ">= 0" },
});

export const brownOutMargin = formula("M = V_oc - I_p*R - V_min", { V_oc: volt, I_p: ampere, R: ohm, V_min: volt }, mV, {
  meaning: "distance of the terminal voltage under the peak current I_p to the lowest supply V_min at which the circuit works",
  source: commonPractice,
  valid: { V_oc: "> 0", I_p: ">= 0", R: ">= 0", V_min: "> 0" },
});

export const arrheniusResistance = formula(
  "R = R_0*exp(E_a/R_m*(1/T - 1/T_0))",
  { R_0: ohm, E_a: J_per_mol, R_m: J_per_mol_K, T: celsius, T_0: celsius },
  ohm,
  {
    meaning: "internal resistance at temperature T from that at T_0, rising in the cold by the activation energy E_a",
    source: "Arrhenius's law, with the molar gas constant R_m; 20 to 40 kJ/mol is common for lithium cells (from memory)",
    valid: { T: "253 K to 333 K", T_0: "253 K to 333 K" },
  },
);

export const effectiveResistance = formula("R_eff = R + R_d*(1 - exp(-t/tau))", { R: ohm, R_d: ohm, t: second, tau: second }, ohm, {
  meaning:
    "resistance of a cell after carrying a current for the time t: the ohmic part R at once, the diffusion part R_d with the time constant tau",
  source: "first-order equivalent circuit of a cell; common practice",
  valid: { t: ">= 0 s", tau: "> 0 s" },
});

export const pulseAverage = formula("I_avg = D*I_1 + (1 - D)*I_0", { D: one, I_1: ampere, I_0: ampere }, ampere, {
  meaning: "average of a current I_1 for the share D of the time and I_0 for the rest: what empties the cell",
  source: commonPractice,
  valid: { D: "0 to 1" },
});

export const pulseRms = formula("I_rms = sqrt(D*I_1^2 + (1 - D)*I_0^2)", { D: one, I_1: ampere, I_0: ampere }, ampere, {
  meaning: "rms value of a current I_1 for the share D of the time and I_0 for the rest: what heats the cell",
  source: commonPractice,
  valid: { D: "0 to 1" },
});

export const resistanceLoss = formula("P = I_rms^2*R", { I_rms: ampere, R: ohm }, mW, {
  meaning: "power lost in a cell's resistance by a current of the rms value I_rms",
  source: commonPractice,
  valid: { I_rms: ">= 0", R: ">= 0" },
});

export const linearChargerLoss = formula("P = (V_bus - V_cell)*I", { V_bus: volt, V_cell: volt, I: ampere }, mW, {
  meaning: "power in a linear charger, whose input current is its charging current",
  source: commonPractice,
  valid: { V_bus: "> 0", V_cell: ">= 0", I: ">= 0" },
  holds: "a bus that stands above the cell: a linear charger only lowers a voltage",
});

export const switchingChargeCurrent = formula(
  "I_c = eta*V_bus*I_bus/V_cell",
  { eta: one, V_bus: volt, I_bus: ampere, V_cell: volt },
  ampere,
  {
    meaning: "charging current that a switching charger of efficiency eta makes of the current I_bus from its source",
    source: commonPractice,
    valid: { eta: "0 to 1", V_cell: "> 0 V" },
  },
);
