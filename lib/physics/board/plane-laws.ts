/** Closed laws of planes and of the copper that signals return in. */
import { commonPractice, formula } from "../../formula/formula";
import { cm2, F_per_m, farad, H_per_m, henry, MHz, m_per_s, mm, nH, ohm, one, percent } from "../../units";

const twoWires = "two round electrodes in an unbounded sheet (the field of a two-wire line)";

export const planeCapacitance = formula("C = epsilon_0*eps_r*A/d", { epsilon_0: F_per_m, eps_r: one, A: cm2, d: mm }, farad, {
  meaning: "capacitance of two planes of the area A with a dielectric of thickness d and relative permittivity eps_r; without the fringe",
  source: commonPractice,
  valid: { eps_r: ">= 1", A: "> 0 cm²", d: "> 0 mm" },
});

export const planeInductance = formula("L_sq = mu_0*d", { mu_0: H_per_m, d: mm }, henry, {
  meaning: "inductance of a square of two planes with a dielectric of thickness d, the current even across it",
  source: commonPractice,
  valid: { d: "> 0 mm" },
});

export const cavityResonance = formula(
  "f_r = c/(2*sqrt(eps_r))*sqrt((m/a)^2 + (n/b)^2)",
  { c: m_per_s, eps_r: one, m: one, a: mm, n: one, b: mm },
  MHz,
  {
    meaning:
      "resonance m, n of a pair of planes a × b with the relative permittivity eps_r between them; the edges as magnetic walls, so that thin pairs come out within a few per cent",
    source: "cavity model with magnetic side walls (T. Okoshi, Planar Circuits; from memory)",
    valid: { eps_r: ">= 1", a: "> 0 mm", b: "> 0 mm", m: ">= 0", n: ">= 0" },
  },
);

export const spreadingResistance = formula("R = R_sq/pi*ln((s + sqrt(s^2 - 4*r^2))/(2*r))", { R_sq: ohm, s: mm, r: mm }, ohm, {
  meaning:
    "resistance between two round contacts of radius r, their centres s apart, in a sheet of R_sq per square whose edges are far away; near an edge it is up to twice as much (board.planeResistance)",
  source: twoWires,
  valid: { s: "> 0 mm", r: "> 0 mm" },
});

export const spreadingInductance = formula("L = mu_0*d/pi*ln((s + sqrt(s^2 - 4*r^2))/(2*r))", { mu_0: H_per_m, d: mm, s: mm, r: mm }, nH, {
  meaning:
    "inductance of two planes d apart between two round contacts of radius r, their centres s apart, the edges far away; the vias themselves not counted",
  source: twoWires,
  valid: { d: "> 0 mm", s: "> 0 mm", r: "> 0 mm" },
});

export const returnShare = formula("p = 2/pi*atan(x/h)", { x: mm, h: mm }, percent, {
  meaning:
    "share of a trace's return current that flows in the plane within x to either side of the trace's centre, the trace at the height h; for frequencies above board.resistiveCorner and traces narrower than h",
  source: "H. Johnson and M. Graham, High-Speed Digital Design (1993): density I/(π·h)/(1 + (x/h)²)",
  valid: { x: ">= 0 mm", h: "> 0 mm" },
});

export const sharedReturnRatio = formula("k = R_g/(R_g + R_L)", { R_g: ohm, R_L: ohm }, one, {
  meaning: "share of a load's voltage that appears across a return R_g which the load R_L has in common with another circuit",
  source: "Ohm's law",
  valid: { R_g: ">= 0 Ω", R_L: "> 0 Ω" },
});
