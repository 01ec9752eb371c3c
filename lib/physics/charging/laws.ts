/**
 * Closed laws of charging: what a source leaves, what a charger makes of it, its heat, and the thermistor. They compute;
 * they do not say what a cell may be given. Voltage, current and temperatures of a charge come from the cell maker's
 * data sheet and IEC 62133-2, and a protection circuit has to hold them where the charger fails.
 */
import { commonPractice, formula } from "../../formula/formula";
import { ampere, celsius, degC_difference, K_per_W, kelvin, kohm, mA, mV, mW, ohm, one, volt, watt } from "../../units";

const limits = "the limits are those of the cell maker's data sheet and IEC 62133-2";

export const jackVoltage = formula("V_in = V_s - I*R_c", { V_s: volt, I: ampere, R_c: ohm }, volt, {
  meaning: "voltage at a product's jack from a source V_s through a cable of the resistance R_c, both ways and contacts included",
  source: commonPractice,
  valid: { V_s: "> 0", I: ">= 0", R_c: ">= 0" },
});

export const chargerHeadroom = formula("M = V_in - V_cv - I*R_on", { V_in: volt, V_cv: volt, I: ampere, R_on: ohm }, mV, {
  meaning: "voltage that a linear charger has to spare at the end of constant current; below zero it cannot hold the current I up to V_cv",
  source: commonPractice,
  valid: { V_in: "> 0", V_cv: "> 0", I: ">= 0", R_on: ">= 0" },
});

export const sourceLeft = formula("I_in = I_s - I_sys", { I_s: ampere, I_sys: ampere }, mA, {
  meaning: "current that a source of I_s leaves for the charge while the product draws I_sys from it (power path)",
  source: commonPractice,
  valid: { I_s: ">= 0", I_sys: ">= 0" },
});

export const supplementCurrent = formula("I_b = max(I_sys - I_s, 0)", { I_sys: ampere, I_s: ampere }, mA, {
  meaning: "current that the cell adds, referred to the supply's voltage, while the product draws more than the source gives (power path)",
  source: commonPractice,
  valid: { I_sys: ">= 0", I_s: ">= 0" },
});

export const linearDemand = formula("I = I_c + I_sys", { I_c: ampere, I_sys: ampere }, mA, {
  meaning: "current from the source with a linear charger that charges with I_c while the product draws I_sys",
  source: commonPractice,
  valid: { I_c: ">= 0", I_sys: ">= 0" },
});

export const switchingDemand = formula(
  "I = V_cell*I_c/(eta*V_in) + I_sys",
  { V_cell: volt, I_c: ampere, eta: one, V_in: volt, I_sys: ampere },
  mA,
  {
    meaning: "current from the source with a switching charger of efficiency eta that charges with I_c while the product draws I_sys",
    source: commonPractice,
    valid: { eta: "0 to 1", V_in: "> 0 V" },
  },
);

export const sharedCellCurrent = formula("I_cell = I_c - P/V", { I_c: ampere, P: watt, V: volt }, mA, {
  meaning:
    "current into a cell whose terminals also carry a load of P, without power path: the charger, which measures I_c, then ends late or never",
  source: commonPractice,
  valid: { V: "> 0 V" },
});

export const switchingChargerLoss = formula("P = (1/eta - 1)*V_cell*I", { eta: one, V_cell: volt, I: ampere }, mW, {
  meaning: "power lost in a switching charger of efficiency eta that charges with I",
  source: commonPractice,
  valid: { eta: "0 to 1" },
});

export const heatAllowance = formula("P = (T_r - T_a)/R_th", { T_r: celsius, T_a: celsius, R_th: K_per_W }, mW, {
  meaning: "heat that a charger allows itself before it holds its junction at T_r by charging more slowly",
  source: commonPractice,
  valid: { R_th: "> 0 K/W" },
});

export const warmedCell = formula("T = T_a + P*R_th", { T_a: celsius, P: watt, R_th: K_per_W }, celsius, {
  meaning: "temperature of a cell at the ambient T_a next to the heat P, through the thermal resistance R_th from there to the ambient",
  source: commonPractice,
  valid: { T_a: "> 0 K", P: ">= 0", R_th: ">= 0" },
});

export const coldMargin = formula("M = T - T_c - dT", { T: celsius, T_c: celsius, dT: degC_difference }, degC_difference, {
  meaning: `distance of the cell's temperature above the lowest for a charge, less the error dT of the sensor; ${limits}: below it lithium plates`,
  source: commonPractice,
  valid: { T: "> 0 K", T_c: "> 0 K", dT: ">= 0" },
});

export const hotMargin = formula("M = T_h - T - dT", { T_h: celsius, T: celsius, dT: degC_difference }, degC_difference, {
  meaning: `distance of the cell's temperature below the highest for a charge, less the error dT of the sensor; ${limits}`,
  source: commonPractice,
  valid: { T_h: "> 0 K", T: "> 0 K", dT: ">= 0" },
});

export const thermistorResistance = formula("R = R_0*exp(B*(1/T - 1/T_0))", { R_0: kohm, B: kelvin, T: celsius, T_0: celsius }, kohm, {
  meaning: "resistance of a thermistor at T from R_0 at T_0 and its B value",
  source: "B equation of IEC 60539-1 (from memory); good to about 1 K within 40 K of the span for which B is stated",
  valid: { T: "233 K to 398 K", B: "> 0 K" },
});

export const thermistorTemperature = formula("T = 1/(1/T_0 + ln(R/R_0)/B)", { T_0: celsius, R: kohm, R_0: kohm, B: kelvin }, celsius, {
  meaning: "temperature of a thermistor of the resistance R",
  source: "B equation of IEC 60539-1 (from memory), turned round",
  valid: { R: "> 0 Ω" },
});

export const dividerRatio = formula("x = R/(R + R_s)", { R: kohm, R_s: kohm }, one, {
  meaning: "share of the supply at a thermistor R to ground below the resistor R_s",
  source: commonPractice,
  valid: { R: "> 0 Ω", R_s: "> 0 Ω" },
});
