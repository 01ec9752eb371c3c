/** Closed laws of what a board radiates: spectra, currents on leads, fields and distances. Estimates for design; a test house measures. */
import { commonPractice, formula } from "../../formula/formula";
import { ampere, dB, dBuV_per_m, H_per_m, hertz, metre, ohm, one, pF, uA, V_per_m, volt } from "../../units";

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
