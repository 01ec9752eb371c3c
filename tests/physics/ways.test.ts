/**
 * The ways that models declare, tried: two places of a box that differ in one input, at random. Trying can refute a way and never
 * confirm one; the reason stands with the model (`waysBecause`).
 */
import { describe, expect, it } from "vitest";
import { Stream } from "../../lib/analysis/stream";
import type { CurveData } from "../../lib/graph/curve";
import { type AnyModel, curveArgument, type Extent, modelNamed } from "../../lib/graph/model";
import "../../lib/physics";
import { inFull } from "../full";

const seed = 20261130;
const count = inFull(300, 60);
/** Relative: what the last digits of a model may do. */
const rounding = 1e-11;

type Ranges = Readonly<Record<string, readonly [number, number] | CurveData>>;

interface Case {
  readonly model: string;
  /** SI. */
  readonly ranges: Ranges;
  /** By output, the inputs along which it rises and those along which it falls, as declared over all of the ranges. */
  readonly ways: Readonly<Record<string, string>>;
}

const curve = (rows: readonly (readonly [number, number])[], interpolation: CurveData["interpolation"] = "linear"): CurveData => ({
  x: Float64Array.from(rows, ([x]) => x),
  y: Float64Array.from(rows, ([, y]) => y),
  interpolation,
});
const diodeRows = [
  [2, 1e-5],
  [2.4, 4e-4],
  [2.7, 3e-3],
  [3, 0.012],
  [3.3, 0.03],
] as const;
const diode = curve(diodeRows, "log-y");
const straightDiode = curve([[0.5, 0], ...diodeRows]);
const relative = curve([
  [1e-3, 0.12],
  [5e-3, 0.5],
  [0.01, 1],
  [0.02, 1.7],
]);
const lit: Ranges = { I_v0: [0.1, 0.3], relative, alpha: [-0.008, -0.002], T: [305, 330], T_0: [295, 300] };
const ocv = curve([
  [0, 3],
  [0.1, 3.55],
  [0.5, 3.75],
  [0.8, 3.95],
  [1, 4.18],
]);
const cell: Ranges = { Q: [500, 3000], R: [0, 0.6], V_c: [2.9, 3.6], s_0: [0.6, 1], ocv };
const byTemperature = curve([
  [253, 0.6],
  [273, 0.82],
  [298, 1],
  [318, 1.02],
]);
const falling = curve([
  [253, 4],
  [273, 2.1],
  [298, 1],
  [318, 0.8],
]);
const efficiency = curve([
  [1e-3, 0.5],
  [5e-3, 0.69],
  [0.02, 0.77],
  [0.07, 0.78],
  [0.5, 0.74],
]);
const plate: Ranges = { F: [0, 80], a: [0.02, 0.09], b: [0.02, 0.09], u: [0, 0.019], v: [0, 0.019], D: [0.5, 5] };
const steps = curve([
  [30e6, 1e-4],
  [88e6, 1e-4],
  [88.000001e6, 1.5e-4],
  [230e6, 1.5e-4],
  [230.000001e6, 5e-5],
  [1e9, 5e-5],
]);
const lead: Ranges = {
  f_1: [30e6, 30e6],
  f_2: [1e9, 1e9],
  V: [3, 12],
  f_0: [5e5, 5e6],
  D: [0.1, 0.9],
  t_r: [2e-9, 2e-8],
  C: [1e-14, 1e-13],
  L: [0.3, 2],
  d: [3, 10],
  k: [1, 2],
};
const discharge: Ranges = {
  U: [2e3, 2e4],
  L_st: [0.2e-9, 1.5e-9],
  V_br: [5, 9],
  R_dyn: [0.05, 0.5],
  L: [0.2e-6, 1.5e-6],
  L_sat: [8e-9, 150e-9],
  I_sat: [0.1, 0.6],
  R_dc: [0, 0.5],
  R: [0, 12],
  V_rail: [0, 5],
  V_f: [0.5, 1],
  R_pin: [0.1, 1],
};
const drawn = "+Q −R −V_c +s_0";

const warm: Ranges = {
  a: [0.03, 0.1],
  b: [0.02, 0.06],
  H: [0.01, 0.03],
  r: [0, 0.004],
  k: [0.3, 1],
  P: [0.02, 1.5],
  T_a: [263, 318],
  epsilon: [0.05, 0.98],
};
const charged: Ranges = {
  I: [0.1, 0.5],
  V_cv: [4.1, 4.19],
  I_end: [0.01, 0.05],
  Q: [1000, 2000],
  R: [0.1, 0.8],
  R_d: [0, 0.8],
  tau: [60, 1200],
  s_0: [0, 0.9],
  ocv: curve([
    [0, 3],
    [0.1, 3.55],
    [0.5, 3.75],
    [0.8, 3.95],
    [1, 4.2],
  ]),
};
const cases: readonly Case[] = [
  {
    model: "enclosure.shell",
    ranges: { L: [0.08, 0.12], W: [0.05, 0.07], H: [0.016, 0.03], r: [0, 0.008], t: [5e-4, 0.006] },
    ways: { V: "+L +W +H −r +t", V_i: "+L +W +H −r −t", r_i: "+L +W +H +r −t" },
  },
  {
    model: "enclosure.padTravel",
    ranges: { F: [0, 20], k: [1e4, 1e5], t: [1e-3, 4e-3] },
    ways: { x_p: "+F −k +t", epsilon: "+F −k −t" },
  },
  { model: "enclosure.supportedPatchDeflection", ranges: plate, ways: { w: "+F +a +b −u −v −D" } },
  {
    model: "light.operatingPoint",
    ranges: { V_s: [1.5, 5], R: [60, 3000], dV: [-0.2, 0.2], diode },
    ways: { I: "+V_s −R −dV", V_f: "+V_s −R +dV" },
  },
  {
    model: "light.operatingPoint",
    ranges: { V_s: [0.2, 5], R: [80, 3000], dV: [-0.2, 0.2], diode: straightDiode },
    ways: { I: "+V_s −R −dV", V_f: "+V_s −R +dV" },
  },
  { model: "light.forwardOffset", ranges: { V_f: [2, 3.4], I: [1e-6, 0.03], diode }, ways: { dV: "+V_f −I" } },
  { model: "light.forwardVoltage", ranges: { I: [1e-6, 0.03], dV: [-0.2, 0.2], diode }, ways: { V_f: "+I +dV" } },
  { model: "light.intensity", ranges: { I: [0, 0.02], ...lit }, ways: { I_v: "+I +I_v0 +alpha −T +T_0" } },
  { model: "light.currentForIntensity", ranges: { I_v: [0, 0.3], ...lit }, ways: { I: "+I_v −I_v0 −alpha +T −T_0" } },
  { model: "battery.openCircuitVoltage", ranges: { s: [0, 1], ocv }, ways: { V_oc: "+s" } },
  {
    model: "battery.resistanceAtTemperature",
    ranges: { R_0: [0, 0.3], T: [253, 318], factor: falling },
    ways: { R: "+R_0 −T" },
  },
  {
    model: "battery.capacityAtTemperature",
    ranges: { Q: [500, 3000], T: [253, 318], factor: byTemperature },
    ways: { Q_T: "+Q +T" },
  },
  {
    model: "battery.constantPowerLoad",
    ranges: { V_oc: [2.5, 4.3], R: [0, 0.8], P: [0, 4] },
    ways: { I: "−V_oc +R +P", V_t: "+V_oc −R −P", P_loss: "−V_oc +R +P" },
  },
  {
    model: "battery.runtimeAtPower",
    ranges: { P: [0.05, 6], ...cell },
    ways: { t: `−P ${drawn}`, s_end: "+P +Q +R +V_c +s_0", Q_out: `−P ${drawn}`, E_load: `−P ${drawn}`, E_loss: "+Q −V_c +s_0" },
  },
  {
    model: "battery.runtimeAtCurrent",
    ranges: { I: [0.01, 2], ...cell },
    ways: { t: `−I ${drawn}`, s_end: "+I +Q +R +V_c +s_0", Q_out: `−I ${drawn}`, E_load: `−I ${drawn}`, E_loss: "+Q −V_c +s_0" },
  },
  {
    model: "battery.converterInput",
    ranges: {
      P_out: [1e-3, 0.07],
      k: [0.9, 1.1],
      efficiency: curve([
        [1e-3, 0.5],
        [5e-3, 0.69],
        [0.07, 0.78],
      ]),
    },
    ways: { P_in: "+P_out −k", eta: "+P_out +k" },
  },
  { model: "battery.converterInput", ranges: { P_out: [1e-3, 0.5], k: [0.9, 1.1], efficiency }, ways: { P_in: "+P_out −k", eta: "+k" } },
  { model: "battery.rectifiedMean", ranges: { C: [1, 9] }, ways: { k: "−C" } },
  { model: "esd.pinCurrent", ranges: discharge, ways: { I_pin: "+V_br +R_dyn −L −L_sat −I_sat −R_dc −R −V_rail −V_f −R_pin" } },
  {
    model: "thermal.boxSurface",
    ranges: { ...warm, h_c: [0, 0] },
    ways: { T_s: "+P −epsilon −k −a −b −H +r", R: "−P −epsilon −k −a −b −H +r", P_c: "+P −epsilon", P_r: "+P +epsilon" },
  },
  {
    model: "thermal.boxSurface",
    ranges: { ...warm, h_c: [1, 9] },
    ways: { T_s: "+P −epsilon −a −b −H +r", R: "−P −epsilon −a −b −H +r", P_c: "+P −epsilon", P_r: "+P +epsilon" },
  },
  {
    model: "thermal.twoLumps",
    ranges: { P: [0, 2], T_a: [270, 320], C_i: [5, 60], C_s: [5, 60], R_i: [0.5, 30], R_o: [5, 50], t: [0, 6000] },
    ways: { T_i: "+P +T_a +R_o +t", T_s: "+P +T_a +R_o +t" },
  },
  { model: "charging.chargeTime", ranges: charged, ways: { t: "−I_end", s_end: "−I_end" } },
  { model: "board.leadEmission", ranges: { ...lead, limit: steps }, ways: { M: "−V −f_0 −D +t_r −C −L +d −k" } },
];

type Place = Readonly<Record<string, number>>;
type Declared = Readonly<Record<string, Readonly<Record<string, 1 | -1 | undefined>>>>;

const isCurve = (range: readonly [number, number] | CurveData): range is CurveData => "x" in range;

function declared(model: AnyModel, ranges: Ranges): Declared {
  const over = Object.entries(ranges).map(([symbol, range]): [string, Extent | CurveData] => [
    symbol,
    isCurve(range) ? range : { low: range[0], high: range[1] },
  ]);
  return model.ways?.(Object.fromEntries(over)) ?? {};
}

function inWords(ways: Declared): Record<string, string> {
  const sign = (way: 1 | -1 | undefined) => (way === 1 ? "+" : "−");
  const known = Object.entries(ways).map(([output, along]) => {
    const parts = Object.entries(along).filter(([, way]) => way !== undefined);
    return [output, parts.map(([symbol, way]) => `${sign(way)}${symbol}`).join(" ")] as const;
  });
  return Object.fromEntries(known.filter(([, words]) => words !== ""));
}

/** Undefined where the model has no value. */
function valueAt(model: AnyModel, ranges: Ranges, place: Place): Readonly<Record<string, unknown>> | undefined {
  const args = Object.entries(ranges).map(([symbol, range]) => [symbol, isCurve(range) ? curveArgument(range) : (place[symbol] as number)]);
  try {
    return model.evaluate(Object.fromEntries(args));
  } catch {
    return undefined;
  }
}

/** What random places say against the ways, and how many pairs of places had values. */
function tried(
  model: AnyModel,
  ranges: Ranges,
  ways: Declared,
): { readonly refuted: string[]; readonly pairs: ReadonlyMap<string, number> } {
  const stream = new Stream(seed, model.name);
  let draw = 0;
  const between = ([low, high]: readonly [number, number]): number => low + (high - low) * stream.uniform(draw++);
  const numbers = Object.entries(ranges).flatMap(([symbol, range]) => (isCurve(range) ? [] : [[symbol, range] as const]));
  const refuted: string[] = [];
  const pairs = new Map<string, number>();
  for (let i = 0; i < count; i++) {
    const place = Object.fromEntries(numbers.map(([symbol, range]) => [symbol, between(range)]));
    const here = valueAt(model, ranges, place);
    for (const [symbol, range] of numbers) {
      const to = between([place[symbol] as number, range[1]]);
      const there = valueAt(model, ranges, { ...place, [symbol]: to });
      if (here === undefined || there === undefined) continue;
      pairs.set(symbol, (pairs.get(symbol) ?? 0) + 1);
      for (const [output, along] of Object.entries(ways)) {
        const [from, found, way] = [here[output] as number, there[output] as number, along[symbol]];
        if (way !== undefined && (found - from) * way < -rounding * Math.max(Math.abs(from), Math.abs(found)))
          refuted.push(`${output} along ${symbol} from ${JSON.stringify(place)} to ${to}: ${from}, then ${found}`);
      }
    }
  }
  return { refuted, pairs };
}

describe(`ways of models, ${count} places each, seed ${seed}`, () => {
  for (const { model: name, ranges, ways } of cases) {
    it(`${name} goes as it declares`, () => {
      const model = modelNamed(name);
      const found = declared(model, ranges);
      expect(inWords(found)).toEqual(ways);
      expect(model.waysBecause).toBeTruthy();
      const { refuted, pairs } = tried(model, ranges, found);
      expect(refuted).toEqual([]);
      for (const [symbol, range] of Object.entries(ranges))
        if (!isCurve(range)) expect(pairs.get(symbol) ?? 0, `pairs along ${symbol}`).toBeGreaterThan(count / 4);
    });
  }

  it("are refuted where they are false", () => {
    const { ranges } = cases.find(({ model }) => model === "battery.runtimeAtPower") as Case;
    const { refuted } = tried(modelNamed("battery.runtimeAtPower"), ranges, { E_loss: { P: 1 }, t: { R: 1 } });
    expect(refuted.some((line) => line.startsWith("E_loss along P"))).toBe(true);
    expect(refuted.some((line) => line.startsWith("t along R"))).toBe(true);
  });

  it("are not declared over tables, signs and loads that do not bear them out", () => {
    const none = (name: string, ranges: Ranges) => inWords(declared(modelNamed(name), ranges));
    expect(none("light.operatingPoint", { V_s: [3, 5], R: [50, 900], dV: [0, 0], diode: falling })).toEqual({});
    expect(none("light.intensity", { I: [0, 0.02], ...lit, alpha: [-0.01, 0.01], T: [290, 330] })).toEqual({ I_v: "+I +I_v0" });
    expect(none("enclosure.supportedPatchDeflection", { ...plate, F: [-1, 1] })).toEqual({ w: "+F" });
    const slope = curve([
      [30e6, 1e-4],
      [1e9, 5e-4],
    ]);
    expect(none("board.leadEmission", { ...lead, limit: slope })).toEqual({});
    expect(none("esd.pinCurrent", { ...discharge, L_sat: [8e-9, 3e-7] })).toEqual({});
    expect(none("esd.pinCurrent", { ...discharge, L_sat: [1e-9, 150e-9] })).toEqual({});
    const noLoss = curve([
      [0.01, 0.1],
      [0.1, 0.9],
      [0.2, 0.95],
    ]);
    expect(none("battery.converterInput", { P_out: [0.01, 0.2], k: [0.9, 1], efficiency: noLoss })).toEqual({
      P_in: "+P_out −k",
      eta: "+P_out +k",
    });
    const free = curve([
      [0.01, 0.1],
      [0.02, 0.9],
    ]);
    expect(none("battery.converterInput", { P_out: [0.01, 0.02], k: [0.9, 1], efficiency: free })).toEqual({
      P_in: "−k",
      eta: "+P_out +k",
    });
  });
});
