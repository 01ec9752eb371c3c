/**
 * Charging as models. They compute what a setting does; which settings a cell may be given stands in its maker's data
 * sheet and IEC 62133-2.
 */
import { commonPractice } from "../../formula/formula";
import { curveOutput, defineModel, tableInput } from "../../graph/model";
import { ampere, celsius, hour, kelvin, kohm, mA, mAh, mW, ohm, one, per_hour, percent, second, volt, Wh } from "../../units";
import { absolute, notNegative, positive, shares } from "../model-limits";
import { type Charge, type ChargedCell, type ChargePoint, simulateCharge } from "./cell";
import { type ChargerSetting, type LinearPart, linearCharger, switchingCharger } from "./charger";
import { timeOfCharge } from "./time";
import { windowDivider as dividerOf, dividerRatio as ratioOf, temperatureAt } from "./window";

const pair =
  "equivalent circuit of a cell, solved by the Runge-Kutta pair of P. Bogacki and L. F. Shampine, Appl. Math. Lett. 2 (1989) 321";
const cell = { Q: mAh, R: ohm, R_d: ohm, tau: second, s_0: percent, ocv: tableInput(percent, volt) } as const;
const setting = { I: ampere, V_cv: volt, I_end: ampere, I_pre: ampere, V_pre: volt, V_in: volt, I_in: ampere } as const;
const linear = { ...setting, R_on: ohm, P_max: mW, ...cell } as const;
const switching = { ...setting, eta: one, ...cell } as const;
const results = { t: hour, t_cv: hour, s_end: percent, Q_in: mAh, E_in: Wh, E_heat: Wh, E_loss: Wh, P_max: mW } as const;
const resultWords = {
  t: "charging time",
  t_cv: "time at constant voltage",
  s_end: "state of charge at the end",
  Q_in: "charge put into the cell",
  E_in: "energy put into the cell's terminals",
  E_heat: "heat of the charger over the charge",
  E_loss: "heat in the cell's resistances over the charge",
  P_max: "highest heat of the charger",
};
const curves = {
  I: curveOutput(second, mA),
  V: curveOutput(second, volt),
  s: curveOutput(second, percent),
  P: curveOutput(second, mW),
} as const;
const curveWords = {
  I: "charging current over the charge",
  V: "terminal voltage over the charge",
  s: "state of charge over the charge",
  P: "heat of the charger over the charge",
};
const cellWords =
  "of a cell of capacity Q, its open-circuit voltage behind R and a diffusion branch of R_d and the time constant tau (R_d = 0 for none), from the state of charge s_0 with the current I (I_pre below V_pre, 0 V for none), then at V_cv until the current is I_end";
const linearWords = `${cellWords}, by a linear charger at V_in that passes on at most the current I_in of its source, has R_on fully on and allows itself the heat P_max`;
const switchingWords = `${cellWords}, by a switching charger of efficiency eta at V_in that takes at most the current I_in from its source`;
const lithium = [
  { symbol: "V_cv", low: 3, high: 4.5, text: "3 V to 4.5 V: one lithium cell, at the voltage of its maker's data sheet" },
  { symbol: "s_0", low: 0, high: 1, text: "0 to 1" },
];
const outdoors = { symbol: "T", low: 233, high: 398, text: "233 K to 398 K" };
const window = { R_0: kohm, B: kelvin, T_0: celsius } as const;
const divider = "a divider of R_s above, R_p and a thermistor (R_0 at T_0, B) in parallel below";

/** Time of a charge, in closed form. */
export const chargeTime = defineModel({
  name: "charging.chargeTime",
  inputs: { I: ampere, V_cv: volt, I_end: ampere, ...cell },
  outputs: { t: hour, t_cv: hour, s_end: percent },
  meaning:
    "charge of a cell of capacity Q, its open-circuit voltage behind R and a diffusion branch of R_d and the time constant tau (R_d = 0 for none), from the state of charge s_0 with the current I, then at V_cv until the current is I_end, by a charger that neither its source nor its heat holds back",
  meanings: { t: resultWords.t, t_cv: resultWords.t_cv, s_end: resultWords.s_end },
  source: "equivalent circuit of a cell, in closed form on each straight piece of the table",
  valid: [...lithium, ...positive("I", "I_end", "Q", "R"), ...notNegative("R_d")],
  holds: "for a table that rises, and a charger that can give the current up to V_cv: chargerHeadroom of a linear one at 0 or more",
  ways: () => ({ t: { I_end: -1 }, s_end: { I_end: -1 } }),
  waysBecause: "the charge runs the same whatever ends it, and a smaller current is reached later",
  evaluate: (given) => timeOfCharge(given),
});

/** Charge by a linear charger. */
export const linearCharge = defineModel({
  name: "charging.linearCharge",
  inputs: linear,
  outputs: results,
  meaning: `charge ${linearWords}`,
  meanings: resultWords,
  source: pair,
  valid: lithium,
  draws: 1000,
  evaluate: (given) => totals(chargeLinearly(given)),
});

/** Charge by a switching charger. */
export const switchingCharge = defineModel({
  name: "charging.switchingCharge",
  inputs: switching,
  outputs: results,
  meaning: `charge ${switchingWords}`,
  meanings: resultWords,
  source: pair,
  valid: lithium,
  draws: 1000,
  evaluate: (given) => totals(chargeSwitching(given)),
});

/** Current, voltage, charge and heat over a charge by a linear charger. */
export const linearChargeCurves = defineModel({
  name: "charging.linearChargeCurves",
  inputs: linear,
  outputs: curves,
  meaning: `course of the charge ${linearWords}`,
  meanings: curveWords,
  source: pair,
  valid: lithium,
  draws: 500,
  evaluate: (given) => course(chargeLinearly(given)),
});

/** Current, voltage, charge and heat over a charge by a switching charger. */
export const switchingChargeCurves = defineModel({
  name: "charging.switchingChargeCurves",
  inputs: switching,
  outputs: curves,
  meaning: `course of the charge ${switchingWords}`,
  meanings: curveWords,
  source: pair,
  valid: lithium,
  draws: 500,
  evaluate: (given) => course(chargeSwitching(given)),
});

/** Ratio of a thermistor divider at a temperature. */
export const windowRatio = defineModel({
  name: "charging.windowRatio",
  inputs: { T: celsius, R_s: kohm, R_p: kohm, ...window },
  outputs: { x: percent },
  meaning: `share of its supply at the output of ${divider} at the temperature T`,
  source: "B equation of IEC 60539-1 (from memory)",
  valid: [outdoors],
  evaluate: ({ T, R_s, R_p, ...thermistor }) => ({ x: ratioOf(thermistor, R_s, R_p, T) }),
});

/** Temperature at which a charger's threshold is crossed. */
export const windowTemperature = defineModel({
  name: "charging.windowTemperature",
  inputs: { x: percent, R_s: kohm, R_p: kohm, ...window },
  outputs: { T: celsius },
  meaning: `temperature at which the output of ${divider} passes the share x of its supply: where a charger stops or starts`,
  source: "B equation of IEC 60539-1 (from memory)",
  valid: [...shares("x"), ...positive("R_s", "R_p", "R_0", "B"), ...absolute("T_0")],
  holds: "for a share that the thermistor reaches: above 0 and below R_p/(R_s + R_p), an error otherwise",
  evaluate: ({ x, R_s, R_p, ...thermistor }) => ({ T: temperatureAt(thermistor, R_s, R_p, x) }),
});

/** Resistors that put a charger's thresholds at two temperatures. */
export const windowDivider = defineModel({
  name: "charging.windowDivider",
  inputs: { T_c: celsius, x_c: percent, T_h: celsius, x_h: percent, ...window },
  outputs: { R_s: kohm, R_p: kohm },
  meaning: `resistors of ${divider} that put the thresholds x_c and x_h of a charger at T_c and T_h; the window is that of the cell maker's data sheet`,
  meanings: { R_s: "resistor above the thermistor", R_p: "resistor across the thermistor" },
  source: commonPractice,
  valid: [...absolute("T_c", "T_h", "T_0"), ...shares("x_c", "x_h"), ...positive("R_0", "B")],
  holds: "for T_c below T_h and x_c above x_h, and a thermistor steep enough for the window; an error otherwise",
  evaluate: ({ T_c, x_c, T_h, x_h, ...thermistor }) => dividerOf(thermistor, { T: T_c, x: x_c }, { T: T_h, x: x_h }),
});

/** What a cell may be charged with at its temperature. */
export const temperatureLimit = defineModel({
  name: "charging.temperatureLimit",
  inputs: { T: celsius, Q: mAh, I_set: ampere, limit: tableInput(celsius, per_hour) },
  outputs: { I: mA, c: per_hour },
  meaning:
    "current I that a cell of capacity Q at the temperature T may be charged with: the charger's setting I_set, at most the share c of the capacity an hour that its table of limits against the cell's temperature allows, none outside the table. Charged faster than that in the cold, lithium plates onto the anode: capacity is lost for good, and it may short the cell",
  meanings: { I: "charging current allowed", c: "limit, as a share of the capacity an hour" },
  source: "the cell maker's data sheet; such tables follow the JEITA guideline of 2007 (from memory)",
  valid: [outdoors, ...positive("Q", "I_set")],
  holds: "for the temperature of the cell itself, not of the air; the maker's table decides, not a typical one",
  evaluate: ({ T, Q, I_set, limit }) => {
    const inside = T >= (limit.x[0] as number) && T <= (limit.x[limit.x.length - 1] as number);
    const c = inside ? limit.at(T) : 0;
    return { I: Math.min(I_set, c * Q), c };
  },
});

function chargeLinearly(given: ChargedCell & ChargerSetting & LinearPart): Charge {
  return simulateCharge(given, linearCharger(given, given));
}

function chargeSwitching(given: ChargedCell & ChargerSetting & { readonly eta: number }): Charge {
  return simulateCharge(given, switchingCharger(given, given.eta));
}

function totals({ t, t_cv, s_end, Q_in, E_in, E_heat, E_loss, P_max }: Charge) {
  return { t, t_cv, s_end, Q_in, E_in, E_heat, E_loss, P_max };
}

function course({ points }: Charge) {
  const x = points.map(({ t }) => t);
  const curve = (of: (point: ChargePoint) => number) => ({ x, y: points.map(of) });
  return { I: curve(({ I }) => I), V: curve(({ V }) => V), s: curve(({ s }) => s), P: curve(({ P }) => P) };
}
