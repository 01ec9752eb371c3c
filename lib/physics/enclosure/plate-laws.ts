/**
 * Thin rectangular plates, as formulas. The span a is the SHORTER side, r = b/a >= 1, and the coefficients go with
 * D = E·t³/(12·(1 − ν²)); those of handbooks that write E·t³ instead are 12·(1 − ν²) times larger. All are for small
 * deflections, up to about half the thickness; above that the plate stretches and is stiffer than these laws say. Left
 * out: deflection by shear, below 1 % for spans above 15 thicknesses.
 */
import { commonPractice, formula } from "../../formula/formula";
import { GPa, g_per_cm3, hertz, MPa, mm, N_mm, N_per_mm, newton, one } from "../../units";

const book = "Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, 2nd edition (1959)";

export const flexuralRigidity = formula("D = E*t^3/(12*(1 - nu^2))", { E: GPa, t: mm, nu: one }, N_mm, {
  meaning: "flexural rigidity of a plate of thickness t: bending moment per width over curvature",
  source: `${book}, Art. 1, eq. (3)`,
  valid: { E: "> 0 GPa", t: "> 0 mm", nu: "0 to 0.5" },
});

export const sideRatio = formula("r = max(a, b)/min(a, b)", { a: mm, b: mm }, one, {
  meaning: "ratio of the longer to the shorter side of a plate, whichever way round they are given",
  source: "geometry",
  valid: { a: "> 0 mm", b: "> 0 mm" },
});

export const roundPatchSide = formula("u = sqrt(3)/2*d", { d: mm }, mm, {
  meaning:
    "side of the square patch that deflects a plate at its centre as a round patch of diameter d does: both have the same radius of gyration",
  source: `${commonPractice}; the deflection differs by less than 0.2 % for d up to half the shorter side`,
  valid: { d: "> 0 mm" },
});

export const uniformSupportedCoefficient = formula(
  "alpha = 5/384 - 4/pi^5*((pi*r/2*tanh(pi*r/2) + 2)/(2*cosh(pi*r/2)) - (3*pi*r/2*tanh(3*pi*r/2) + 2)/(486*cosh(3*pi*r/2)))",
  { r: one },
  one,
  {
    meaning:
      "deflection coefficient alpha at the centre of a simply supported plate under uniform load, r the longer over the shorter side",
    source: `${book}, Art. 30 and Table 8: Lévy's series, first two terms`,
    valid: { r: ">= 1" },
  },
);

export const pointSupportedCoefficient = formula(
  "alpha = (1.0518 - (1 - tanh(pi*r/2) + pi*r/2/cosh(pi*r/2)^2))/(2*pi^3)",
  { r: one },
  one,
  {
    meaning:
      "deflection coefficient alpha under a force at the centre of a simply supported plate, r the longer over the shorter side; 1.0518 is the sum of 1/m³ over odd m",
    source: `${book}, Art. 34 and Table 23: Lévy's series, later terms at their limit`,
    valid: { r: ">= 1" },
  },
);

export const uniformClampedCoefficient = formula(
  "alpha = 1/384*(1 - exp(-2.106*r)*((1.049 + 0.493*r)*cos(1.125*r) + 3.952*sin(1.125*r)))",
  { r: one },
  one,
  {
    meaning: "deflection coefficient alpha at the centre of a clamped plate under uniform load, r the longer over the shorter side",
    source: `${book}, Art. 44 and Table 35, fitted within 0.5 %; the end effect decays as in a clamped strip (2.106 ± 1.125i solves sin 2z = −2z)`,
    valid: { r: ">= 1" },
  },
);

export const pointClampedCoefficient = formula(
  "alpha = 0.00725*(1 - exp(-2.106*r)*((4.142 - 1.685*r)*cos(1.125*r) + 0.9*sin(1.125*r)))",
  { r: one },
  one,
  {
    meaning: "deflection coefficient alpha under a force at the centre of a clamped plate, r the longer over the shorter side",
    source: `${book}, Art. 44 and Table 37, fitted within 0.2 %; the end effect decays as in a clamped strip (2.106 ± 1.125i solves sin 2z = −2z)`,
    valid: { r: ">= 1" },
  },
);

export const uniformDeflection = formula("w = alpha*q*a^4/D", { alpha: one, q: MPa, a: mm, D: N_mm }, mm, {
  meaning: "deflection at the centre of a plate of shorter side a under the pressure q",
  source: `${book}, Art. 30 and 44`,
  valid: { a: "> 0 mm", D: "> 0 N·mm" },
});

export const pointDeflection = formula("w = alpha*F*a^2/D", { alpha: one, F: newton, a: mm, D: N_mm }, mm, {
  meaning: "deflection under a force F at the centre of a plate of shorter side a",
  source: `${book}, Art. 34 and 44`,
  valid: { a: "> 0 mm", D: "> 0 N·mm" },
});

export const centreStiffness = formula("k = D/(alpha*a^2)", { alpha: one, a: mm, D: N_mm }, N_per_mm, {
  meaning: "stiffness of a plate of shorter side a against a force at its centre",
  source: `${book}, Art. 34 and 44`,
  valid: { alpha: "> 0", a: "> 0 mm" },
});

const frequencies = "Leissa, Vibration of Plates, NASA SP-160 (1969)";

export const supportedPlateFrequency = formula(
  "f = pi/2*sqrt(D/(rho*t))*(1/a^2 + 1/b^2)",
  { D: N_mm, rho: g_per_cm3, t: mm, a: mm, b: mm },
  hertz,
  {
    meaning: "first natural frequency of a simply supported plate that carries nothing but itself",
    source: `${frequencies}, 4.1`,
    valid: { rho: "> 0 g/cm³", t: "> 0 mm", a: "> 0 mm", b: "> 0 mm" },
  },
);

export const clampedPlateFrequency = formula(
  "f = sqrt(504*D/(rho*t)*(1/a^4 + 4/(7*a^2*b^2) + 1/b^4))/(2*pi)",
  { D: N_mm, rho: g_per_cm3, t: mm, a: mm, b: mm },
  hertz,
  {
    meaning:
      "first natural frequency of a clamped plate that carries nothing but itself, by Rayleigh's quotient of the shape (x² − a²/4)²·(y² − b²/4)²: high by 0.4 % at most",
    source: `Rayleigh's method; ${frequencies}, 4.2: 35.99 for a square plate`,
    valid: { rho: "> 0 g/cm³", t: "> 0 mm", a: "> 0 mm", b: "> 0 mm" },
  },
);
