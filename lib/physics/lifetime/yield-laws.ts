/**
 * Yield and what it costs, as formulas. Faults are taken as independent; where they come in clusters the yield is higher
 * than these laws say. Costs are numbers in one currency, whatever it is.
 */
import { commonPractice, formula } from "../../formula/formula";
import { one, percent, ppm } from "../../units";

const poisson = "Poisson distribution of independent faults";

export const faultsPerUnit = formula("D = n*p", { n: one, p: ppm }, one, {
  meaning: "mean number of faults of a unit with n chances for one (joints, parts, settings), each with the probability p",
  source: commonPractice,
  valid: { n: ">= 0", p: "0 ppm to 1e6 ppm" },
});

export const poissonYield = formula("Y = exp(-D)", { D: one }, percent, {
  meaning: "share of units without a fault where a unit has D faults on average",
  source: poisson,
  valid: { D: ">= 0" },
});

export const binomialYield = formula("Y = (1 - p)^n", { p: ppm, n: one }, percent, {
  meaning: "share of units without a fault where each has n chances for one of the probability p",
  source: "binomial distribution of independent faults",
  valid: { p: "0 ppm to 1e6 ppm", n: ">= 0" },
});

export const faultsOfYield = formula("D = -ln(Y)", { Y: one }, one, {
  meaning: "mean number of faults of a unit, from the share Y of units without one",
  source: poisson,
  valid: { Y: "0.001 to 1" },
});

export const throughYield = formula("Y = Y_1*Y_2*Y_3*Y_4", { Y_1: one, Y_2: one, Y_3: one, Y_4: one }, percent, {
  meaning: "share of units that pass four steps the first time, none of them mended on the way; 1 for a step that is not there",
  source: "product of independent steps",
  valid: { Y_1: "0 to 1", Y_2: "0 to 1", Y_3: "0 to 1", Y_4: "0 to 1" },
});

export const mendedYield = formula("Y_m = Y + (1 - Y)*r", { Y: one, r: one }, percent, {
  meaning: "share of units that are good in the end, where the share r of those that fail at first can be mended",
  source: commonPractice,
  valid: { Y: "0 to 1", r: "0 to 1" },
});

export const escapes = formula("E = 1 - Y^(1 - T)", { Y: one, T: one }, ppm, {
  meaning: "share of units delivered with a fault, by the yield Y before a test that finds the share T of the faults",
  source: "T. W. Williams, N. C. Brown, IEEE Transactions on Computers C-30 (1981) 987 (from memory)",
  valid: { Y: "0 to 1", T: "0 to 1" },
});

export const goodUnitCost = formula("c = (c_u - (1 - Y)*s)/Y", { c_u: one, Y: one, s: one }, one, {
  meaning: "cost of a good unit where a unit costs c_u up to the test that the share Y passes, and one that fails still brings s",
  source: commonPractice,
  valid: { c_u: ">= 0", Y: "0 to 1", s: ">= 0" },
});

export const goodUnitCostBySteps = formula(
  "c = ((c_1/Y_1 + c_2)/Y_2 + c_3)/Y_3",
  { c_1: one, Y_1: one, c_2: one, Y_2: one, c_3: one, Y_3: one },
  one,
  {
    meaning:
      "cost of a good unit through three steps, each adding its parts and work c and passing the share Y: what fails takes with it all that was put in so far, so early tests are cheap",
    source: "balance of cost over the units that pass",
    valid: { c_1: ">= 0", Y_1: "0 to 1", c_2: ">= 0", Y_2: "0 to 1", c_3: ">= 0", Y_3: "0 to 1" },
  },
);

export const mendedUnitCost = formula("c = (c_u + (1 - Y)*c_r)/(Y + (1 - Y)*r)", { c_u: one, Y: one, c_r: one, r: one }, one, {
  meaning: "cost of a good unit where each of those that fail is worked on for c_r, and the share r of them becomes good",
  source: commonPractice,
  valid: { c_u: ">= 0", Y: "0 to 1", c_r: ">= 0", r: "0 to 1" },
});

export const withTooling = formula("c = c_v + F/n", { c_v: one, F: one, n: one }, one, {
  meaning: "cost of a unit with its share of what is paid once, F (tools, approvals), over n units",
  source: commonPractice,
  valid: { n: "> 0" },
});
