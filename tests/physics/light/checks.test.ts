import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { parse } from "yaml";
import { evaluate } from "../../../lib/formula/evaluate";
import type { Expression } from "../../../lib/formula/expression";
import type { CurveData } from "../../../lib/graph/curve";
import { curveAt } from "../../../lib/graph/interpolate";
import { preferred } from "../../../lib/graph/preferred";
import { light } from "../../../lib/physics";
import { unitOf } from "../../../lib/units";

interface Row {
  readonly id: string;
  readonly statement: string;
  readonly inputs: Readonly<Record<string, string>>;
  readonly expected: Readonly<Record<string, string>>;
  readonly tolerance_rel?: number;
  readonly tolerance_abs?: Readonly<Record<string, string>>;
  readonly source: string;
}

const read = (path: string): string => readFileSync(new URL(path, import.meta.url), "utf8");
const rows: readonly Row[] = JSON.parse(read("../../checks/light.json"));
const luminosity: { table: { rows: [number, number][] } } = parse(read("../../../data/reference/luminosity.yaml"));
const V: CurveData = {
  x: Float64Array.from(luminosity.table.rows, ([nanometres]) => nanometres * 1e-9),
  y: Float64Array.from(luminosity.table.rows, ([, value]) => value),
};

/** SI value of "number unit". */
function si(text: string | undefined): number {
  const [, number = "", unit = ""] = /^\s*([-+\d.eE]+)\s*(.*)$/.exec(text ?? "") ?? [];
  return unitOf(unit.replace(/ full angle$/, "") || "1").toSI(Number(number));
}

function law(formula: { readonly expression: Expression }, symbols: Readonly<Record<string, number>>): number {
  return evaluate(formula.expression, symbols);
}

type Outputs = Readonly<Record<string, number>>;

/** Each row computed with the library, by the names of its expected values. */
const computed: Readonly<Record<string, (inputs: Row["inputs"]) => Outputs>> = {
  "light-01": ({ Vs, Vf, I }) => {
    const R = law(light.seriesResistor, { V_s: si(Vs), V_f: si(Vf), I: si(I) });
    const R_E24 = preferred(R, "E24", "nearest");
    const part = { V_s: si(Vs), V_f: si(Vf), R: R_E24 };
    return { R, R_E24, I_actual: law(light.resistorCurrent, part), P: law(light.resistorPower, part) };
  },
  "light-02": ({ Vs, Vf, R }) => {
    const [supply, tolerance] = split(Vs, "±");
    const [low, high] = split(Vf, "..");
    const [resistor, deviation] = split(R, "±");
    const worst = { V_s: si(supply) * (1 + si(tolerance)), V_f: si(`${low} V`), R: si(resistor) * (1 - si(deviation)) };
    const least = { V_s: si(supply) * (1 - si(tolerance)), V_f: si(high), R: si(resistor) * (1 + si(deviation)) };
    return { P_max: law(light.resistorPower, worst), I_max: law(light.resistorCurrent, worst), I_min: law(light.resistorCurrent, least) };
  },
  "light-04": ({ Vs, R, Is, n, Rs, T }) => {
    const { I, V_f } = light.shockleyOperatingPoint.evaluate({ V_s: si(Vs), R: si(R), I_s: si(Is), n: si(n), R_s: si(Rs), T: si(T) });
    return { I, Vf: V_f };
  },
  "light-07": () => Object.fromEntries([470, 525, 555, 620].map((nanometres) => [nanometres, curveAt(V, nanometres * 1e-9)])),
  "light-09": ({ Phi_e, lambda }) => ({
    Phi_v: law(light.monochromaticFlux, {
      K_m: 683 /* lm/W, SI Brochure, 9th edition (2019), 2.2 */,
      V: curveAt(V, si(lambda)),
      Phi_e: si(Phi_e),
    }),
  }),
  "light-11": ({ I, theta }) => ({
    Omega: law(light.coneSolidAngle, { theta: si(theta) }),
    Phi: law(light.coneFlux, { I_v: si(I), theta: si(theta) }),
  }),
  "light-12": ({ I0 }) => ({ Phi: law(light.lambertianFlux, { I_v0: si(I0) }) }),
  "light-15": ({ I_peak, D, R }) => {
    const pulse = { I_p: si(I_peak), D: si(D) };
    return {
      I_avg: law(light.pulsedAverage, pulse),
      I_rms: law(light.pulsedRms, pulse),
      P_R: law(light.pulsedPower, { ...pulse, R: si(R) }),
    };
  },
  "light-16": ({ I, d }) => ({ E: law(light.illuminance, { I_v: si(I), d: si(d) }) }),
};

function split(text: string | undefined, mark: string): [string, string] {
  const [a = "", b = ""] = (text ?? "").split(mark);
  return [a, b];
}

const lines = rows.flatMap((row) => {
  const outputs = computed[row.id]?.(row.inputs) ?? {};
  return Object.entries(row.expected).map(([name, text]) => {
    const expected = si(text);
    const absolute = row.tolerance_abs?.[name];
    const tolerance = absolute === undefined ? (row.tolerance_rel ?? 0) * Math.abs(expected) : si(absolute);
    const got = outputs[name] ?? Number.NaN;
    const title = `${row.id} ${name}: expected ${text}, got ${Number(got.toPrecision(7))} (SI), within ${Number(tolerance.toPrecision(2))}; ${row.source}`;
    return { title, expected, got, tolerance };
  });
});

describe("published and independently computed values of light", () => {
  for (const { title, expected, got, tolerance } of lines) {
    it(title, () => {
      expect(Math.abs(got - expected)).toBeLessThanOrEqual(tolerance);
    });
  }

  it("leave no row uncomputed", () => {
    expect(rows.map(({ id }) => id).filter((id) => !(id in computed))).toEqual([]);
    expect(lines.length).toBe(21);
  });
});
