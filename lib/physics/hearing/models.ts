/**
 * Listening times, as models. Loud sound takes hearing away for good. For design and for wording cautions only: WHO-ITU H.870
 * and IEC 62368-1 clause 10.6 decide what a product limits and says; advice to persons is for physicians and audiologists.
 */
import { curveOutput, defineModel } from "../../graph/model";
import { exp, ln } from "../../quantity/elementary";
import { dB, dBA, hour, Pa2_h } from "../../units";

const caution = "below a criterion is not safe for everyone";
const day = 86400;
const week = 604800;
const points = 25;
const positive = (symbol: string) => ({ symbol, low: Number.MIN_VALUE, high: Infinity, text: "> 0" });

/** How long a level may last by the three kinds of criterion at once. */
export const listeningTimes = defineModel({
  name: "hearing.listeningTimes",
  inputs: { p: dBA, p_d: dBA, t_d: hour, q: dB, E_w: Pa2_h, E_s: Pa2_h },
  outputs: { t_day: hour, t_week: hour, t_sensitive: hour, t_mean: hour },
  meaning: `times for which the level p may last: a day by a criterion of t_d at p_d, halved for every q more (at most 24 h), and a week by the allowances E_w for adults and E_s for children and the sensitive (at most 168 h); ${caution}`,
  meanings: {
    t_day: "time a day by the daily criterion",
    t_week: "time a week by the allowance of adults",
    t_sensitive: "time a week by the allowance of children and the sensitive",
    t_mean: "a seventh of the adults' weekly time: what every day of a week may have",
  },
  source: "NIOSH Publication 98-126 or 29 CFR 1910.95; WHO-ITU H.870, modes 1 and 2",
  valid: [positive("p"), positive("p_d"), { symbol: "q", low: 1, high: Infinity, text: "> 0 dB" }],
  evaluate: ({ p, p_d, t_d, q, E_w, E_s }) => {
    const t_week = Math.min(week, E_w / (p * p));
    const t_day = Math.min(day, t_d * exp((-Math.LN2 * ln(p / p_d)) / ln(q)));
    return { t_day, t_week, t_sensitive: Math.min(week, E_s / (p * p)), t_mean: t_week / 7 };
  },
});

/** Allowed time against level, for a plot. */
export const allowanceCurve = defineModel({
  name: "hearing.allowanceCurve",
  inputs: { E: Pa2_h, p_1: dBA, p_2: dBA },
  outputs: { t: curveOutput(dBA, hour) },
  meaning: `time in which a level uses up the sound exposure E, against the level from p_1 to p_2; ${caution}`,
  source: "equal energy; WHO-ITU H.870: 1.6 Pa²·h a week",
  valid: [positive("E"), positive("p_1")],
  evaluate: ({ E, p_1, p_2 }) => {
    const x = Float64Array.from({ length: points }, (_, i) => (i === points - 1 ? p_2 : p_1 * exp((ln(p_2 / p_1) * i) / (points - 1))));
    return { t: { x, y: x.map((p) => E / (p * p)), interpolation: "log-log" } };
  },
});
