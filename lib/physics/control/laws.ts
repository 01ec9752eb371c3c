/** Closed laws of power states and of storage on the shelf, as formulas. */
import { commonPractice, formula } from "../../formula/formula";
import { ampere, mAh, month, mV, ohm, one, percent_per_month, uA, volt } from "../../units";

const linear =
  "balance of charge; self-discharge as data sheets state it, a steady share of the full capacity: on the safe side, because it slows down as the cell empties";

export const restShare = formula("d_0 = 1 - d_1 - d_2 - d_3", { d_1: one, d_2: one, d_3: one }, one, {
  meaning: "share of the time that is left for the last state beside three others",
  source: "definition",
  valid: { d_1: "0 to 1", d_2: "0 to 1", d_3: "0 to 1" },
});

export const meanCurrent = formula(
  "I_m = d_0*I_0 + d_1*I_1 + d_2*I_2 + d_3*I_3",
  { d_0: one, I_0: ampere, d_1: one, I_1: ampere, d_2: one, I_2: ampere, d_3: one, I_3: ampere },
  ampere,
  {
    meaning:
      "mean current of four states by their shares of the time; let d_0 be `restShare`, which stays above zero only while the shares are no more than the whole",
    source: commonPractice,
    valid: { d_0: "0 to 1", d_1: "0 to 1", d_2: "0 to 1", d_3: "0 to 1" },
  },
);

export const shelfLife = formula("t = Q*(s_0 - s_e)/(I + k*Q)", { Q: mAh, s_0: one, s_e: one, I: uA, k: percent_per_month }, month, {
  meaning:
    "time on the shelf from the state of charge s_0 down to s_e: the current I of the product switched off, and the share k of the full capacity Q that the cell loses by itself in a given time",
  source: linear,
  valid: { Q: "> 0 mAh", s_0: "0 to 1", s_e: "0 to 1", I: ">= 0 A", k: ">= 0 %/month" },
});

export const shelfLifeByShare = formula(
  "t = ln((I + k*Q*s_0)/(I + k*Q*s_e))/k",
  { Q: mAh, s_0: one, s_e: one, I: uA, k: percent_per_month },
  month,
  {
    meaning:
      "time on the shelf from the state of charge s_0 down to s_e where self-discharge is the share k of the charge still in the cell: longer than `shelfLife`; the truth lies between the two",
    source: "balance of charge; exponential self-discharge",
    valid: { Q: "> 0 mAh", s_0: "0 to 1", s_e: "0 to 1", I: "> 0 A", k: "> 0 %/month" },
  },
);

export const chargeAfterStorage = formula(
  "Q_l = Q*(s_0 - s_e - k*t) - I*t",
  { Q: mAh, s_0: one, s_e: one, k: percent_per_month, t: month, I: uA },
  mAh,
  {
    meaning: "charge left above the state of charge s_e after the time t on the shelf; below zero where the cell went past it",
    source: linear,
    valid: { Q: "> 0 mAh", s_0: "0 to 1", s_e: "0 to 1", k: ">= 0 %/month", t: ">= 0 month", I: ">= 0 A" },
  },
);

export const allowedOffCurrent = formula("I = Q*((s_0 - s_e)/t - k)", { Q: mAh, s_0: one, s_e: one, t: month, k: percent_per_month }, uA, {
  meaning:
    "current of the product switched off with which it lasts the time t on the shelf; below zero where self-discharge alone is too much",
  source: linear,
  valid: { Q: "> 0 mAh", s_0: "0 to 1", s_e: "0 to 1", t: "> 0 month", k: ">= 0 %/month" },
});

export const shippingCharge = formula("s_0 = s_e + (I/Q + k)*t", { s_e: one, I: uA, Q: mAh, k: percent_per_month, t: month }, one, {
  meaning:
    "state of charge at which a product must leave to be at s_e after the time t on the shelf; transport by air often allows 30 % only",
  source: linear,
  valid: { Q: "> 0 mAh", s_e: "0 to 1", t: ">= 0 month", I: ">= 0 A", k: ">= 0 %/month" },
});

export const dividerDrain = formula("I = V/(R_1 + R_2)", { V: volt, R_1: ohm, R_2: ohm }, uA, {
  meaning: "current of a divider that watches the voltage V: part of the current of the product switched off, unless a switch opens it",
  source: "Ohm's law",
  valid: { R_1: "> 0 Ω", R_2: "> 0 Ω" },
});

export const hysteresisMargin = formula("M = V_h - (I_1 - I_0)*R", { V_h: volt, I_1: ampere, I_0: ampere, R: ohm }, mV, {
  meaning:
    "what the hysteresis V_h leaves over when the load falls from I_1 to I_0 and the cell's voltage springs back by its resistance R, diffusion included: below zero, the light or the supply it switches chatters",
  source: commonPractice,
  valid: { V_h: ">= 0 V", R: ">= 0 Ω" },
});
