/** Closed laws of copper on a board: how wide a trace must be, its resistance and inductance, and vias. */
import { commonPractice, formula } from "../../formula/formula";
import { numericalFormula } from "../../formula/numerical";
import {
  ampere,
  celsius,
  g_per_cm3,
  H_per_m,
  hertz,
  K_per_W,
  kelvin,
  kHz,
  mil2,
  mm,
  mV,
  nH,
  ohm,
  ohm_m,
  one,
  oz_per_ft2,
  per_kelvin,
  um,
  W_per_m_K,
} from "../../units";

const charts =
  "IPC-2221 current charts, fitted (k 0.048 external, 0.024 internal): still air, one trace alone, no plane beside it; IPC-2152 measures cooler traces near planes and hotter ones on thin boards";
const grover = "F. W. Grover, Inductance Calculations (1946); F. E. Terman, Radio Engineers' Handbook (from memory)";
const conductor = "IEC 60028 for annealed copper (data/reference/copper.yaml); common practice";

export const externalTraceCurrent = numericalFormula("I = 0.048*dT^0.44*A^0.725", { dT: kelvin, A: mil2 }, ampere, {
  meaning: "current that warms a trace of cross-section A on the outside of a board by dT, in A for K and mil²",
  source: charts,
  valid: { dT: "10 K to 100 K", A: "1 mil² to 700 mil²" },
});

export const internalTraceCurrent = numericalFormula("I = 0.024*dT^0.44*A^0.725", { dT: kelvin, A: mil2 }, ampere, {
  meaning: "current that warms a trace of cross-section A inside a board by dT, in A for K and mil²",
  source: charts,
  valid: { dT: "10 K to 100 K", A: "1 mil² to 700 mil²" },
});

export const externalTraceArea = numericalFormula("A = (I/(0.048*dT^0.44))^(1/0.725)", { I: ampere, dT: kelvin }, mil2, {
  meaning: "least cross-section of a trace on the outside of a board that a current I warms by no more than dT, in mil² for A and K",
  source: charts,
  valid: { I: "0 A to 35 A", dT: "10 K to 100 K" },
});

export const internalTraceArea = numericalFormula("A = (I/(0.024*dT^0.44))^(1/0.725)", { I: ampere, dT: kelvin }, mil2, {
  meaning: "least cross-section of a trace inside a board that a current I warms by no more than dT: 2.6 times that outside",
  source: charts,
  valid: { I: "0 A to 17.5 A", dT: "10 K to 100 K" },
});

export const externalTraceRise = numericalFormula("dT = (I/(0.048*A^0.725))^(1/0.44)", { I: ampere, A: mil2 }, kelvin, {
  meaning: "temperature rise of a trace of cross-section A on the outside of a board; below 10 K an extrapolation of the charts",
  source: charts,
  valid: { I: "0 A to 35 A", A: "1 mil² to 700 mil²" },
});

export const internalTraceRise = numericalFormula("dT = (I/(0.024*A^0.725))^(1/0.44)", { I: ampere, A: mil2 }, kelvin, {
  meaning: "temperature rise of a trace of cross-section A inside a board; below 10 K an extrapolation of the charts",
  source: charts,
  valid: { I: "0 A to 17.5 A", A: "1 mil² to 700 mil²" },
});

export const traceWidth = formula("w = A/t", { A: mil2, t: um }, mm, {
  meaning: "width of a trace of cross-section A in copper of the thickness t; the charts end at 10 mm",
  source: "geometry",
  valid: { A: "> 0 mil²", t: "> 0 µm" },
});

export const traceArea = formula("A = w*t", { w: mm, t: um }, mil2, {
  meaning: "cross-section of a trace of width w in copper of the thickness t",
  source: "geometry",
  valid: { w: "> 0 mm", t: "> 0 µm" },
});

export const copperThickness = formula("t = m/rho_d", { m: oz_per_ft2, rho_d: g_per_cm3 }, um, {
  meaning: "thickness of a foil of the mass per area m and density rho_d: 34.3 µm for 1 oz/ft²",
  source: "geometry",
  valid: { m: "> 0 oz/ft²", rho_d: "> 0 g/cm³" },
});

export const traceResistance = formula(
  "R = rho*l/(w*t)*(1 + alpha*(T - T_0))",
  { rho: ohm_m, l: mm, w: mm, t: um, alpha: per_kelvin, T: celsius, T_0: celsius },
  ohm,
  {
    meaning: "resistance of a trace of length l, width w and thickness t at the temperature T; rho and alpha belong to T_0",
    source: conductor,
    valid: { w: "> 0 mm", t: "> 0 µm", T: "233 K to 423 K" },
  },
);

export const sheetResistance = formula(
  "R_sq = rho/t*(1 + alpha*(T - T_0))",
  { rho: ohm_m, t: um, alpha: per_kelvin, T: celsius, T_0: celsius },
  ohm,
  {
    meaning: "resistance of a square of copper of the thickness t at the temperature T: half a milliohm for 35 µm",
    source: conductor,
    valid: { t: "> 0 µm", T: "233 K to 423 K" },
  },
);

export const traceDrop = formula("V = I*R", { I: ampere, R: ohm }, mV, {
  meaning: "fall of voltage along copper of the resistance R that carries I: also what a shared return adds to a signal that uses it",
  source: "Ohm's law",
  valid: { R: ">= 0" },
});

export const skinDepth = formula("delta = sqrt(rho/(pi*f*mu_0))", { rho: ohm_m, f: hertz, mu_0: H_per_m }, um, {
  meaning: "depth at which the current in copper has fallen to 1/e: a trace thicker than two of them has more resistance at f than at rest",
  source: commonPractice,
  valid: { f: "> 0 Hz" },
});

export const traceInductance = formula(
  "L = mu_0*l/(2*pi)*(ln(2*l/(w + t)) + 0.5 + 0.2235*(w + t)/l)",
  { mu_0: H_per_m, l: mm, w: mm, t: um },
  nH,
  {
    meaning:
      "partial inductance of a trace of length l, width w and thickness t, its return far away; above a plane the loop has less (board.lineInductance)",
    source: `${grover}; l longer than w`,
    valid: { l: "> 0 mm", w: "> 0 mm" },
  },
);

export const resistiveCorner = formula("f_c = R/(2*pi*L)", { R: ohm, L: nH }, kHz, {
  meaning:
    "frequency above which the inductance L of a loop, and no longer the resistance R of its return, decides where the return current flows: it then stays under the trace",
  source: commonPractice,
  valid: { L: "> 0 H" },
});

export const viaResistance = formula(
  "R = rho*h/(pi*(D - t)*t)*(1 + alpha*(T - T_0))",
  { rho: ohm_m, h: mm, D: mm, t: um, alpha: per_kelvin, T: celsius, T_0: celsius },
  ohm,
  {
    meaning: "resistance of a via's barrel of length h, plated to the thickness t inside a hole drilled to D, at the temperature T",
    source: conductor,
    valid: { D: "> 0 mm", t: "> 0 µm", T: "233 K to 423 K" },
  },
);

export const viaInductance = formula("L = mu_0*h/(2*pi)*(ln(4*h/d) + 1)", { mu_0: H_per_m, h: mm, d: mm }, nH, {
  meaning: "partial inductance of a via of length h and diameter d, its return far away; a return via beside it leaves less",
  source: "H. Johnson and M. Graham, High-Speed Digital Design (1993): 5.08·h·(ln(4·h/d) + 1) nH, h in inches",
  valid: { h: "> 0 mm", d: "> 0 mm" },
});

export const viaPairInductance = formula("L = mu_0*h/pi*ln((s + sqrt(s^2 - d^2))/d)", { mu_0: H_per_m, h: mm, s: mm, d: mm }, nH, {
  meaning: "inductance of the loop of a via and its return via, of length h and diameter d, their centres s apart",
  source: "two-wire line, current on the surface; exact for long vias, common practice for short ones",
  valid: { h: "> 0 mm", s: "> 0 mm", d: "> 0 mm" },
});

export const viaThermalResistance = formula("R_th = h/(k*pi*(D - t)*t)", { h: mm, k: W_per_m_K, D: mm, t: um }, K_per_W, {
  meaning:
    "thermal resistance of a via's barrel of length h, plated to the thickness t inside a hole drilled to D, copper of conductivity k",
  source: "Fourier's law; common practice",
  valid: { h: "> 0 mm", D: "> 0 mm", t: "> 0 µm" },
});

export const parallelVias = formula("R_n = R/n", { R: ohm, n: one }, ohm, {
  meaning: "resistance of n vias of resistance R side by side that share the current evenly",
  source: commonPractice,
  valid: { n: ">= 1" },
});
