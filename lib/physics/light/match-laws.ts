/** How alike LEDs from one bin are, and how warm they run, as formulas. */
import { formula } from "../../formula/formula";
import { ampere, celsius, K_per_W, one, percent, volt } from "../../units";

export const binRatio = formula("B = (1 + d)/(1 - d)", { d: one }, one, {
  meaning: "ratio of the upper to the lower edge of a bin that is stated as ±d",
  source: "definition",
  valid: { d: "0 to 0.9" },
});

export const binMatch = formula("P = N*min(1, ln(r)/ln(B))^(N - 1) - (N - 1)*min(1, ln(r)/ln(B))^N", { N: one, r: one, B: one }, percent, {
  meaning:
    "probability that N LEDs of one bin, its edges in the ratio B, are within the ratio r of one another; their intensities' logarithms spread evenly over the bin",
  source: "range of N even draws",
  valid: { N: "2 to 100", r: "1 to 10", B: "1.001 to 10" },
});

export const ledJunction = formula(
  "T_j = T_a + R_th*I*V_f*(1 - eta)",
  { T_a: celsius, R_th: K_per_W, I: ampere, V_f: volt, eta: one },
  celsius,
  {
    meaning:
      "temperature of an LED's junction in T_a, from its current and forward voltage; the share eta of the power leaves as light (0 is on the safe side, 0.1 to 0.4 is common)",
    source: "JEDEC JESD51-50 series: the optical power does not heat (from memory)",
    valid: { R_th: ">= 0 K/W", I: ">= 0 A", eta: "0 to 0.8" },
  },
);
