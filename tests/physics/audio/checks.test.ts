import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { evaluate } from "../../../lib/formula/evaluate";
import type { Expression } from "../../../lib/formula/expression";
import { audio } from "../../../lib/physics";
import { boltzmann } from "../../../lib/physics/constants";
import { unitOf } from "../../../lib/units";

interface Row {
  readonly id: string;
  readonly inputs: Readonly<Record<string, string>>;
  readonly expected: Readonly<Record<string, string>>;
  readonly tolerance_rel?: number;
  readonly tolerance_abs?: Readonly<Record<string, string>>;
  readonly source: string;
}

const rows: readonly Row[] = JSON.parse(readFileSync(new URL("../../checks/audio.json", import.meta.url), "utf8"));

/** Number and unit of "±2.5 V", "2.2 V peak", "32 ohm", "5 nV/√Hz"; levels as the numbers they are printed as. */
function split(text: string | undefined): readonly [number, string] {
  const [, number = "", unit = ""] = /^\s*±?\s*([-+\d.eE]+)\s*(.*)$/.exec(text ?? "") ?? [];
  return [
    Number(number),
    unit
      .replace(/ peak$/, "")
      .replace("ohm", "Ω")
      .replace(/^dB SPL\/(mW|V)$/, "dB/$1"),
  ];
}

/** SI value of "number unit". */
function si(text: string | undefined): number {
  const [number, unit] = split(text);
  return unitOf(unit || "1").toSI(number);
}

/** SI values of "32 ohm, 300 ohm", "20 .. 60 ohm" and "16, 24". */
function list(text: string | undefined): readonly number[] {
  const parts = (text ?? "").split(/,|\.\./);
  const [, unit] = split(parts.at(-1)?.trim());
  return parts.map((part) => (split(part)[1] === "" ? unitOf(unit || "1").toSI(split(part)[0]) : si(part)));
}

function law(formula: { readonly expression: Expression }, symbols: Readonly<Record<string, number>>): number {
  return evaluate(formula.expression, symbols);
}

const none = { f_h1: 0, f_h2: 0, f_h3: 0, f_l1: 0, f_l2: 0, f_l3: 0, f_h0: 0, Q_h: 1, f_l0: 0, Q_l: 1, f_p: 0, f_z: 0 };

type Outputs = Readonly<Record<string, number | string>>;

/** Each row computed with the library, by the names of its expected values. */
const computed: Readonly<Record<string, (inputs: Row["inputs"]) => Outputs>> = {
  "audio-01": ({ V_max, I_max, R }) => {
    const stage = { V_s: si(V_max), V_h: 0, R_s: 0, I_max: si(I_max), I_q: 0, P_max: si("1 kW") };
    const [a, b] = list(R).map((R_L) => audio.outputLimits.evaluate({ ...stage, R_L }));
    const word = (limit = 0): string => audio.outputLimitNames[limit - 1] ?? "";
    return { P_32: a?.P ?? 0, limit_32: word(a?.limit), P_300: b?.P ?? 0, limit_300: word(b?.limit) };
  },
  "audio-03": ({ Vcc, R }) => {
    const stage = { V_s: si(Vcc), I_q: 0, R_L: si(R) };
    return {
      P_d_max: law(audio.greatestSineHeat, stage),
      V_p: law(audio.hottestPeak, stage),
      eta_full: law(audio.sineEfficiency, { V_s: si(Vcc), V_p: si(Vcc) }),
    };
  },
  "audio-05": ({ Z, Ro_a, Z_range, Ro_b }) => {
    const [Z_1 = 0, Z_2 = 0] = list(Z_range);
    return {
      DF: law(audio.dampingFactor, { Z_L: si(Z), R_a: si(Ro_a), R_f: 0, R_t: 0, R_k: 0, R_c: 0 }),
      dL: law(audio.levelChange, { Z_1, Z_2, R_o: si(Ro_b) }),
    };
  },
  "audio-06": ({ R1, R2, Vp, f }) => {
    const G = law(audio.nonInvertingGain, { R_f: si(R2), R_g: si(R1) });
    return { G, G_dB: G, SR: law(audio.slewRate, { f: si(f), V_p: si(Vp) }) };
  },
  "audio-07": ({ S, Z, P }) => {
    const headphone = { S: si(S), Z: si(Z) };
    return {
      L_10mW: law(audio.pressureAtPower, { P: si(P), S: si(S) }),
      S_V: law(audio.sensitivityPerVolt, headphone),
      V_110: law(audio.voltageForPressure, { ...headphone, p: si("110 dB SPL") }),
    };
  },
  "audio-09": ({ R, T, B }) => {
    const e = law(audio.thermalNoise, { k_B: boltzmann, T: si(T), R: si(R) });
    return { e, V: law(audio.noiseVoltage, { e, B: si(B) }) };
  },
  "audio-10": ({ en, in: i_n, Rs, R1, R2, T, B }) => {
    const R_p = (si(R1) * si(R2)) / (si(R1) + si(R2));
    const e_in = law(audio.inputNoise, { e_n: si(en), i_n: si(i_n), R_s: si(Rs), R_p, k_B: boltzmann, T: si(T) });
    const G = law(audio.nonInvertingGain, { R_f: si(R2), R_g: si(R1) });
    return { e_in, V_out: law(audio.outputNoiseVoltage, { e: e_in, G, B: si(B) }) };
  },
  // The values of the table belong to the exact frequencies
  "audio-12": ({ f }) => {
    const nominal = (f ?? "").replace(" Hz", "").split(" ");
    const exact = (text: string): number => 1000 * 10 ** (Math.round(10 * Math.log10(Number(text) / 1000)) / 10);
    return Object.fromEntries(nominal.map((text) => [text, audio.weighting.evaluate({ f: exact(text) }).A]));
  },
  "audio-14": () => {
    const { B_A, L_A } = audio.weightedBandwidth.evaluate({ f_1: 20, f_2: 20e3 });
    return { B_A, dL: L_A };
  },
  "audio-16": ({ C, R, f }) => {
    const fc = law(audio.highPassCorner, { R_s: 0, R_i: si(R), C: si(C) });
    const at = { f_c: fc, f: si(f) };
    return { fc, level: law(audio.highPassLevel, at), phase: law(audio.highPassPhase, at) };
  },
  "audio-17": ({ f_h, f_l }) => {
    const phase = (f: number): number => audio.response.evaluate({ ...none, f, f_h1: si(f_h), f_l1: si(f_l) }).phi;
    return { phase_20: phase(20), phase_20k: phase(20e3) };
  },
  "audio-18": ({ fc, f }) => {
    const delay_dc = law(audio.lowPassDelay, { f_c: si(fc) });
    return { delay_dc, dev: law(audio.lowPassDeviation, { f: si(f), f_c: si(fc) }) };
  },
  "audio-20": ({ RL, Rg }) => {
    const pair = { R_g: si(Rg), R_L: si(RL) };
    return { X: law(audio.sharedReturnCrosstalk, { ...pair, R_o: 0 }), X_approx: law(audio.sharedReturnEstimate, pair) };
  },
  "audio-22": ({ N, L }) => {
    const [a = 0, b = 0] = list(N);
    const [k_1 = 0, k_2 = 0] = list(L);
    return {
      SNR_16: law(audio.quantisationRatio, { N: a }),
      SNR_24: law(audio.quantisationRatio, { N: b }),
      L_sum: law(audio.ratioSum, { k_1, k_2 }),
    };
  },
};

/** Levels are compared in decibels, everything else in SI; a word must be the same. */
function compared(row: Row, name: string, text: string, got: number | string) {
  if (/^[a-z]/.test(text)) return { title: `expected ${text}, got ${got}`, error: got === text ? 0 : 1, tolerance: 0 };
  const [number, unit] = split(text);
  const level = unit.startsWith("dB");
  const value = level ? unitOf(unit).fromSI(Number(got)) : Number(got);
  const expected = level ? number : si(text);
  const absolute = row.tolerance_abs?.[name];
  const tolerance = absolute === undefined ? (row.tolerance_rel ?? 0) * Math.abs(expected) : split(absolute)[0];
  const in_ = level ? unit : "SI";
  const title = `expected ${text} = ${Number(expected.toPrecision(7))} ${in_}, got ${Number(value.toPrecision(7))} ${in_}, within ${Number(tolerance.toPrecision(2))}`;
  return { title, error: Math.abs(value - expected), tolerance };
}

const lines = rows.flatMap((row) => {
  const outputs = computed[row.id]?.(row.inputs) ?? {};
  return Object.entries(row.expected).map(([name, text]) => {
    const { title, ...rest } = compared(row, name, text, outputs[name] ?? Number.NaN);
    return { title: `${row.id} ${name}: ${title}; ${row.source}`, ...rest };
  });
});

describe("published and independently computed values of audio amplifiers", () => {
  for (const { title, error, tolerance } of lines) {
    it(title, () => {
      expect(error).toBeLessThanOrEqual(tolerance);
    });
  }

  it("leave no row uncomputed", () => {
    expect(rows.map(({ id }) => id).filter((id) => !(id in computed))).toEqual([]);
    expect(lines.length).toBe(43);
  });
});
