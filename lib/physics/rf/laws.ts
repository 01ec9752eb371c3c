/** Closed laws of filters, fields and fast edges, as formulas. */
import { commonPractice, formula } from "../../formula/formula";
import {
  ampere,
  cm2,
  dB,
  dB_power,
  dBuV_per_m,
  farad,
  H_per_m,
  henry,
  hertz,
  kHz,
  MHz,
  m_per_s,
  metre,
  mm,
  ns,
  ohm,
  one,
  uA,
  uH,
  V_per_m,
  volt,
  watt,
} from "../../units";

const small = "C. R. Paul, Introduction to Electromagnetic Compatibility; H. W. Ott, Electromagnetic Compatibility Engineering";

export const capacitiveCorner = formula("f_c = 1/(2*pi*R*C)", { R: ohm, C: farad }, kHz, {
  meaning: "frequency at which a capacitance C across a node of the source resistance R (source and load in parallel) costs 3.01 dB",
  source: commonPractice,
  valid: { R: "> 0 Ω", C: "> 0 F" },
});

export const selfResonance = formula("f_r = 1/(2*pi*sqrt(L*C))", { L: henry, C: farad }, MHz, {
  meaning: "frequency above which a capacitor is an inductor (L its ESL) or an inductor a capacitor (C across it)",
  source: commonPractice,
  valid: { L: "> 0 H", C: "> 0 F" },
});

export const antiResonance = formula(
  "f_a = 1/(2*pi*sqrt((L_1 + L_2)*C_1*C_2/(C_1 + C_2)))",
  { L_1: henry, L_2: henry, C_1: farad, C_2: farad },
  MHz,
  {
    meaning:
      "frequency between the self-resonances of two capacitors in parallel, with their ESLs L_1 and L_2, at which the pair is an open circuit but for its losses",
    source: commonPractice,
    valid: { C_1: "> 0 F", C_2: "> 0 F" },
  },
);

export const commonInductance = formula("L_c = L*(1 + k)/2", { L: henry, k: one }, uH, {
  meaning: "inductance of a common-mode choke of two windings L coupled by k to a current that both lines share",
  source: commonPractice,
  valid: { k: "0 to 1" },
});

export const differentialInductance = formula("L_d = 2*L*(1 - k)", { L: henry, k: one }, uH, {
  meaning: "inductance of a common-mode choke of two windings L coupled by k in the loop of both lines: its leakage",
  source: commonPractice,
  valid: { k: "0 to 1" },
});

export const wavelength = formula("lambda = c/(f*sqrt(eps_r))", { c: m_per_s, f: hertz, eps_r: one }, mm, {
  meaning: "wavelength at the frequency f in a medium of the relative permittivity eps_r",
  source: commonPractice,
  valid: { f: "> 0 Hz", eps_r: ">= 1" },
});

export const stitchingPitch = formula("p = lambda/n", { lambda: mm, n: one }, mm, {
  meaning: "distance between ground vias that is the nth part of a wavelength; n = 20 is common",
  source: commonPractice,
  valid: { n: "> 0" },
});

export const pulseCorner = formula("f_1 = f/(pi*D)", { f: hertz, D: one }, MHz, {
  meaning:
    "frequency to which the envelope of a trapezoidal wave's spectrum is flat, from its repetition f and duty D; then −20 dB a decade",
  source: "C. R. Paul, Introduction to Electromagnetic Compatibility",
  valid: { D: "0 to 1" },
});

export const edgeCorner = formula("f_2 = 1/(pi*t_r)", { t_r: ns }, MHz, {
  meaning: "frequency from which the envelope of a trapezoidal wave's spectrum falls by −40 dB a decade, from the time t_r of its edges",
  source: "C. R. Paul, Introduction to Electromagnetic Compatibility",
  valid: { t_r: "> 0 s" },
});

export const loopField = formula(
  "E = Z_0*pi*f^2*A*I/(c^2*d)",
  { Z_0: ohm, f: hertz, A: cm2, I: ampere, c: m_per_s, d: metre },
  dBuV_per_m,
  {
    meaning:
      "electric far field at the distance d of a small loop of area A that carries I, in its worst direction, in free space; a reflecting ground at most doubles it",
    source: `${small} (loop smaller than λ/4, distance above λ/(2·π))`,
    valid: { f: "> 0 Hz", d: "> 0 m" },
  },
);

export const cableField = formula("E = mu_0*f*L*I/d", { mu_0: H_per_m, f: hertz, L: metre, I: ampere, d: metre }, dBuV_per_m, {
  meaning:
    "electric far field at the distance d of a short cable of length L with the common-mode current I, in its worst direction, doubled by a reflecting ground (in free space it is half of this); above λ/4 take λ/4 for L",
  source: `${small} (short dipole, uniform current, distance above λ/(2·π))`,
  valid: { f: "> 0 Hz", d: "> 0 m" },
});

export const cableCurrent = formula("I = E*d/(mu_0*f*L)", { E: V_per_m, d: metre, mu_0: H_per_m, f: hertz, L: metre }, uA, {
  meaning:
    "common-mode current on a short cable of length L that makes the field E at the distance d over a reflecting ground: cableField turned round",
  source: small,
  valid: { f: "> 0 Hz", L: "> 0 m" },
});

export const transmitterField = formula("E = sqrt(Z_0*P*G/(4*pi))/d", { Z_0: ohm, P: watt, G: dB_power, d: metre }, V_per_m, {
  meaning:
    "rms field at the distance d of a transmitter of mean power P during its burst and antenna gain G (power ratio; 1.64 for a half-wave dipole), in free space and the far field",
  source: commonPractice,
  valid: { P: ">= 0 W", d: "> 0 m" },
});

export const leadVoltage = formula("V = E*lambda/pi", { E: V_per_m, lambda: metre }, volt, {
  meaning:
    "rms open-circuit voltage of a lead as a half-wave dipole along the field E: the most that a lead of a half wave or longer picks up; its source resistance is about 73 Ω",
  source: "effective length λ/π of the half-wave dipole (C. A. Balanis, Antenna Theory; from memory)",
  valid: { E: ">= 0", lambda: "> 0" },
});

export const filteredVoltage = formula("V_a = sqrt(2)*V*R_L/((R_s + R_L)*IL)", { V: volt, R_s: ohm, R_L: ohm, IL: dB }, volt, {
  meaning:
    "amplitude of a carrier behind a filter of the insertion loss IL between R_s and R_L, from the rms open-circuit voltage V of its source",
  source: commonPractice,
  valid: { IL: "> 0" },
});
