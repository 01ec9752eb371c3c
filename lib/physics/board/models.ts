/** Procedures of boards, as models. */
import { curveOutput, defineModel, tableInput } from "../../graph/model";
import type { Permeability, Permittivity } from "../../quantity/dimension-tables";
import { dB, dBuV_per_m, hertz, MHz, metre, mm, ns, ohm, one, pF, type Unit, uA, unitOf, volt } from "../../units";
import { emissionAt, emissionPoints, standsInSteps, worstEmission } from "./emission";
import { microstripLine, microstripWidthFor, perLength, striplineLine, textbookWidth } from "./line";
import { contactSquares, transferSquares } from "./plane";

const nH_per_mm: Unit<Permeability> = unitOf("nH/mm");
const pF_per_mm: Unit<Permittivity> = unitOf("pF/mm");
const hammerstad = "E. Hammerstad and O. Jensen, IEEE MTT-S Digest (1980) 407 (from memory): within 0.2 %, static, no solder mask";
const wheeler = "H. A. Wheeler, IEEE Trans. MTT 26 (1978) 866 (from memory): within 0.5 % for w below 10·(b − t)";
const sheet = "potential of point sources in a sheet with insulated edges, by images; direct current";
const permittivity = { symbol: "eps_r", low: 1, high: 128, text: "1 to 128" };
const positive = (symbol: string) => ({ symbol, low: Number.MIN_VALUE, high: Infinity, text: "> 0" });
const lineMeanings = {
  Z: "characteristic impedance",
  eps_e: "effective relative permittivity",
  L: "inductance per length",
  C: "capacitance per length",
} as const;

/** Microstrip: impedance from dimensions. */
export const microstrip = defineModel({
  name: "board.microstrip",
  inputs: { w: mm, h: mm, t: mm, eps_r: one },
  outputs: { Z: ohm, eps_e: one, L: nH_per_mm, C: pF_per_mm },
  meaning:
    "impedance, effective permittivity, inductance and capacitance per length of a microstrip of width w and thickness t at the height h over its plane; w from 0.01·h to 100·h",
  meanings: lineMeanings,
  source: hammerstad,
  valid: [permittivity, positive("w"), positive("h")],
  evaluate: (strip) => {
    const line = microstripLine(strip);
    const { L, C } = perLength(line);
    return { ...line, L, C };
  },
});

/** Microstrip: width from impedance. */
export const microstripWidth = defineModel({
  name: "board.microstripWidth",
  inputs: { Z: ohm, h: mm, t: mm, eps_r: one },
  outputs: { w: mm, eps_e: one },
  meaning: "width of the microstrip of impedance Z and thickness t at the height h over its plane",
  meanings: { w: "width of the trace", eps_e: "effective relative permittivity" },
  source: hammerstad,
  valid: [permittivity, positive("h")],
  evaluate: ({ Z, ...rest }) => {
    const w = microstripWidthFor(Z, rest);
    return { w, eps_e: microstripLine({ ...rest, w }).eps_e };
  },
});

/** Microstrip: width from impedance by the textbook's closed form. */
export const textbookMicrostripWidth = defineModel({
  name: "board.textbookMicrostripWidth",
  inputs: { Z: ohm, h: mm, eps_r: one },
  outputs: { w: mm },
  meaning: "width of the microstrip of impedance Z at the height h over its plane, by the closed synthesis: within 1 %, no thickness",
  source: "D. M. Pozar, Microwave Engineering, 3rd edition, eq. 3.197",
  valid: [permittivity, positive("Z"), positive("h")],
  evaluate: ({ Z, h, eps_r }) => ({ w: textbookWidth(Z, h, eps_r) }),
});

/** Symmetric stripline: impedance from dimensions. */
export const stripline = defineModel({
  name: "board.stripline",
  inputs: { w: mm, b: mm, t: mm, eps_r: one },
  outputs: { Z: ohm, eps_e: one, L: nH_per_mm, C: pF_per_mm },
  meaning: "impedance, inductance and capacitance per length of a stripline of width w and thickness t midway between planes b apart",
  meanings: lineMeanings,
  source: wheeler,
  valid: [permittivity, positive("w"), positive("b")],
  evaluate: (strip) => {
    const line = striplineLine(strip);
    const { L, C } = perLength(line);
    return { ...line, L, C };
  },
});

const plane = { R_sq: ohm, a: mm, b: mm, r: mm, x_1: mm, y_1: mm, x_2: mm, y_2: mm } as const;
const contacts =
  "two round contacts of radius r at (x_1, y_1) and (x_2, y_2), from a corner, of a plane a × b of R_sq per square without holes";

/** Resistance of a plane from contact to contact. */
export const planeResistance = defineModel({
  name: "board.planeResistance",
  inputs: plane,
  outputs: { R: ohm },
  meaning: `resistance between ${contacts}; the contacts at least their radius from the edges`,
  source: sheet,
  valid: [positive("R_sq"), positive("r")],
  evaluate: ({ R_sq, a, b, r, x_1, y_1, x_2, y_2 }) => ({
    R: R_sq * contactSquares({ a, b }, r, { x: x_1, y: y_1 }, { x: x_2, y: y_2 }),
  }),
});

/** What one circuit's return current does between the two ground points of another. */
export const planeCoupling = defineModel({
  name: "board.planeCoupling",
  inputs: { ...plane, x_3: mm, y_3: mm, x_4: mm, y_4: mm },
  outputs: { R: ohm, R_c: ohm },
  meaning: `resistance between ${contacts}, and the voltage between the points (x_3, y_3) and (x_4, y_4) for each ampere between the contacts: what the return current of one circuit adds to another that is grounded at those points`,
  meanings: { R: "resistance between the contacts", R_c: "coupling resistance: voltage between the points per current" },
  source: sheet,
  valid: [positive("R_sq"), positive("r")],
  evaluate: ({ R_sq, a, b, r, x_1, y_1, x_2, y_2, x_3, y_3, x_4, y_4 }) => {
    const [from, to] = [
      { x: x_1, y: y_1 },
      { x: x_2, y: y_2 },
    ] as const;
    const sense = [
      { x: x_3, y: y_3 },
      { x: x_4, y: y_4 },
    ] as const;
    return { R: R_sq * contactSquares({ a, b }, r, from, to), R_c: R_sq * transferSquares({ a, b }, r, [from, to], sense) };
  },
});

const lead = { V: volt, f_0: hertz, D: one, t_r: ns, C: pF, L: metre, d: metre, k: one } as const;
const radiated =
  "a lead of length L into which a switching node (height V, repetition f_0, duty D, edges t_r) drives a common-mode current through the stray capacitance C; k is 1 in free space, 2 over a reflecting ground";
const bounds =
  "bounds of a trapezoid's spectrum (C. R. Paul), short dipole up to λ/π, then half-wave dipole; good to some 8 dB, far field only";
const limits = [
  { symbol: "D", low: 0, high: 1, text: "0 to 1" },
  { symbol: "k", low: 1, high: 2, text: "1 to 2" },
  { symbol: "d", low: 1.6, high: Infinity, text: ">= 1.6 m: far field from 30 MHz" },
  { symbol: "f_1", low: 30e6, high: Infinity, text: ">= 30 MHz" },
];

/** The place where a lead's field comes closest to the limit. */
export const leadEmission = defineModel({
  name: "board.leadEmission",
  inputs: { f_1: MHz, f_2: MHz, ...lead, limit: tableInput(MHz, dBuV_per_m) },
  outputs: { M: dB, f: MHz, E: dBuV_per_m, I: uA },
  meaning: `least margin to a limit (at the distance d), between f_1 and f_2, of the field of ${radiated}`,
  meanings: {
    M: "margin to the limit",
    f: "frequency of the least margin",
    E: "field there",
    I: "common-mode current there",
  },
  source: bounds,
  valid: limits,
  ways: (over) =>
    standsInSteps(over.limit) && Math.min(over.V.low, over.f_0.low, over.t_r.low, over.C.low, over.L.low) > 0
      ? { M: { V: -1, f_0: -1, D: -1, t_r: 1, C: -1, L: -1, d: 1, k: -1 } }
      : {},
  waysBecause:
    "the bound of the field is a product of factors that go these ways at every frequency, and so does its least distance to the limit: every bend of field and limit is looked at, between which the distance has no least value",
  evaluate: ({ f_1, f_2, limit, ...given }) => ({ ...worstEmission(given, [f_1, f_2], limit) }),
});

/** The field of a lead over a band, for a plot beside the limit. */
export const leadEmissionCurve = defineModel({
  name: "board.leadEmissionCurve",
  inputs: { f_1: MHz, f_2: MHz, ...lead },
  outputs: { E: curveOutput(MHz, dBuV_per_m) },
  meaning: `bound of the field at the distance d, from f_1 to f_2, of ${radiated}`,
  source: bounds,
  valid: limits,
  evaluate: ({ f_1, f_2, ...given }) => {
    const x = emissionPoints(given, f_1, f_2);
    return { E: { x, y: x.map((f) => emissionAt(given, f)), interpolation: "log-log" } };
  },
});
