import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readReferences } from "../../lib/design/reference";
import { evaluate } from "../../lib/formula/evaluate";
import type { Expression } from "../../lib/formula/expression";
import type { GivenNode } from "../../lib/graph/node";
import { esd } from "../../lib/physics";
import { normalising } from "../../lib/physics/esd-waveform";
import { unitOf } from "../../lib/units";

interface Row {
  readonly id: string;
  readonly inputs: Readonly<Record<string, string>>;
  readonly expected: Readonly<Record<string, string>>;
  readonly tolerance_rel: number;
  readonly source: string;
}

const read = (path: string): string => readFileSync(new URL(path, import.meta.url), "utf8");
const rows: readonly Row[] = JSON.parse(read("../checks/esd.json"));
const levels = readReferences({ "esd.yaml": read("../../data/reference/esd.yaml") });

/** SI value of "number unit". */
function si(text: string | undefined): number {
  const [, number = "", unit = ""] = /^\s*([-+\d.eE]+)\s*(.*)$/.exec((text ?? "").replace("ohm", "Ω")) ?? [];
  return unitOf(unit || "1").toSI(Number(number));
}

interface Law {
  readonly expression: Expression;
  readonly numerical?: {
    readonly arguments: Readonly<Record<string, { readonly factor: number }>>;
    readonly result: { readonly factor: number };
  };
}

/** A law of SI values; a numerical value equation through the factors of its units. */
function law({ expression, numerical }: Law, symbols: Readonly<Record<string, number>>): number {
  if (numerical === undefined) return evaluate(expression, symbols);
  const numbers = Object.entries(symbols).map(([symbol, value]) => [symbol, value / (numerical.arguments[symbol]?.factor ?? Number.NaN)]);
  return evaluate(expression, Object.fromEntries(numbers)) * numerical.result.factor;
}

const stated = (name: string): number => (levels.nodes.get(`reference.esd.${name}`) as GivenNode).nominal;
const [breakdown, dynamic] = [/([\d.]+ V)/, /([\d.]+ ohm)/].map((form) => (text: string | undefined) => si(form.exec(text ?? "")?.[1])) as [
  (text: string | undefined) => number,
  (text: string | undefined) => number,
];

type Outputs = Readonly<Record<string, number>>;

/** Each row computed with the library, by the names of its expected values. */
const computed: Readonly<Record<string, (inputs: Row["inputs"], expected: Row["expected"]) => Outputs>> = {
  "esd-01": (_, expected) => {
    const laws = { Ip: esd.firstPeak, I30: esd.currentAt30ns, I60: esd.currentAt60ns };
    const names = Object.keys(expected).map((name) => name.split("_") as [keyof typeof laws, string]);
    return Object.fromEntries(names.map(([which, U]) => [`${which}_${U}`, law(laws[which], { U: si(U.replace("kV", " kV")) })]));
  },
  "esd-02": () => ({
    Ip_tol: stated("first-peak-tolerance"),
    I30_tol: stated("current-30ns-tolerance"),
    I60_tol: stated("current-60ns-tolerance"),
    t_r: stated("rise-time"),
    t_r_tol: stated("rise-time-tolerance"),
  }),
  "esd-04": ({ U, t1, t2, t3, t4 }) => {
    const { I_p, t_p } = esd.pulse.evaluate({ U: si(U) });
    const at = (t: number): number => esd.pulseCurrent.evaluate({ U: si(U), t }).i;
    return { k1: normalising(si(t1), si(t2)), k2: normalising(si(t3), si(t4)), I_peak: I_p, t_peak: t_p, i_30: at(30e-9), i_60: at(60e-9) };
  },
  "esd-06": ({ C, R, U }) => ({
    E: law(esd.storedEnergy, { C: si(C), U: si(U) }),
    Q: law(esd.storedCharge, { C: si(C), U: si(U) }),
    I_RC: law(esd.bodyPeak, { U: si(U), R: si(R) }),
    tau: law(esd.bodyTime, { R: si(R), C: si(C) }),
  }),
  "esd-08": ({ Vbr, Rdyn }) => {
    const V = (I: number): number => law(esd.residualVoltage, { V_br: si(Vbr), R_dyn: si(Rdyn), I });
    return { V_16: V(16), V_30: V(30) };
  },
  "esd-10": ({ C1, U }) => {
    const V = (C_2: number): number => law(esd.sharedVoltage, { U: si(U), C_1: si(C1), C_2 });
    return { V_100n: V(100e-9), V_10n: V(10e-9) };
  },
  "esd-11": ({ C0, U, Rg, clamp1, Rs, clamp2, C_pin }) => {
    const choke = { L: 0, L_sat: 0, I_sat: Infinity, R_dc: 0, R_p: Infinity };
    const board = { L_st: 0, V_br: breakdown(clamp1), R_dyn: dynamic(clamp1), C_cl: 0 };
    const pin = { C_pin: si(C_pin), V_rail: breakdown(clamp2), V_f: 0, R_pin: dynamic(clamp2) };
    const source = { U: si(U), C_0: si(C0), R_0: si(Rg), L_0: 0 };
    const struck = esd.bodyDischarge.evaluate({ ...source, ...board, ...choke, R: si(Rs), ...pin });
    return { V_clamp1: struck.V_j, V_pin: struck.V_pin, I_pin: struck.I_pin, E_pin: struck.E_pin };
  },
};

const lines = rows.flatMap((row) => {
  const outputs = computed[row.id]?.(row.inputs, row.expected) ?? {};
  return Object.entries(row.expected).map(([name, text]) => {
    const expected = si(text);
    const tolerance = row.tolerance_rel * Math.abs(expected);
    const got = outputs[name] ?? Number.NaN;
    const title = `${row.id} ${name}: expected ${text} = ${Number(expected.toPrecision(7))} (SI), got ${Number(got.toPrecision(7))} (SI), within ${Number(tolerance.toPrecision(2))}; ${row.source}`;
    return { title, expected, got, tolerance };
  });
});

describe("published and independently computed values of discharges", () => {
  for (const { title, expected, got, tolerance } of lines) {
    it(title, () => {
      expect(Math.abs(got - expected)).toBeLessThanOrEqual(tolerance);
    });
  }

  it("leave no row uncomputed", () => {
    expect(rows.map(({ id }) => id).filter((id) => !(id in computed))).toEqual([]);
    expect(lines.length).toBe(35);
  });
});
