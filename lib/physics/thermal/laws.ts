/**
 * Closed laws of heat: chains of thermal resistances, radiation, simple coefficients of natural convection, one lump in
 * time. Hot surfaces hurt: whether one may be touched is for the standards (IEC 62368-1, ISO 13732-1) and those licensed
 * to judge by them, on measured temperatures; a computed margin is for design only.
 */
import { commonPractice, formula } from "../../formula/formula";
import { numericalFormula } from "../../formula/numerical";
import {
  celsius,
  degC_difference,
  gram,
  J_per_K,
  J_per_kg_K,
  K_per_W,
  kelvin,
  m2,
  metre,
  mm,
  mm2,
  one,
  percent,
  second,
  W_per_K,
  W_per_m_K,
  W_per_m2,
  W_per_m2_K,
  W_per_m2_K4,
  watt,
} from "../../units";

const jedec = "JEDEC JESD51: definitions of thermal resistance";
const holman =
  "J. P. Holman, Heat Transfer, simplified equations of free convection to air at 1 atm, laminar (Gr·Pr from 1e4 to 1e9; smaller bodies shed more than this says: thermal.boxSurface)";
const lump = "one lump of even temperature, resistance constant; common practice";

export const junctionTemperature = formula(
  "T_j = T_a + P*(R_jc + R_cs + R_sa)",
  { T_a: celsius, P: watt, R_jc: K_per_W, R_cs: K_per_W, R_sa: K_per_W },
  celsius,
  {
    meaning: "temperature of a junction that makes the heat P, through junction to case, case to sink and sink to ambient",
    source: jedec,
    valid: { P: ">= 0 W", R_jc: ">= 0 K/W", R_cs: ">= 0 K/W", R_sa: ">= 0 K/W" },
  },
);

export const temperatureBehind = formula("T = T_a + P*R", { T_a: celsius, P: watt, R: K_per_W }, celsius, {
  meaning:
    "temperature at the warm end of a resistance R through which the heat P flows to T_a; with a data sheet's theta_JA only on a board like the one it was measured on",
  source: jedec,
  valid: { R: ">= 0 K/W" },
});

export const maximumDissipation = formula("P = (T_j - T_a)/R", { T_j: celsius, T_a: celsius, R: K_per_W }, watt, {
  meaning: "heat that brings a junction behind R from the ambient T_a to T_j",
  source: jedec,
  valid: { R: "> 0 K/W" },
});

export const deratingSlope = formula("s = 1/R", { R: K_per_W }, W_per_K, {
  meaning: "heat that must be given up for each kelvin of ambient, behind the resistance R",
  source: jedec,
  valid: { R: "> 0 K/W" },
});

export const conductionResistance = formula("R = l/(k*A)", { l: mm, k: W_per_m_K, A: mm2 }, K_per_W, {
  meaning: "thermal resistance of a body of length l, conductivity k and even cross-section A: a bar along it, a wall across it",
  source: "Fourier's law",
  valid: { k: "> 0 W/(m·K)", A: "> 0 mm²" },
});

export const gapCoefficient = formula(
  "U = 1/(1/(k_a/l + h_r) + t/k_w)",
  { k_a: W_per_m_K, l: mm, h_r: W_per_m2_K, t: mm, k_w: W_per_m_K },
  W_per_m2_K,
  {
    meaning:
      "heat for each area and kelvin that crosses a gap l of still air (conductivity k_a), helped by radiation (h_r), and then a wall t of conductivity k_w",
    source: "Fourier's law; air in gaps of a few millimetres does not circulate",
    valid: { k_a: "> 0 W/(m·K)", l: "> 0 mm", h_r: ">= 0 W/(m²·K)", t: ">= 0 mm", k_w: "> 0 W/(m·K)" },
  },
);

export const shownThrough = formula("s = U/(U + h)", { U: W_per_m2_K, h: W_per_m2_K }, percent, {
  meaning:
    "share of a hot place inside that shows on a case's surface, which U connects to it and which sheds by the coefficient h; on the safe side, since the wall also spreads it",
  source: "two resistances in series, per area",
  valid: { U: "> 0 W/(m²·K)", h: "> 0 W/(m²·K)" },
});

export const filmResistance = formula("R = 1/(h*A)", { h: W_per_m2_K, A: m2 }, K_per_W, {
  meaning: "thermal resistance of a surface A that sheds heat with the coefficient h",
  source: "Newton's law of cooling",
  valid: { h: "> 0 W/(m²·K)", A: "> 0 m²" },
});

export const parallelResistance = formula("R = R_1*R_2/(R_1 + R_2)", { R_1: K_per_W, R_2: K_per_W }, K_per_W, {
  meaning: "two ways for the same heat to the same ambient, side by side",
  source: commonPractice,
  valid: { R_1: "> 0 K/W", R_2: "> 0 K/W" },
});

export const boxArea = formula("A = 2*(a*b + a*H + b*H)", { a: mm, b: mm, H: mm }, m2, {
  meaning: "surface of a box a × b × H",
  source: "geometry",
  valid: { a: "> 0", b: "> 0", H: "> 0" },
});

export const sunPower = formula("P = alpha*G*A", { alpha: one, G: W_per_m2, A: m2 }, watt, {
  meaning:
    "heat from the sun on a surface of the projected area A and absorptance alpha, at the irradiance G (1 kW/m² at noon in clear air)",
  source: commonPractice,
  valid: { alpha: "0 to 1", G: "0 W/m² to 1200 W/m²" },
});

export const radiatedPower = formula(
  "P = epsilon*sigma*A*(T_s^4 - T_a^4)",
  { epsilon: one, sigma: W_per_m2_K4, A: m2, T_s: celsius, T_a: celsius },
  watt,
  {
    meaning: "heat that a convex surface A of emissivity epsilon at T_s radiates to surroundings at T_a: absolute temperatures",
    source: "Stefan–Boltzmann law, grey surface in large surroundings",
    valid: { epsilon: "0 to 1", A: ">= 0 m²" },
  },
);

export const radiationCoefficient = formula(
  "h_r = epsilon*sigma*(T_1^3 + T_1^2*T_2 + T_1*T_2^2 + T_2^3)",
  { epsilon: one, sigma: W_per_m2_K4, T_1: celsius, T_2: celsius },
  W_per_m2_K,
  {
    meaning: "heat radiated for each area and kelvin by a surface of emissivity epsilon at T_1 to surroundings at T_2; the exact quotient",
    source: "Stefan–Boltzmann law: (T_1² + T_2²)·(T_1 + T_2), absolute temperatures",
    valid: { epsilon: "0 to 1" },
  },
);

export const sideCoefficient = numericalFormula("h = 1.42*(dT/H)^0.25", { dT: kelvin, H: metre }, W_per_m2_K, {
  meaning: "coefficient of natural convection from a vertical face of height H that is dT above still air",
  source: holman,
  valid: { dT: "> 0 K", H: "> 0 m" },
});

export const topCoefficient = numericalFormula("h = 1.32*(dT/L)^0.25", { dT: kelvin, L: metre }, W_per_m2_K, {
  meaning: "coefficient of natural convection from a face that looks up, dT above still air; L is its area over its perimeter",
  source: holman,
  valid: { dT: "> 0 K", L: "> 0 m" },
});

export const bottomCoefficient = numericalFormula("h = 0.59*(dT/L)^0.25", { dT: kelvin, L: metre }, W_per_m2_K, {
  meaning: "coefficient of natural convection from a face that looks down, dT above still air; L is its area over its perimeter",
  source: holman,
  valid: { dT: "> 0 K", L: "> 0 m" },
});

export const faceLength = formula("L = a*b/(2*(a + b))", { a: mm, b: mm }, mm, {
  meaning: "area over perimeter of a level face a × b: its length in laws of convection",
  source: "geometry",
  valid: { a: "> 0 mm", b: "> 0 mm" },
});

export const heatCapacity = formula("C = m*c", { m: gram, c: J_per_kg_K }, J_per_K, {
  meaning: "heat capacity of a mass m of specific heat c",
  source: "definition",
  valid: { m: ">= 0 g", c: "> 0 J/(kg·K)" },
});

export const timeConstant = formula("tau = C*R", { C: J_per_K, R: K_per_W }, second, {
  meaning: "time in which a lump of heat capacity C behind R comes 63 % of the way to its final temperature",
  source: lump,
  valid: { C: ">= 0 J/K", R: "> 0 K/W" },
});

export const finalRise = formula("dT = P*R", { P: watt, R: K_per_W }, degC_difference, {
  meaning: "temperature rise that the heat P ends at behind R",
  source: lump,
  valid: { R: ">= 0 K/W" },
});

export const riseAfter = formula("dT = P*R*(1 - exp(-t/tau))", { P: watt, R: K_per_W, t: second, tau: second }, degC_difference, {
  meaning: "temperature rise of a lump after the time t of steady heat P, from cold",
  source: lump,
  valid: { t: ">= 0 s", tau: "> 0 s" },
});

export const timeToRise = formula("t = -tau*ln(1 - dT/(P*R))", { tau: second, dT: degC_difference, P: watt, R: K_per_W }, second, {
  meaning: "time after which steady heat P has warmed a lump by dT from cold; none where dT is more than P·R",
  source: lump,
  valid: { tau: "> 0 s", dT: ">= 0 Δ°C", P: "> 0 W", R: "> 0 K/W" },
});

export const touchMargin = formula("M = T_max - T_s", { T_max: celsius, T_s: celsius }, degC_difference, {
  meaning:
    "distance of a surface at T_s to the temperature T_max at which it may be touched (data/reference/touch.yaml); design only: the standard's own measurement, in its own ambient, decides, made by those licensed to judge it",
  source: "definition",
  valid: { T_max: "> 0 K", T_s: "> 0 K" },
});
