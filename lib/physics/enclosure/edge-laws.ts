/**
 * Plates whose edges are held by walls that turn with them: between simply supported and clamped by a fixity f, and the
 * bending moments of both, as formulas. An edge gives back the moment k_r a radian and length. Of a strip f is
 * k_r·a/(k_r·a + 2·D) exactly; of a rectangle the number 2 is larger, as the corners hold the edge less. The span a is
 * the SHORTER side, r = b/a ≥ 1. Small deflections; edges do not sink.
 */
import { formula } from "../../formula/formula";
import { MPa, mm, N_mm, newton, one } from "../../units";

const book = "Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, 2nd edition (1959)";
const strip = "beam with springs against turning at its ends; rectangles fitted to finite differences of the plate";
const decay = "the end effect decays as in a clamped strip";

export const wallEdgeStiffness = formula("k_r = n*D/H", { n: one, D: N_mm, H: mm }, newton, {
  meaning:
    "moment for each radian and length with which a wall of flexural rigidity D and height H holds the edge of a plate: n = 2 where its far edge turns the other way as much (a box pressed from above and below), 3 where that may turn freely, 4 where it is clamped",
  source: "slope-deflection equations of a strip",
  valid: { n: "2 to 4", D: "> 0 N·mm", H: "> 0 mm" },
});

export const uniformEdgeNumber = formula("c = 2 + 1.55*exp(1 - r)", { r: one }, one, {
  meaning: "number of `edgeFixity` for a uniform load, r the longer over the shorter side: 3.55 of a square, 2 of a long strip",
  source: strip,
  valid: { r: ">= 1" },
});

export const patchEdgeNumber = formula("c = 2.8 + 0.85*exp(1.6*(1 - r))", { r: one }, one, {
  meaning:
    "number of `edgeFixity` for a load on a central patch of about a quarter of the shorter side, r the longer over the shorter side",
  source: strip,
  valid: { r: ">= 1" },
});

export const edgeFixity = formula("f = k_r*a/(k_r*a + c*D)", { k_r: newton, a: mm, c: one, D: N_mm }, one, {
  meaning:
    "fixity of the edges of a plate of shorter side a and rigidity D that are held against turning by k_r: 0 simply supported, 1 clamped",
  source: strip,
  valid: { k_r: ">= 0 N", a: "> 0 mm", c: "2 to 4", D: "> 0 N·mm" },
});

export const elasticEdgeCoefficient = formula("alpha = alpha_s - f*(alpha_s - alpha_c)", { alpha_s: one, f: one, alpha_c: one }, one, {
  meaning:
    "coefficient of deflection, or of the moment at the centre, of a plate with edges of fixity f, from that with supported (alpha_s) and with clamped edges (alpha_c)",
  source: `${strip}: within 2 % of the deflection`,
  valid: { f: "0 to 1" },
});

export const elasticEdgeMoment = formula("beta = f*beta_c", { f: one, beta_c: one }, one, {
  meaning: "coefficient of the moment at the middle of the longer edge of fixity f, from that of a clamped one",
  source: `${strip}: exact for a strip; for rectangles up to 10 % too much under a uniform load and 25 % under a patch, at worst 4 % too little`,
  valid: { f: "0 to 1" },
});

export const uniformSupportedMoment = formula(
  "beta = 1/8 - 4/pi^3*((2 + (1 - nu)*pi*r/2*tanh(pi*r/2))/(2*cosh(pi*r/2)) - (2 + (1 - nu)*3*pi*r/2*tanh(3*pi*r/2))/(54*cosh(3*pi*r/2)))",
  { r: one, nu: one },
  one,
  {
    meaning:
      "moment coefficient beta at the centre of a simply supported plate under uniform load, across the shorter side: the greatest there",
    source: `${book}, Art. 30 and Table 8: Lévy's series, first two terms`,
    valid: { r: ">= 1", nu: "0 to 0.5" },
  },
);

export const uniformClampedEdgeMoment = formula(
  "beta = 1/12*(1 - exp(-2.106*r)*((1.657 + 0.487*r)*cos(1.125*r) + 2.481*sin(1.125*r)))",
  { r: one },
  one,
  {
    meaning: "moment coefficient beta at the middle of the longer edge of a clamped plate under uniform load: the greatest of all",
    source: `${book}, Art. 44 and Table 35, fitted within 0.2 %; ${decay}`,
    valid: { r: ">= 1" },
  },
);

export const uniformClampedCentreMoment = formula(
  "beta = 1/24*(1 - exp(-2.106*r)*((1.004 + 0.955*r)*cos(1.125*r) + 3.146*sin(1.125*r)))",
  { r: one },
  one,
  {
    meaning:
      "moment coefficient beta at the centre of a clamped plate under uniform load, across the shorter side, at a Poisson's ratio of 0.3",
    source: `${book}, Art. 44 and Table 35, fitted within 1.2 %; ${decay}`,
    valid: { r: ">= 1" },
  },
);

export const pointClampedEdgeMoment = formula(
  "beta = 0.168*(1 - exp(-2.106*r)*((5.225 - 2.28*r)*cos(1.125*r) + 0.886*sin(1.125*r)))",
  { r: one },
  one,
  {
    meaning:
      "coefficient beta of the moment for each length at the middle of the longer edge of a clamped plate under a force at its centre",
    source: `${book}, Art. 44 and Table 37, fitted within 0.1 %; ${decay}`,
    valid: { r: ">= 1" },
  },
);

export const uniformMoment = formula("M = beta*q*a^2", { beta: one, q: MPa, a: mm }, newton, {
  meaning: "bending moment for each length of a plate of shorter side a under the pressure q",
  source: `${book}, Art. 30 and 44`,
  valid: { a: "> 0 mm" },
});

export const pointMoment = formula("M = beta*F", { beta: one, F: newton }, newton, {
  meaning: "bending moment for each length at the edge of a plate under a force F at its centre",
  source: `${book}, Art. 44`,
  valid: { F: ">= 0 N" },
});

export const bendingStress = formula("sigma = 6*M/t^2", { M: newton, t: mm }, MPa, {
  meaning: "stress at the surface of a plate of thickness t under the bending moment M for each length",
  source: `${book}, Art. 11`,
  valid: { t: "> 0 mm" },
});
