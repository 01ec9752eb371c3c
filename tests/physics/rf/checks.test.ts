import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readReferences } from "../../../lib/design/reference";
import { evaluate } from "../../../lib/formula/evaluate";
import type { Expression } from "../../../lib/formula/expression";
import type { GivenNode } from "../../../lib/graph/node";
import { rf } from "../../../lib/physics";
import { unitOf } from "../../../lib/units";

interface Row {
  readonly id: string;
  readonly inputs: Readonly<Record<string, string>>;
  readonly expected: Readonly<Record<string, string>>;
  readonly tolerance_rel?: number;
  readonly tolerance_abs?: Readonly<Record<string, string>>;
  readonly source: string;
}

const read = (path: string): string => readFileSync(new URL(path, import.meta.url), "utf8");
const rows: readonly Row[] = JSON.parse(read("../../checks/rf.json"));
const limits = readReferences({ "emission-limits.yaml": read("../../../data/reference/emission-limits.yaml") });
const constants = readReferences({ "constants.yaml": read("../../../data/reference/constants.yaml") });

/** SI value of "number unit". */
function si(text: string | undefined): number {
  const [, number = "", unit = ""] = /^\s*([-+\d.eE]+)\s*(.*)$/.exec((text ?? "").replace("mohm", "mΩ").replace("ohm", "Ω")) ?? [];
  return unitOf(unit || "1").toSI(Number(number));
}

function law(formula: { readonly expression: Expression }, symbols: Readonly<Record<string, number>>): number {
  return evaluate(formula.expression, symbols);
}

const limit = (name: string): number => (limits.nodes.get(`reference.emission-limits.${name}`) as GivenNode).nominal;
const constant = (name: string): number => (constants.nodes.get(`reference.constants.${name}`) as GivenNode).nominal;

/** "600 ohm || 1 µH || 1 pF, 0.2 ohm dc" in any order of its labels. */
function coil(text: string) {
  const [, R_p, L, C_p, R_dc] = /([\d.]+ ohm) \|\| ([\d.]+ µH) \|\| ([\d.]+ pF), ([\d.]+ ohm) dc/.exec(text) ?? [];
  return { R_p: si(R_p), L: si(L), C_p: si(C_p), R_dc: si(R_dc) };
}

/** "470 pF, 60 mohm, 0.7 nH". */
function capacitor(text: string) {
  const [, C, ESR, ESL] = /([\d.]+ [pn]F), ([\d.]+ mohm), ([\d.]+ nH)/.exec(text) ?? [];
  return { C: si(C), ESR: si(ESR), ESL: si(ESL) };
}

type Outputs = Readonly<Record<string, number>>;

function losses({ inputs, expected }: Row, first: string | undefined, last: string | undefined): Outputs {
  const [one, two] = [capacitor(first ?? "0 pF, 0 mohm, 0 nH"), capacitor(last ?? "")];
  const parts = {
    ...{ C_1: one.C, ESR_1: one.ESR, ESL_1: one.ESL, C_2: two.C, ESR_2: two.ESR, ESL_2: two.ESL },
    ...{ C_3: 0, ESR_3: 0, ESL_3: 0 },
    ...coil(inputs["bead"] ?? ""),
  };
  const ends = { R_s: si(inputs["Zs"]), L_s: 0, R_L: si(inputs["Zl"]), C_L: 0 };
  const at = (name: string): number =>
    rf.insertionLoss.evaluate({ f: si(name.replace("IL_", "").replace("MHz", " MHz")), ...ends, ...parts }).IL;
  return Object.fromEntries(Object.keys(expected).map((name) => [name, at(name)]));
}

/** Each row computed with the library, by the names of its expected values. */
const computed: Readonly<Record<string, (row: Row) => Outputs>> = {
  "rf-01": (row) => losses(row, undefined, row.inputs["cap"]),
  "rf-03": (row) => losses(row, row.inputs["C1"], row.inputs["C2"]),
  "rf-06": ({ inputs }) => {
    const lambda = law(rf.wavelength, { c: constant("c"), f: si(inputs["f"]), eps_r: si(inputs["er"]) });
    return { lambda, pitch: law(rf.stitchingPitch, { lambda, n: 20 }) };
  },
  "rf-08": ({ inputs }) => {
    const field = (f: number, A: number, I: number, d: number): number =>
      law(rf.loopField, { Z_0: constant("mu_0") * constant("c"), c: constant("c"), f, A, I, d });
    const E = field(si(inputs["f"]), si(inputs["A"]), si(inputs["I"]), si(inputs["d"]));
    return { k: field(1, 1, 1, 1), E, E_dB: E };
  },
  "rf-09": ({ inputs }) => {
    const E = law(rf.cableField, {
      mu_0: constant("mu_0"),
      f: si(inputs["f"]),
      L: si(inputs["L"]),
      I: si(inputs["I"]),
      d: si(inputs["d"]),
    });
    return { E, E_dB: E };
  },
  "rf-12": ({ expected }) =>
    Object.fromEntries(
      Object.keys(expected).map((name) => [name, limit(`fcc-b-3m-${name.replace("_dB", "").replace(">960", "above-960")}`)]),
    ),
  "rf-13": ({ expected }) => Object.fromEntries(Object.keys(expected).map((name) => [name, limit(`cispr-b-${name.replace("_", "-")}`)])),
  "rf-16": ({ inputs }) => ({
    f1: law(rf.pulseCorner, { f: si(inputs["f"]), D: si(inputs["D"]) }),
    f2: law(rf.edgeCorner, { t_r: si(inputs["t_r"]) }),
  }),
};

const lines = rows.flatMap((row) => {
  const outputs = computed[row.id]?.(row) ?? {};
  return Object.entries(row.expected).map(([name, text]) => {
    const got = outputs[name] ?? Number.NaN;
    const level = /^\S+ dB/.test(text);
    // A level is compared in decibels; its relative tolerance is that of the printed number
    const [expected, value] = level ? [Number(text.split(" ")[0]), levelOf(got, text)] : [si(text), got];
    const tolerance =
      row.tolerance_abs === undefined ? (row.tolerance_rel ?? 0) * Math.abs(expected) : Number.parseFloat(row.tolerance_abs[name] ?? "");
    const unit = level ? text.split(" ")[1] : "SI";
    const title = `${row.id} ${name}: expected ${text}, got ${Number(value.toPrecision(7))} (${unit}), within ${Number(tolerance.toPrecision(2))}; ${row.source}`;
    return { title, expected, got: value, tolerance };
  });
});

/** Decibels of an SI value in the unit of the text. */
function levelOf(value: number, text: string): number {
  return 20 * Math.log10(value / (text.endsWith("dBµV/m") ? 1e-6 : 1));
}

describe("published and independently computed values of filters and fields", () => {
  for (const { title, expected, got, tolerance } of lines) {
    it(title, () => {
      expect(Math.abs(got - expected)).toBeLessThanOrEqual(tolerance);
    });
  }

  it("leave no row uncomputed", () => {
    expect(rows.map(({ id }) => id).filter((id) => !(id in computed))).toEqual([]);
    expect(lines.length).toBe(rows.reduce((sum, { expected }) => sum + Object.keys(expected).length, 0));
    expect(lines.length).toBe(29);
  });
});
