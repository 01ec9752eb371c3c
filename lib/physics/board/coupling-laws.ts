/**
 * Two traces side by side over a plane, as formulas: what the one couples into the other by its magnetic and its electric
 * field. Traces are taken as thin wires, d apart from middle to middle and h above the plane; the loads as matched where a
 * wave is meant. Left out: fields through the edge of the plane, further traces between, losses.
 */
import { formula } from "../../formula/formula";
import { ampere, dB, farad, H_per_m, henry, hertz, kohm, mm, mV, nH, ns, pF, ps, volt } from "../../units";

const images = "method of images; C. R. Paul, Introduction to Electromagnetic Compatibility, 2nd edition (2006), chapter 9 (from memory)";
const wave = "weakly coupled, matched lines; C. R. Paul, as before; common practice";

export const mutualTraceInductance = formula("M = mu_0*l/(4*pi)*ln(1 + 4*h^2/d^2)", { mu_0: H_per_m, l: mm, h: mm, d: mm }, nH, {
  meaning: "mutual inductance of two traces of the common length l, d apart and both h above a plane",
  source: images,
  valid: { l: "> 0 mm", h: "> 0 mm", d: "> 0 mm" },
  holds: "d of some two trace widths or more, and l long against h and d",
});

export const mutualTraceCapacitance = formula("C_m = C*M/L", { C: pF, M: henry, L: henry }, pF, {
  meaning:
    "mutual capacitance of two like traces from that of each to all else, C, and their inductances M and L: exact in an even dielectric; on the outside of a board it is less, so this is the safe side",
  source: "inductance times capacitance matrix of an even dielectric is the unit matrix over the square of the speed of light in it",
  valid: { C: "> 0 F", M: ">= 0 H", L: "> 0 H" },
  holds: "M below L",
});

export const couplingRule = formula("k = 1/(1 + (d/h)^2)", { d: mm, h: mm }, dB, {
  meaning: "rule of thumb for the greatest part of a step that arrives on the trace beside it, d away and both h above a plane",
  source:
    "H. W. Johnson and M. Graham, High-Speed Digital Design (1993), chapter 5 (from memory): a bound, 6 dB and more above `backwardCrosstalk`",
  valid: { d: "> 0 mm", h: "> 0 mm" },
});

export const backwardCrosstalk = formula("k = (M/L + C_m/C)/4", { M: henry, L: henry, C_m: farad, C: farad }, dB, {
  meaning:
    "near-end crosstalk of two traces, matched at all ends, as a share of the step on the other: what it comes to where the traces run side by side for longer than half the edge",
  source: wave,
  valid: { M: "> 0 H", L: "> 0 H", C_m: ">= 0 F", C: "> 0 F" },
  holds: "weak coupling, M/L and C_m/C up to a quarter",
});

export const shortBackwardCrosstalk = formula("V = k*V_a*min(1, 2*t_d/t_r)", { k: dB, V_a: volt, t_d: ps, t_r: ns }, mV, {
  meaning:
    "height of the near-end crosstalk of a step V_a with an edge of t_r on traces that run side by side for the delay t_d, k being `backwardCrosstalk`",
  source: wave,
  valid: { k: "> 0", t_d: ">= 0 s", t_r: "> 0 s" },
});

export const lowFrequencyCrosstalk = formula(
  "V = 2*pi*f*(M*I*R_n/(R_n + R_f) + C_m*V_a*R_n*R_f/(R_n + R_f))",
  { f: hertz, M: henry, I: ampere, C_m: farad, V_a: volt, R_n: kohm, R_f: kohm },
  mV,
  {
    meaning:
      "voltage at the near end of a short trace, R_n there and R_f at its far end, beside one that carries I at the voltage V_a: both paths as if in step, which they are at the near end",
    source: images,
    valid: { f: ">= 0 Hz", M: ">= 0 H", C_m: ">= 0 F", R_n: "> 0 Ω", R_f: "> 0 Ω" },
    holds: "traces below a tenth of a wavelength, and so weakly coupled that the first does not notice",
  },
);
