/**
 * What an amplifier makes of a telephone's time-division bursts, as formulas. A carrier far above the amplifier's band
 * moves the operating point of its input junctions by their curvature: to second order the input offset moves by a
 * voltage proportional to the carrier's amplitude squared. A carrier sent in one slot of eight so becomes a rectangular
 * wave at the frame rate, 217 Hz and its harmonics, in the audio band.
 *
 * Assumed: the carrier at the input is small against the curvature (V_x, about 26 mV for a bipolar junction); it enters
 * one junction that no second one compensates, or as the rejection was measured; the burst is rectangular, alone, and
 * all of its spectrum lies in the amplifier's band. An estimate good to perhaps 10 dB: layout decides.
 */
import { commonPractice, formula } from "../../formula/formula";
import { dB, hertz, ms, mV, one, uV, volt } from "../../units";

const frame = "3GPP TS 45.002: frame of 60/13 ms, eight slots (from memory)";
const spectrum = "Fourier series of a rectangular wave";

export const frameRate = formula("f_b = 1/T_b", { T_b: ms }, hertz, {
  meaning: "repetition rate of bursts from the time T_b of a frame: 60/13 ms makes 216.7 Hz",
  source: frame,
  valid: { T_b: "> 0 s" },
});

export const squareLawOffset = formula("dV = V_a^2/(4*V_x)", { V_a: mV, V_x: mV }, uV, {
  meaning:
    "shift of the input offset by a carrier of amplitude V_a at a junction of curvature V_x: the thermal voltage n·k·T/q of a bipolar transistor, the overdrive of a square-law field-effect transistor",
  source: "second-order term of the junction's exponential, or square, law",
  valid: { V_a: "0 mV to 26 mV", V_x: "> 0 V" },
});

export const rejectedOffset = formula("dV = V_a^2/(V_0*EMIRR)", { V_a: mV, V_0: mV, EMIRR: dB }, uV, {
  meaning:
    "shift of the input offset by a carrier of amplitude V_a, from the interference rejection ratio EMIRR that data sheets state for the amplitude V_0 of 100 mV",
  source: "definition of EMIRR on data sheets: 20·lg(V_a/dV) + 20·lg(V_a/100 mV) (from memory)",
  valid: { V_a: "0 mV to 200 mV", V_0: "> 0 V", EMIRR: "> 0" },
});

export const burstTone = formula("V_1 = sqrt(2)*dV*G*sin(pi*D)/pi", { dV: uV, G: dB, D: one }, uV, {
  meaning:
    "rms value at the output of the tone at the frame rate that an offset dV, present for the share D of the time, makes at the gain G",
  source: spectrum,
  valid: { D: "0 to 1" },
});

export const burstResidue = formula("V_b = dV*G*sqrt(D*(1 - D))", { dV: uV, G: dB, D: one }, uV, {
  meaning: "rms value at the output of all that an offset dV, present for the share D of the time, makes at the gain G, its mean left out",
  source: spectrum,
  valid: { D: "0 to 1" },
});

export const burstShare = formula("r = V_b/V", { V_b: uV, V: volt }, dB, {
  meaning: "rectified burst against a wanted signal V, as a ratio of rms values",
  source: commonPractice,
  valid: { V: "> 0 V" },
});
