/** Procedures of yield and of fading cells, as models: what has no closed law. */
import { curveOutput, defineModel } from "../../graph/model";
import type { Rate } from "../../quantity/dimension-tables";
import { WorkingsError } from "../../quantity/error";
import type { Unit } from "../../units";
import { month, one, percent, ppm, unitOf, year } from "../../units";
import { binomialAtMost } from "../numerics/binomial";
import { fadeTime, shareLeft } from "./fade";

const perDay: Unit<Rate> = unitOf("1/d");
const points = 49;
const mostUnits = 1e6;
const share = (symbol: string) => ({ symbol, low: 0, high: 1, text: "0 to 1" });
const positive = (symbol: string) => ({ symbol, low: Number.MIN_VALUE, high: Infinity, text: "> 0" });
const binomial = "binomial distribution of independent faults";
const fading =
  "losses added as in Schmalstieg et al., Journal of Power Sources 257 (2014) 325 (from memory); battery.cycleLoss and battery.calendarLoss";
const fade = { f: perDay, L_N: one, N_0: one, z: one, L_t: one, t_0: month, x: one } as const;

/** How many of a batch are bad. */
export const faultyUnits = defineModel({
  name: "lifetime.faultyUnits",
  inputs: { n: one, p: ppm, k: one },
  outputs: { P: percent, mean: one },
  meaning: "probability P that no more than k of n units are faulty, each with the probability p; n and k are rounded to whole units",
  meanings: { P: "probability of no more than k faulty units", mean: "faulty units on average" },
  source: binomial,
  valid: [share("p"), { symbol: "n", low: 0, high: mostUnits, text: "0 to 1 million" }],
  evaluate: ({ n, p, k }) => ({ P: binomialAtMost(Math.round(k), Math.round(n), p), mean: Math.round(n) * p }),
});

/** How many must be started. */
export const unitsToStart = defineModel({
  name: "lifetime.unitsToStart",
  inputs: { N: one, Y: one, P: one },
  outputs: { n: one, spare: one },
  meaning: "least number n of units to start so that N or more are good with the probability P, each being good with the probability Y",
  meanings: { n: "units to start", spare: "units started beyond those wanted" },
  source: binomial,
  valid: [
    { symbol: "Y", low: 0.01, high: 1, text: "0.01 to 1" },
    share("P"),
    { symbol: "N", low: 0, high: mostUnits, text: "0 to 1 million" },
  ],
  evaluate: ({ N, Y, P }) => {
    const n = leastStarted(Math.ceil(N), Y, P);
    return { n, spare: n - Math.ceil(N) };
  },
});

/** When a cell has faded to the share that a warranty promises. */
export const timeToRetention = defineModel({
  name: "lifetime.timeToRetention",
  inputs: { ...fade, k: one },
  outputs: { t: year, N: one },
  meaning:
    "time t and full cycles N, at f full cycles a day, until a cell is down to the share k of its capacity, by its losses from cycles (L_N after N_0, exponent z) and from the calendar (L_t after t_0, x times faster)",
  meanings: { t: "time until the share is reached", N: "full cycles until then" },
  source: fading,
  valid: [share("k"), { symbol: "z", low: 0.5, high: 1.5, text: "0.5 to 1.5" }, positive("N_0"), positive("t_0")],
  evaluate: ({ k, ...cell }) => {
    const t = fadeTime(cell, k);
    return { t, N: cell.f * t };
  },
});

/** Share of the capacity against time, for a plot. */
export const fadeCurve = defineModel({
  name: "lifetime.fadeCurve",
  inputs: { ...fade, t_1: year },
  outputs: { k: curveOutput(year, percent) },
  meaning: "share of a cell's capacity that is left, from new to the age t_1: as `timeToRetention` has it",
  source: fading,
  valid: [{ symbol: "z", low: 0.5, high: 1.5, text: "0.5 to 1.5" }, positive("N_0"), positive("t_0"), positive("t_1")],
  evaluate: ({ t_1, ...cell }) => {
    // Closer together at the start, where the square root is steep
    const x = Float64Array.from({ length: points }, (_, i) => t_1 * (i / (points - 1)) * (i / (points - 1)));
    return { k: { x, y: x.map((t) => shareLeft(cell, t)) } };
  },
});

/** Least n with P(good ≥ N) ≥ P: from N/Y on by growing steps, then by halving. */
function leastStarted(N: number, Y: number, P: number): number {
  if (!(N >= 0 && N <= mostUnits && Y > 0 && Y <= 1 && P >= 0 && P < 1)) {
    throw new WorkingsError(
      "nominal-domain",
      `no number of units gives ${N} good ones with the probability ${P} at a yield of ${Y}; the yield must be above 0, the probability below 1, and the number at most a million`,
    );
  }
  // At least N of n are good where at most n − N are bad
  const enough = (n: number): boolean => binomialAtMost(n - N, n, 1 - Y) >= P;
  let [low, high] = [N - 1, Math.ceil(N / Y)];
  for (let step = Math.ceil(Math.sqrt(high) / 2) + 1; !enough(high); step *= 2) [low, high] = [high, high + step];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (enough(middle)) high = middle;
    else low = middle;
  }
  return high;
}
