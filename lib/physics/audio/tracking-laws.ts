/**
 * A volume control of two tracks on one shaft, as formulas: how far its channels are apart. A data sheet states the
 * ganging error as a level at stated places, or as a share e of the travel by which the wipers of linear tracks may
 * differ; x is the place of the wiper, 0 to 1 of the track.
 */
import { formula } from "../../formula/formula";
import { dB, kohm, one, percent } from "../../units";

const divider = "voltage divider, loaded by the next stage";

export const trackGain = formula("G = x*R_L/(R_L + x*(1 - x)*R_p)", { x: one, R_L: kohm, R_p: kohm }, dB, {
  meaning: "gain from the ends of a track of R_p to its wiper at x, loaded by R_L",
  source: divider,
  valid: { x: "0 to 1", R_L: "> 0 Ω", R_p: ">= 0 Ω" },
});

export const trackingError = formula(
  "k = x_1*(R_L + x_2*(1 - x_2)*R_2)/(x_2*(R_L + x_1*(1 - x_1)*R_1))",
  { x_1: one, x_2: one, R_1: kohm, R_2: kohm, R_L: kohm },
  dB,
  {
    meaning:
      "gain of one track over that of the other: wipers at x_1 and x_2, tracks of R_1 and R_2, both loaded by R_L. What the tracks differ by in resistance counts only through the load",
    source: divider,
    valid: { x_1: "0 to 1", x_2: "0 to 1", R_1: ">= 0 Ω", R_2: ">= 0 Ω", R_L: "> 0 Ω" },
    holds: "x_2 above 0",
  },
);

export const greatestTracking = formula("k = (x + e/2)/(x - e/2)", { x: one, e: percent }, dB, {
  meaning:
    "greatest difference in gain of two lightly loaded linear tracks whose wipers stand at x, at most e of the travel apart: it grows without end towards the low end",
  source: divider,
  valid: { x: "0 to 1", e: "0 to 0.2" },
  holds: "x above e/2; below, one channel may be silent",
});

export const leastTrackPosition = formula("x = e/2*(k + 1)/(k - 1)", { e: percent, k: dB }, one, {
  meaning: "lowest place of the wipers at which two linear tracks stay within k of each other: `greatestTracking` turned round",
  source: divider,
  valid: { e: "0 to 0.2", k: "> 1" },
});
