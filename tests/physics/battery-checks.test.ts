import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readReferences } from "../../lib/design/reference";
import { evaluate } from "../../lib/formula/evaluate";
import type { Expression } from "../../lib/formula/expression";
import { curveArgument } from "../../lib/graph/model";
import type { GivenNode } from "../../lib/graph/node";
import { battery } from "../../lib/physics";
import { unitOf } from "../../lib/units";

interface Row {
  readonly id: string;
  readonly inputs: Readonly<Record<string, string>>;
  readonly expected: Readonly<Record<string, string>>;
  readonly tolerance_rel: number;
  readonly source: string;
}

const read = (path: string): string => readFileSync(new URL(path, import.meta.url), "utf8");
const rows: readonly Row[] = JSON.parse(read("../checks/battery.json"));
const usb = readReferences({ "usb.yaml": read("../../data/reference/usb.yaml") });

/** SI value of "number unit". */
function si(text: string | undefined): number {
  const [, number = "", unit = ""] = /^\s*([-+\d.eE]+)\s*(.*)$/.exec(text ?? "") ?? [];
  return unitOf(unit || "1").toSI(Number(number));
}

function law(formula: { readonly expression: Expression }, symbols: Readonly<Record<string, number>>): number {
  return evaluate(formula.expression, symbols);
}

const offered = (name: string): number => (usb.nodes.get(`reference.usb.${name}`) as GivenNode).nominal;
const straight = (a: number, b: number) => curveArgument({ x: Float64Array.of(0, 1), y: Float64Array.of(a, a + b) });

type Outputs = Readonly<Record<string, number>>;

/** Each row computed with the library, by the names of its expected values. */
const computed: Readonly<Record<string, (inputs: Row["inputs"]) => Outputs>> = {
  "battery-01": ({ I, Q }) => ({
    C_rate: law(battery.cRate, { I: si(I), Q: si(Q) }),
    "I_0.5C": law(battery.currentAtRate, { x: si("0.5 1/h"), Q: si(Q) }),
  }),
  "battery-02": ({ Q, V }) => {
    const E = law(battery.storedEnergy, { Q: si(Q), V: si(V) });
    return { E_Wh: E, E_J: E };
  },
  "battery-04": ({ a, b, R, Vcv, I, I_end, Q, s0 }) => {
    const cell = { a: si(a), b: si(b), R: si(R), Q: si(Q), s_0: si(s0) };
    const { I_start, t, ...rest } = battery.linearChargeTime.evaluate({ ...cell, V_cv: si(Vcv), I: si(I), I_end: si(I_end) });
    return { ...rest, I_start_cv: I_start, t_total: t };
  },
  "battery-07": ({ V, R, P }) => {
    const { I, V_t, P_loss } = battery.constantPowerLoad.evaluate({ V_oc: si(V), R: si(R), P: si(P) });
    return { I, V_term: V_t, P_loss, P_max: law(battery.maximumPower, { V_oc: si(V), R: si(R) }) };
  },
  "battery-09": ({ a, b, R, P, Q }) => {
    // Full to empty: a cut-off that the terminal voltage never reaches
    const use = { P: si(P), Q: si(Q), V_c: 1, s_0: 1, ocv: straight(si(a), si(b)) };
    const runtime = (ohms: number): number => battery.runtimeAtPower.evaluate({ ...use, R: ohms }).t;
    return { t: runtime(si(R)), t_R0: runtime(0) };
  },
  "battery-11": ({ E, k, eta, P }) => ({ t: law(battery.runtimeByEnergy, { E: si(E), k: si(k), eta: si(eta), P: si(P) }) }),
  "battery-12": () => ({
    usb2_unconfigured: offered("usb2-unconfigured"),
    usb2_configured: offered("usb2-configured"),
    bc12_dcp: offered("bc12-dedicated"),
    typec_medium: offered("type-c-medium"),
    typec_high: offered("type-c-high"),
  }),
  "battery-14": ({ Vbus, I_usb, Vcell, eta }) => {
    const source = { V_bus: si(Vbus), V_cell: si(Vcell) };
    const I_sw = law(battery.switchingChargeCurrent, { ...source, eta: si(eta), I_bus: si(I_usb) });
    return { I_lin: si(I_usb), P_lin: law(battery.linearChargerLoss, { ...source, I: si(I_usb) }), I_sw };
  },
  "battery-15": ({ I_pulse, I_base, t_on, period, R }) => {
    const pulse = { D: si(t_on) / si(period), I_1: si(I_pulse), I_0: si(I_base) };
    const I_rms = law(battery.pulseRms, pulse);
    return {
      I_avg: law(battery.pulseAverage, pulse),
      I_rms,
      P_loss: law(battery.resistanceLoss, { I_rms, R: si(R) }),
      droop: law(battery.sag, { I: si(I_pulse), R: si(R) }),
    };
  },
};

const lines = rows.flatMap((row) => {
  const outputs = computed[row.id]?.(row.inputs) ?? {};
  return Object.entries(row.expected).map(([name, text]) => {
    const expected = si(text);
    const tolerance = row.tolerance_rel * Math.abs(expected);
    const got = outputs[name] ?? Number.NaN;
    const title = `${row.id} ${name}: expected ${text} = ${Number(expected.toPrecision(7))} (SI), got ${Number(got.toPrecision(7))} (SI), within ${Number(tolerance.toPrecision(2))}; ${row.source}`;
    return { title, expected, got, tolerance };
  });
});

describe("published and independently computed values of cells", () => {
  for (const { title, expected, got, tolerance } of lines) {
    it(title, () => {
      expect(Math.abs(got - expected)).toBeLessThanOrEqual(tolerance);
    });
  }

  it("leave no row uncomputed", () => {
    expect(rows.map(({ id }) => id).filter((id) => !(id in computed))).toEqual([]);
    expect(lines.length).toBe(28);
  });
});
