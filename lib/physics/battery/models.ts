/** Procedures of cells, as models: what has no closed law. The share of charge s and its tables run from 0 (empty) to 1 (full). */

import { commonPractice } from "../../formula/formula";
import type { CurveData } from "../../graph/curve";
import { curveCrossing, curveIntegral } from "../../graph/interpolate";
import { defineModel, tableInput } from "../../graph/model";
import { ampere, celsius, hour, mA, mAh, mW, ohm, one, percent, second, volt, Wh, watt } from "../../units";
import { notNegative, oneOrMore, positive, shares } from "../model-limits";
import { isNotNegative, wayOf } from "../table-ways";
import { chargeTimes } from "./charge";
import { converterInput as inputOf } from "./converter";
import { constantPowerPoint, dischargeByCurrent, dischargeByPower } from "./discharge";
import { rectifiedShare } from "./signal";

const closed = "closed form of an open-circuit voltage behind a resistance";
const ocv = tableInput(percent, volt);
const againstTemperature = tableInput(celsius, one);
const discharged = {
  t: "runtime to the cut-off",
  s_end: "state of charge left at the cut-off",
  Q_out: "charge drawn",
  E_load: "energy given to the load",
  E_loss: "energy lost in the cell's resistance",
} as const;
const drawn = { t: hour, s_end: percent, Q_out: mAh, E_load: Wh, E_loss: Wh } as const;

/** Open-circuit voltage at a state of charge. */
export const openCircuitVoltage = defineModel({
  name: "battery.openCircuitVoltage",
  inputs: { s: percent, ocv },
  outputs: { V_oc: volt },
  meaning: "open-circuit voltage V_oc of a cell at the state of charge s, from its table",
  source: commonPractice,
  valid: shares("s"),
  holds: "at states of charge inside the table, an error outside",
  ways: ({ ocv: table }) => ({ V_oc: { s: wayOf(table) } }),
  waysBecause: "the table itself",
  evaluate: ({ s, ocv }) => ({ V_oc: ocv.at(s) }),
});

/** State of charge of a rested cell. */
export const stateOfCharge = defineModel({
  name: "battery.stateOfCharge",
  inputs: { V_oc: volt, ocv },
  outputs: { s: percent },
  meaning: "state of charge s of a rested cell of open-circuit voltage V_oc, from its table",
  source: commonPractice,
  valid: positive("V_oc"),
  holds: "for voltages that the table passes, an error for others; of a table that is not monotone the lowest state of charge",
  evaluate: ({ V_oc, ocv }) => ({ s: curveCrossing(ocv, V_oc) }),
});

/** Mean open-circuit voltage of the whole table. */
export const meanVoltage = defineModel({
  name: "battery.meanVoltage",
  inputs: { ocv },
  outputs: { V: volt },
  meaning: "mean of a cell's open-circuit voltage over its table of states of charge: what its energy is a capacity times",
  source: commonPractice,
  holds: "for every table of states of charge; one that does not run from 0 to 100 % gives the mean of its own stretch",
  evaluate: ({ ocv }) => ({ V: curveIntegral(ocv) / ((ocv.x.at(-1) ?? Number.NaN) - (ocv.x[0] ?? Number.NaN)) }),
});

/** Internal resistance at a temperature, from rows. */
export const resistanceAtTemperature = defineModel({
  name: "battery.resistanceAtTemperature",
  inputs: { R_0: ohm, T: celsius, factor: againstTemperature },
  outputs: { R: ohm },
  meaning: "internal resistance R at temperature T: R_0 times the factor of its table",
  source: commonPractice,
  valid: notNegative("R_0"),
  holds: "at temperatures inside the table, an error outside",
  ways: ({ R_0, factor }) => ({ R: { R_0: isNotNegative(factor) ? 1 : undefined, T: R_0.low >= 0 ? wayOf(factor) : undefined } }),
  waysBecause: "a product of factors that are not below 0, one of them the table's",
  evaluate: ({ R_0, T, factor }) => ({ R: R_0 * factor.at(T) }),
});

/** Capacity at a temperature, from rows. */
export const capacityAtTemperature = defineModel({
  name: "battery.capacityAtTemperature",
  inputs: { Q: mAh, T: celsius, factor: againstTemperature },
  outputs: { Q_T: mAh },
  meaning: "capacity Q_T at temperature T: Q times the factor of its table",
  source: commonPractice,
  valid: notNegative("Q"),
  holds: "at temperatures inside the table, an error outside",
  ways: ({ Q, factor }) => ({ Q_T: { Q: isNotNegative(factor) ? 1 : undefined, T: Q.low >= 0 ? wayOf(factor) : undefined } }),
  waysBecause: "a product of factors that are not below 0, one of them the table's",
  evaluate: ({ Q, T, factor }) => ({ Q_T: Q * factor.at(T) }),
});

/** Where a load of constant power and a cell meet. */
export const constantPowerLoad = defineModel({
  name: "battery.constantPowerLoad",
  inputs: { V_oc: volt, R: ohm, P: watt },
  outputs: { I: mA, V_t: volt, P_loss: mW },
  meaning:
    "current, terminal voltage and loss of a load of constant power P on a cell of open-circuit voltage V_oc behind R: the root with the lower current; there is none above V_oc²/(4·R)",
  meanings: { I: "current of the load", V_t: "terminal voltage under the load", P_loss: "power lost in the cell's resistance" },
  source: closed,
  valid: [...positive("V_oc"), ...notNegative("R", "P")],
  holds: "up to P = V_oc²/(4·R), an error above: no current gives more",
  ways: () => ({ I: { V_oc: -1, R: 1, P: 1 }, V_t: { V_oc: 1, R: -1, P: -1 }, P_loss: { V_oc: -1, R: 1, P: 1 } }),
  waysBecause: "I = 2·P/(V_oc + √(V_oc² − 4·R·P)), V_t = P/I and P_loss = I²·R",
  evaluate: ({ V_oc, R, P }) => constantPowerPoint(V_oc, R, P),
});

/** Runtime of a load of constant power. */
export const runtimeAtPower = defineModel({
  name: "battery.runtimeAtPower",
  inputs: { P: watt, Q: mAh, R: ohm, V_c: volt, s_0: percent, ocv },
  outputs: drawn,
  meaning:
    "runtime of a load of constant power P from the state of charge s_0 of a cell of capacity Q behind R, until its terminal voltage falls to V_c or it is empty; 0 where it stands below V_c from the start",
  meanings: discharged,
  source: closed,
  valid: [...positive("P", "Q", "V_c"), ...notNegative("R"), ...shares("s_0")],
  holds: "from a state of charge inside the table, whose rows are joined by straight lines",
  ways: ({ ocv: table }) => {
    const s_0 = wayOf(table) === 1 ? 1 : undefined;
    const least = { P: -1, Q: 1, R: -1, V_c: -1, s_0 } as const;
    return { t: least, s_end: { P: 1, Q: 1, R: 1, V_c: 1, s_0 }, Q_out: least, E_load: least, E_loss: { Q: 1, V_c: -1, s_0 } };
  },
  waysBecause:
    "more power, more resistance or a higher cut-off ends the discharge at a higher open-circuit voltage, so at more charge left, and of each charge drawn power and resistance leave less to the load; everything drawn goes with the capacity",
  evaluate: ({ P, ...cell }) => dischargeByPower(cell, P),
});

/** Runtime of a load of constant current. */
export const runtimeAtCurrent = defineModel({
  name: "battery.runtimeAtCurrent",
  inputs: { I: ampere, Q: mAh, R: ohm, V_c: volt, s_0: percent, ocv },
  outputs: drawn,
  meaning:
    "runtime of a load of constant current I from the state of charge s_0 of a cell of capacity Q behind R, until its terminal voltage falls to V_c or it is empty; 0 where it stands below V_c from the start",
  meanings: discharged,
  source: closed,
  valid: [...positive("I", "Q", "V_c"), ...notNegative("R"), ...shares("s_0")],
  holds: "from a state of charge inside the table, whose rows are joined by straight lines",
  ways: ({ ocv: table }) => {
    const s_0 = wayOf(table) === 1 ? 1 : undefined;
    const least = { I: -1, Q: 1, R: -1, V_c: -1, s_0 } as const;
    return { t: least, s_end: { I: 1, Q: 1, R: 1, V_c: 1, s_0 }, Q_out: least, E_load: least, E_loss: { Q: 1, V_c: -1, s_0 } };
  },
  waysBecause:
    "more current, more resistance or a higher cut-off ends the discharge at a higher open-circuit voltage, so at more charge left, and of each charge drawn I·R leaves less to the load; everything drawn goes with the capacity",
  evaluate: ({ I, ...cell }) => dischargeByCurrent(cell, I),
});

/** What a converter takes in for what it gives out. */
export const converterInput = defineModel({
  name: "battery.converterInput",
  inputs: { P_out: mW, k: one, efficiency: tableInput(mW, one) },
  outputs: { P_in: mW, eta: percent },
  meaning:
    "power that a converter takes in for the load P_out, from its table of efficiency against load; k is the factor by which units differ from the table",
  meanings: { P_in: "power into the converter", eta: "efficiency at this load" },
  source: commonPractice,
  valid: [...notNegative("P_out"), ...positive("k")],
  holds: "for loads inside the table, and where k times its efficiency is at most 1; an error otherwise",
  ways: ({ efficiency }) => ({
    P_in: { P_out: takesMoreForMore(efficiency) ? 1 : undefined, k: -1 },
    eta: { P_out: wayOf(efficiency), k: isNotNegative(efficiency) ? 1 : undefined },
  }),
  waysBecause:
    "the efficiency is k times the table's and has a value above 0 only; P/η rises with P along every line η = a + b·P of the table with a above 0",
  evaluate: ({ P_out, k, efficiency }) => inputOf(P_out, k, efficiency),
});

/** Mean rectified value of a signal over its rms value. */
export const rectifiedMean = defineModel({
  name: "battery.rectifiedMean",
  inputs: { C: one },
  outputs: { k: one },
  meaning: "mean rectified value over rms value of noise that is cut off so that its crest factor is C",
  source: commonPractice,
  valid: oneOrMore("C"),
  ways: () => ({ k: { C: -1 } }),
  waysBecause:
    "of noise cut off at ±a, d ln(mean/rms)/da has the sign of E[x²] − a·E|x|, which is not above 0 since no |x| is above a; and C rises with a",
  evaluate: ({ C }) => ({ k: rectifiedShare(C) }),
});

/** Charging time with a straight open-circuit voltage. */
export const linearChargeTime = defineModel({
  name: "battery.linearChargeTime",
  inputs: { a: volt, b: volt, R: ohm, V_cv: volt, I: ampere, I_end: ampere, Q: mAh, s_0: percent },
  outputs: { t_cc: hour, I_start: mA, t_cv: second, t: hour, s_end: percent },
  meaning:
    "time to charge a cell of open-circuit voltage a + b·s behind R from s_0 with the current I, then at the voltage V_cv until the current is I_end",
  meanings: {
    t_cc: "time at constant current",
    I_start: "current at which the constant voltage begins",
    t_cv: "time at constant voltage",
    t: "charging time",
    s_end: "state of charge at the end",
  },
  source: closed,
  valid: [...positive("b", "V_cv", "I", "I_end", "Q"), ...notNegative("R"), ...shares("s_0")],
  evaluate: (charge) => chargeTimes(charge),
});

/** Whether every straight line of a table of efficiency cuts the ordinate at 0 or above, so that the power taken in rises with the load. */
function takesMoreForMore({ x, y, interpolation = "linear" }: CurveData): boolean {
  if (interpolation !== "linear") return false;
  return y.every((y0, i) => i + 1 >= y.length || y0 * (x[i + 1] as number) >= (y[i + 1] as number) * (x[i] as number));
}
