/** Closed laws of noise in a rectangular band. The Boltzmann constant k_B is `reference.constants.k`. */
import { commonPractice, formula } from "../../formula/formula";
import { celsius, dB, hertz, J_per_K, kHz, nV_per_sqrtHz, ohm, pA_per_sqrtHz, uV } from "../../units";

const johnson = "J. B. Johnson and H. Nyquist, Phys. Rev. 32 (1928) (from memory)";
export const thermalNoise = formula("e = sqrt(4*k_B*T*R)", { k_B: J_per_K, T: celsius, R: ohm }, nV_per_sqrtHz, {
  meaning: "density of the thermal noise voltage of a resistor R at the temperature T",
  source: johnson,
  valid: { R: ">= 0 Ω", T: "200 K to 450 K" },
});

export const noiseVoltage = formula("V = e*sqrt(B)", { e: nV_per_sqrtHz, B: kHz }, uV, {
  meaning: "rms voltage of a noise of the even density e in the bandwidth B",
  source: "definition of a density",
  valid: { B: ">= 0 Hz" },
});

export const flickerNoise = formula(
  "V = e*sqrt(f_2 - f_1 + f_c*ln(f_2/f_1))",
  { e: nV_per_sqrtHz, f_1: hertz, f_2: hertz, f_c: hertz },
  uV,
  {
    meaning:
      "rms voltage from f_1 to f_2 of a noise whose squared density is e²·(1 + f_c/f): even above, 1/f below the corner f_c, where it is 3 dB up",
    source: "integral of the density; common practice",
    valid: { f_1: "1 mHz to 1 kHz", f_2: "2 kHz to 1 MHz", f_c: ">= 0 Hz" },
  },
);

export const inputNoise = formula(
  "e = sqrt(e_n^2 + i_n^2*(R_s^2 + R_p^2) + 4*k_B*T*(R_s + R_p))",
  { e_n: nV_per_sqrtHz, i_n: pA_per_sqrtHz, R_s: ohm, R_p: ohm, k_B: J_per_K, T: celsius },
  nV_per_sqrtHz,
  {
    meaning:
      "density of an operational amplifier's noise referred to its non-inverting input: its voltage noise e_n, its current noise i_n through R_s at that input and through R_p (R_f parallel to R_g) at the other, and the thermal noise of both",
    source: commonPractice,
    valid: { R_s: ">= 0 Ω", R_p: ">= 0 Ω", T: "200 K to 450 K" },
  },
);

export const outputNoiseVoltage = formula("V = e*G*sqrt(B)", { e: nV_per_sqrtHz, G: dB, B: kHz }, uV, {
  meaning: "rms noise at the output from the density e referred to the input, the noise gain G and the bandwidth B",
  source: commonPractice,
  valid: { G: ">= 1", B: ">= 0 Hz" },
});

export const noiseBandwidth = formula("B = pi*f_c/2", { f_c: kHz }, kHz, {
  meaning: "bandwidth of a rectangular band that passes as much white noise as a low-pass of first order with the corner f_c",
  source: "integral of 1/(1 + (f/f_c)²)",
  valid: { f_c: "> 0 Hz" },
});

export const densityForNoise = formula("e = V/(G*sqrt(B))", { V: uV, G: dB, B: kHz }, nV_per_sqrtHz, {
  meaning: "density at the input that leaves the rms noise V at the output: what all sources together may have",
  source: commonPractice,
  valid: { G: ">= 1", B: "> 0 Hz" },
});
