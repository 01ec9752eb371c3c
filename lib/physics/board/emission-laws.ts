/** Closed laws of what a board radiates: spectra, currents on leads, fields and distances. Estimates for design; a test house measures. */
import { commonPractice, formula } from "../../formula/formula";
import { ampere, cm2, dB, dBuV_per_m, F_per_m, H_per_m, hertz, metre, ohm, one, pF, uA, V_per_m, volt } from "../../units";

const paul = "C. R. Paul, Introduction to Electromagnetic Compatibility: bounds of a trapezoid's spectrum";

export const harmonicBound = formula(
  "V_h = sqrt(2)*V*D*min(1, f_1/f)*min(1, f_2/f)",
  { V: volt, D: one, f_1: hertz, f: hertz, f_2: hertz },
  volt,
  {
    meaning:
      "upper bound of the rms value of a harmonic at f of a trapezoidal wave of the height V and duty D, f_1 and f_2 the corners of its spectrum (board.pulseCorner, board.edgeCorner)",
    source: paul,
    valid: { f: "> 0 Hz", D: "0 to 1" },
  },
);

export const coupledCurrent = formula("I = 2*pi*f*C*V", { f: hertz, C: pF, V: volt }, uA, {
  meaning:
    "current that the voltage V at f drives through a small capacitance C into a lead of much less impedance: the common-mode current of that lead",
  source: commonPractice,
  valid: { f: "> 0 Hz", C: ">= 0 pF" },
});

export const plateCapacitance = formula("C = 8*epsilon_0*sqrt(A/pi)", { epsilon_0: F_per_m, A: cm2 }, pF, {
  meaning:
    "capacitance of a thin plate of the area A to surroundings far away: what a board can put back into the air instead of driving it into a lead; exact for a disc, 2 % low for a square",
  source: "charged conducting disc (J. D. Jackson, Classical Electrodynamics, 3.13; from memory)",
  valid: { A: "> 0 cm²" },
});

export const chokedShare = formula(
  "k = sqrt(((R_a + R_k)^2 + 1/(2*pi*f*C)^2)/(R_a^2 + 1/(2*pi*f*C)^2))",
  { R_a: ohm, R_k: ohm, f: hertz, C: pF },
  dB,
  {
    meaning:
      "factor by which a choke of the resistance R_k in a lead of the resistance R_a lowers the current that is forced into lead and board together, C being the board's own capacitance to its surroundings: the choke only helps as far as the current can go elsewhere",
    source: "current divider of R_a + R_k and 1/(2·π·f·C), before and after",
    valid: { R_a: "> 0 Ω", R_k: ">= 0 Ω", f: "> 0 Hz", C: "> 0 F" },
    holds: "a choke that is a resistance at f, and a lead in resonance",
  },
);

export const shortCableField = formula("E = mu_0*f*L*I/(2*d)", { mu_0: H_per_m, f: hertz, L: metre, I: ampere, d: metre }, dBuV_per_m, {
  meaning:
    "electric far field at the distance d of a lead of length L below a third of a wavelength that carries the common-mode current I in all its wires together, in its worst direction, in free space; a reflecting ground at most doubles it: then it is the handbooks' board.cableField",
  source: "field of the short dipole with even current (C. A. Balanis, Antenna Theory; from memory)",
  valid: { f: "> 0 Hz", d: "> 0 m" },
});

export const resonantCableField = formula("E = Z_0*I/(2*pi*d)", { Z_0: ohm, I: ampere, d: metre }, dBuV_per_m, {
  meaning:
    "electric far field at the distance d of a lead as a half-wave dipole with the common-mode current I at its middle, in its worst direction, in free space; a reflecting ground at most doubles it",
  source: "field of the half-wave dipole, 60 Ω·I/d (C. A. Balanis, Antenna Theory; from memory)",
  valid: { d: "> 0 m" },
});

export const resonantCableCurrent = formula("I = 2*pi*E*d/Z_0", { E: V_per_m, d: metre, Z_0: ohm }, uA, {
  meaning: "common-mode current on a half-wave lead that makes the field E at the distance d: resonantCableField turned round",
  source: "field of the half-wave dipole, 60 Ω·I/d (C. A. Balanis, Antenna Theory; from memory)",
  valid: { d: "> 0 m" },
});

export const fieldAtDistance = formula("E = E_1*d_1/d", { E_1: V_per_m, d_1: metre, d: metre }, dBuV_per_m, {
  meaning:
    "far field at the distance d from that at d_1, by 20 dB a decade: 10.46 dB from 10 m to 3 m, where CISPR 32 states its two limits 10 dB apart",
  source: "47 CFR 15.31(f), extrapolation above 30 MHz (from memory); far field",
  valid: { d_1: "> 0 m", d: "> 0 m" },
});

export const emissionMargin = formula("M = E_l/E", { E_l: V_per_m, E: V_per_m }, dB, {
  meaning: "distance of the field E below the limit E_l at the same distance and detector",
  source: "definition",
  valid: { E: "> 0 V/m" },
});
