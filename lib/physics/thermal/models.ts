/**
 * Procedures of heat, as models. Hot surfaces hurt: whether one may be touched is for the standards (IEC 62368-1,
 * ISO 13732-1) and those licensed to judge by them, on measured temperatures; a computed one is for design only.
 */
import { defineModel } from "../../graph/model";
import { celsius, J_per_K, K_per_W, m2, metre, mm, mm2, one, second, W_per_m_K, W_per_m2_K, watt } from "../../units";
import { notNegative, positive } from "../model-limits";
import { convection } from "./air";
import { boxSurface as boxOf, evenSurface, simpleBox } from "./box";
import { twoLumps as lumpsOf } from "./lumps";
import { spreading as spreadingOf } from "./spreading";

const raithby =
  "G. D. Raithby and K. G. T. Hollands, Handbook of Heat Transfer, 3rd edition (1998), chapter 4 (from memory), air of the U.S. Standard Atmosphere at sea level; Stefan–Boltzmann law";
const holman = "J. P. Holman, Heat Transfer, simplified free-convection equations for air, laminar; Stefan–Boltzmann law";
const whole =
  "S. Lee, M. M. Yovanovich and K. Jafarpur, J. Thermophysics and Heat Transfer 5 (1991) 208 (from memory), air of the U.S. Standard Atmosphere at sea level; Stefan–Boltzmann law";
const ambient = { P: watt, T_a: celsius, epsilon: one } as const;
const sides = { a: mm, b: mm, H: mm } as const;
const cover = { k: one, h_c: W_per_m2_K, ...ambient } as const;
const shed = { T_s: celsius, P_c: watt, P_r: watt, P_k: watt, R: K_per_W } as const;
const meanings = {
  T_s: "temperature of the surface",
  P_c: "heat shed by convection",
  P_r: "heat shed by radiation",
  P_k: "heat shed through the covered part",
  R: "thermal resistance from the surface to the ambient",
} as const;
const covered =
  "of a box of the level face a × b and the height H that gives off the heat P evenly into still air at T_a, and radiates with the emissivity epsilon to surroundings as warm; the share k of every face is free, the rest sheds by the coefficient h_c (0 for none)";
const share = (symbol: string) => ({ symbol, low: 0, high: 1, text: "0 to 1" });
const air = { symbol: "T_a", low: 233, high: 358, text: "233 K to 358 K" };
const heated = { symbol: "P", low: 0, high: Infinity, text: ">= 0 W" };
const heats = [air, heated];
const common = [share("epsilon"), ...heats];
const length = (symbol: string) => ({ symbol, low: 5e-3, high: 0.5, text: "5 mm to 500 mm: laminar, not a wire" });

/** A surface with one coefficient of convection. */
export const evenCoefficientSurface = defineModel({
  name: "thermal.evenCoefficientSurface",
  inputs: { A: m2, h: W_per_m2_K, ...ambient },
  outputs: { T_s: celsius, P_c: watt, P_r: watt, R: K_per_W },
  meaning:
    "temperature of a surface A that gives off the heat P to air at T_a with the coefficient h and radiates with the emissivity epsilon to surroundings as warm",
  meanings,
  source: "Newton's law of cooling; Stefan–Boltzmann law",
  valid: [...positive("A"), ...common],
  evaluate: ({ A, h, ...rest }) => {
    const { T_s, P_c, P_r, R } = evenSurface(A, h, rest);
    return { T_s, P_c, P_r, R };
  },
});

/** A box in still air. */
export const boxSurface = defineModel({
  name: "thermal.boxSurface",
  inputs: { ...sides, r: mm, ...cover },
  outputs: shed,
  meaning: `temperature of the surface, and how it sheds its heat, ${covered}; its edges and corners are rounded to r, which takes surface away; natural convection of the box as a whole, in which the air that one face has warmed flows along the next`,
  meanings,
  source: whole,
  valid: [length("a"), length("b"), length("H"), ...notNegative("r"), share("k"), ...common],
  holds: "for 2·r up to the shortest side, an error otherwise",
  draws: 400,
  ways: ({ h_c }) => {
    const surface = { epsilon: -1, k: h_c.high === 0 ? -1 : undefined, a: -1, b: -1, H: -1, r: 1 } as const;
    return { T_s: { P: 1, ...surface }, R: { P: -1, ...surface }, P_c: { P: 1, epsilon: -1 }, P_r: { P: 1, epsilon: 1 } };
  },
  waysBecause:
    "what the surface sheds rises with its temperature, and faster; more heat has to be shed at a higher one, and a surface that radiates more, is larger, or of which more is free where the rest sheds nothing, sheds it at a lower one. With longer sides the area rises and with it the conduction k·√A·Nu_0 and the flow, G·A^(7/8) = flow^(3/4) of a box with sharp edges; rounding takes area away",
  evaluate: ({ a, b, H, r, k, h_c, ...rest }) => ({ ...boxOf({ a, b, H }, r, { k, h_c }, rest) }),
});

/** A box in still air by the simple laws. */
export const simpleBoxSurface = defineModel({
  name: "thermal.simpleBoxSurface",
  inputs: { ...sides, ...cover },
  outputs: shed,
  meaning: `temperature of the surface, and how it sheds its heat, ${covered}; natural convection of each face by itself by the simple fourth-root laws: a sixth too warm for bodies of a centimetre, a tenth too cool for flat boxes, so thermal.boxSurface is the one to rely on`,
  meanings,
  source: holman,
  valid: [length("a"), length("b"), length("H"), share("k"), ...common],
  evaluate: ({ a, b, H, k, h_c, ...rest }) => ({ ...simpleBox({ a, b, H }, { k, h_c }, rest) }),
});

/** Coefficients of natural convection of the three kinds of face. */
export const naturalConvection = defineModel({
  name: "thermal.naturalConvection",
  inputs: { H: metre, L: metre, T_s: celsius, T_a: celsius },
  outputs: { h_s: W_per_m2_K, h_t: W_per_m2_K, h_b: W_per_m2_K, Ra_s: one, Ra_l: one },
  meaning:
    "coefficients of natural convection, and Rayleigh numbers, of single faces at T_s in still air at T_a: sides of height H, level faces of area over perimeter L; laws for Ra_s up to 1e9 and Ra_l from 1e3 to 1e10; summed over a box they say up to two fifths too much heat, see thermal.boxSurface",
  meanings: {
    h_s: "coefficient of a vertical face",
    h_t: "coefficient of a face that looks up",
    h_b: "coefficient of a face that looks down",
    Ra_s: "Rayleigh number of the vertical face",
    Ra_l: "Rayleigh number of the level faces",
  },
  source: raithby,
  valid: [...positive("H", "L"), air, { symbol: "T_s", low: 233, high: 423, text: "233 K to 423 K" }],
  evaluate: ({ H, L, T_s, T_a }) => {
    const { side, top, bottom, Ra_s, Ra_l } = convection(H, L, T_s, T_a);
    return { h_s: side, h_t: top, h_b: bottom, Ra_s, Ra_l };
  },
});

/** Heat from a part into the plate or board it sits on. */
export const spreading = defineModel({
  name: "thermal.spreading",
  inputs: { A_s: mm2, A_p: mm2, t: mm, k: W_per_m_K, h: W_per_m2_K },
  outputs: { R_max: K_per_W, R_avg: K_per_W, R_t: K_per_W, R_h: K_per_W, R: K_per_W },
  meaning:
    "thermal resistance of a source of area A_s in the middle of a plate of area A_p, thickness t and conductivity k that sheds its heat from the far side by the coefficient h, in parts",
  meanings: {
    R_max: "spreading, to the hottest place of the source",
    R_avg: "spreading, to the mean of the source",
    R_t: "straight through the plate",
    R_h: "from the plate's far side to the air",
    R: "from the hottest place to the air",
  },
  source: "S. Lee, S. Song, V. Au and K. P. Moran, Proc. 4th ASME/JSME Thermal Engineering Joint Conference 4 (1995) 199 (from memory)",
  valid: positive("A_s", "A_p", "t", "k", "h"),
  holds:
    "round or square source in the middle of a round or square plate of one conductivity: within 13 % where h·√(A_p/π)/k is 0.1 or less, beyond (thin bare laminate) up to a third too much; layers of copper and laminate, sources at an edge, and plates cooled on both sides need another model",
  evaluate: (plate) => ({ ...spreadingOf(plate) }),
});

/** Contents and case of a product that warm up. */
export const twoLumps = defineModel({
  name: "thermal.twoLumps",
  inputs: { P: watt, T_a: celsius, C_i: J_per_K, C_s: J_per_K, R_i: K_per_W, R_o: K_per_W, t: second },
  outputs: { T_i: celsius, T_s: celsius, tau: second },
  meaning:
    "temperatures at the time t after the heat P began in contents of the heat capacity C_i, behind R_i in a case of C_s that R_o leads to air at T_a; both begin at T_a",
  meanings: { T_i: "temperature of the contents", T_s: "temperature of the case", tau: "longer of the two time constants" },
  source: "energy balance of two lumps, each of even temperature, its linear differential equations in closed form",
  valid: [...heats, ...positive("C_i", "C_s", "R_i", "R_o"), ...notNegative("t")],
  holds:
    "for constant resistances: natural convection and radiation are weaker on a cool surface, so with the R_o of the final temperature the course is a little early",
  ways: () => ({ T_i: { P: 1, T_a: 1, R_o: 1, t: 1 }, T_s: { P: 1, T_a: 1, R_o: 1, t: 1 } }),
  waysBecause:
    "heat only ever flows from the warmer lump to the cooler, so that more heat, air as warm, more time from cold, or a worse way out leaves neither cooler",
  evaluate: ({ T_a, t, ...lumps }) => {
    const { x_i, x_s, tau } = lumpsOf(lumps, t);
    return { T_i: T_a + x_i, T_s: T_a + x_s, tau };
  },
});
