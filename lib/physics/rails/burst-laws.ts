/**
 * A converter at light load sends packets of charge: single pulses of a fixed peak current (skipping), or runs of
 * pulses between two thresholds of the output (burst). How often depends on the load alone, so at some load it is heard.
 * And charge pumps, after M. D. Seeman and S. R. Sanders, IEEE Trans. Power Electronics 23 (2008) 841.
 */
import { commonPractice, formula } from "../../formula/formula";
import { ampere, farad, henry, hertz, kHz, mA, mV, ohm, one, uC, volt } from "../../units";

const pump = "M. D. Seeman and S. R. Sanders, IEEE Trans. Power Electronics 23 (2008) 841; exact for two equal phases and stiff ends";

export const boostPacket = formula("q = L*I_p^2/(2*(V_out - V_in))", { L: henry, I_p: ampere, V_in: volt, V_out: volt }, uC, {
  meaning: "charge that one pulse of the peak current I_p brings to the output of a boost converter, without losses",
  source: "energy balance of one pulse",
  valid: { L: "> 0 H" },
});

export const invertingPacket = formula("q = L*I_p^2/(2*V_out)", { L: henry, I_p: ampere, V_out: volt }, uC, {
  meaning: "charge that one pulse of the peak current I_p brings to the output of an inverting converter, without losses",
  source: "energy balance of one pulse",
  valid: { L: "> 0 H", V_out: "> 0 V" },
});

export const buckPacket = formula("q = L*I_p^2*V_in/(2*V_out*(V_in - V_out))", { L: henry, I_p: ampere, V_in: volt, V_out: volt }, uC, {
  meaning: "charge that one pulse of the peak current I_p brings to the output of a buck converter, without losses",
  source: "energy balance of one pulse",
  valid: { L: "> 0 H", V_out: "> 0 V" },
});

export const skipFrequency = formula("f_b = I_out/q", { I_out: ampere, q: uC }, kHz, {
  meaning: "how often a skipping converter sends its packet of charge q; it holds below the fixed frequency of the converter",
  source: "charge balance",
  valid: { I_out: ">= 0 A", q: "> 0 C" },
});

export const loadAtSkipFrequency = formula("I_out = f_b*q", { f_b: hertz, q: uC }, mA, {
  meaning: "load at which the packets of charge q come at f_b: below it, with f_b = 20 kHz, they come in the audio band",
  source: "charge balance",
  valid: { f_b: ">= 0 Hz" },
});

export const packetRipple = formula("dV = q/C", { q: uC, C: farad }, mV, {
  meaning: "step of the output by one packet of charge q on the capacitance C, then falling until the next: a sawtooth",
  source: commonPractice,
  valid: { C: "> 0 F" },
});

export const burstFrequency = formula("f_b = I_out*(1 - I_out/I_b)/(C*dV)", { I_out: ampere, I_b: ampere, C: farad, dV: volt }, kHz, {
  meaning:
    "how often a hysteretic converter starts a run of pulses: it feeds I_b into the output during a run, the output moves by dV between two thresholds; highest, I_b/(4·C·dV), at half of I_b",
  source: "charge balance",
  valid: { I_b: "> 0 A", C: "> 0 F", dV: "> 0 V" },
});

export const sawtoothHarmonic = formula("V_n = dV/(sqrt(2)*pi*n)", { dV: volt, n: one }, mV, {
  meaning: "rms value of the nth harmonic of a sawtooth of the peak-to-peak value dV",
  source: "Fourier series of a sawtooth",
  valid: { n: ">= 1" },
});

export const beatFrequency = formula("f = abs(f_1 - f_2)", { f_1: hertz, f_2: hertz }, kHz, {
  meaning: "difference of two converters' frequencies, at which their ripple swells and fades; in the audio band it can be heard",
  source: commonPractice,
  valid: { f_1: "> 0", f_2: "> 0" },
});

export const pumpResistance = formula("R_o = 1/(f*C*tanh(1/(8*f*R_on*C)))", { f: hertz, C: farad, R_on: ohm }, ohm, {
  meaning:
    "output resistance of a charge pump (inverter or doubler) of one flying capacitor C and four switches of R_on each: 1/(f·C) at low frequency, 8·R_on at high",
  source: pump,
  valid: { f: "> 0 Hz", C: "> 0 F", R_on: "> 0 Ω" },
});

export const pumpVoltage = formula("V_out = n*V_in - I_out*R_o", { n: one, V_in: volt, I_out: ampere, R_o: ohm }, volt, {
  meaning: "output of a charge pump of the ratio n (1 for an inverter, as a magnitude; 2 for a doubler)",
  source: pump,
  valid: { n: "> 0" },
});

export const pumpEfficiency = formula(
  "eta = I_out*(n*V_in - I_out*R_o)/(V_in*(n*I_out + I_q))",
  { I_out: ampere, n: one, V_in: volt, R_o: ohm, I_q: ampere },
  one,
  {
    meaning: "efficiency of a charge pump of the ratio n with the output resistance R_o and the quiescent current I_q",
    source: pump,
    valid: { I_out: "> 0 A", V_in: "> 0 V" },
  },
);

export const pumpRipple = formula("dV = I_out/(2*f*C_o) + 2*I_out*ESR", { I_out: ampere, f: hertz, C_o: farad, ESR: ohm }, mV, {
  meaning:
    "peak-to-peak ripple at the output capacitor C_o of an inverting charge pump, which carries the load alone for half of each period",
  source: commonPractice,
  valid: { f: "> 0 Hz", C_o: "> 0 F" },
});
