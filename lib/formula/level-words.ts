/**
 * Levels in formulas. A symbol stated in a unit of decibels (dB, dBm, dB SPL) counts as the quantity itself, 20 dB as 10 or 100:
 * decibels that add are levels that multiply. What is left is arithmetic in decibels by habit, which would give a wrong number
 * without a word: a sum of two levels, of a level and a logarithm, or of a level and a number of decibels. A number of levels
 * (`2*L`, `n*L`, `-L`) is still a level in this sense; a product or quotient with another quantity is arithmetic with ratios and goes, as in
 * `F_1 + (F_2 - 1)/G_1` (H. T. Friis, Proc. IRE 32, 1944) or `N*G + N_a`. So does 1 beside a level: `F - 1` means the ratio.
 */

/** The ends of the sentences that refuse it, for the compiler and the run time. */
export const levelWords = {
  add: {
    level:
      "both levels: decibels add where levels multiply, as in A*B; powersum(A, B) adds powers, and ratios themselves add when taken in a linear unit",
    log: "a level and a logarithm: a level counts as its ratio; leave the logarithm out, as in L = L_0*(d/d_0)^n*X",
    number: "a level and a number: a level counts as its ratio; multiply it by a given in dB",
  },
  subtract: {
    level: "both levels: decibels subtract where levels divide, as in A/B; ratios themselves subtract when taken in a linear unit",
    log: "a level and a logarithm: a level counts as its ratio; leave the logarithm out, as in L = L_0/(d/d_0)^n",
    number: "a level and a number: a level counts as its ratio; divide it by a given in dB",
  },
  compare: {
    log: "a level and a logarithm: a level counts as its ratio; leave the logarithm out",
    number: "a level and a number: a level counts as its ratio; compare it with a given in dB",
  },
  exponent: "a level, which counts as its ratio already; write the level in place of the power",
  result: "a logarithm; a result in decibels is the ratio itself; leave the logarithm out, as in U_2/U_1",
} as const;

export type LevelWords = typeof levelWords;
