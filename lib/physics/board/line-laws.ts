/** Closed laws of lines over planes: rules of thumb, and what follows from an impedance. The better formulas are models. */
import { commonPractice, formula } from "../../formula/formula";
import { numericalFormula } from "../../formula/numerical";
import { m_per_s, mm, nH, ns, ohm, one, pF, ps } from "../../units";

const ipc = "IPC-2141 (from memory)";
const line = "transmission line without loss";

export const effectivePermittivity = formula("eps_e = (eps_r + 1)/2 + (eps_r - 1)/2/sqrt(1 + 12*h/w)", { eps_r: one, h: mm, w: mm }, one, {
  meaning:
    "effective relative permittivity of a microstrip of width w at the height h over its plane, by the simple form: within 1 % for w above h",
  source: "D. M. Pozar, Microwave Engineering, 3rd edition, eq. 3.195",
  valid: { eps_r: ">= 1", h: "> 0 mm", w: "> 0 mm" },
});

export const ruleMicrostripImpedance = numericalFormula(
  "Z = 87/sqrt(eps_r + 1.41)*ln(5.98*h/(0.8*w + t))",
  { eps_r: one, h: mm, w: mm, t: mm },
  ohm,
  {
    meaning:
      "impedance of a microstrip of width w and thickness t at the height h over its plane, by the rule of thumb: on laminates of eps_r from 4 within 5 % for w from 0.3·h to 1.5·h, 16 % low at 3·h; board.microstrip is better",
    source: ipc,
    valid: { eps_r: "1 to 15", h: "> 0 mm", w: "> 0 mm" },
  },
);

export const ruleStriplineImpedance = numericalFormula(
  "Z = 60/sqrt(eps_r)*ln(1.9*b/(0.8*w + t))",
  { eps_r: one, b: mm, w: mm, t: mm },
  ohm,
  {
    meaning:
      "impedance of a stripline of width w and thickness t midway between planes b apart, by the rule of thumb: good for w below 0.35·b and t below 0.25·b; board.stripline is better",
    source: ipc,
    valid: { eps_r: "1 to 15", b: "> 0 mm", w: "> 0 mm" },
  },
);

export const lineInductance = formula("L = Z*l*sqrt(eps_e)/c", { Z: ohm, l: mm, eps_e: one, c: m_per_s }, nH, {
  meaning: "inductance of the loop that a line of impedance Z and length l makes with its return, eps_e its effective permittivity",
  source: line,
  valid: { eps_e: ">= 1" },
});

export const lineCapacitance = formula("C = l*sqrt(eps_e)/(c*Z)", { l: mm, eps_e: one, c: m_per_s, Z: ohm }, pF, {
  meaning: "capacitance of a line of impedance Z and length l to its return, eps_e its effective permittivity",
  source: line,
  valid: { eps_e: ">= 1", Z: "> 0 Ω" },
});

export const lineDelay = formula("t_d = l*sqrt(eps_e)/c", { l: mm, eps_e: one, c: m_per_s }, ps, {
  meaning: "time that a wave takes along a line of length l, eps_e its effective permittivity",
  source: line,
  valid: { eps_e: ">= 1" },
});

export const criticalLength = formula("l = c*t_r/(n*sqrt(eps_e))", { c: m_per_s, t_r: ns, n: one, eps_e: one }, mm, {
  meaning: "length from which a trace is treated as a line: an nth of the way that an edge of the rise time t_r fills; n = 6 is common",
  source: commonPractice,
  valid: { n: "> 0", eps_e: ">= 1" },
});
