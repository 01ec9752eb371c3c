import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { evaluate } from "../../lib/formula/evaluate";
import type { Expression } from "../../lib/formula/expression";
import { rails } from "../../lib/physics";
import { unitOf } from "../../lib/units";

interface Row {
  readonly id: string;
  readonly inputs: Readonly<Record<string, string>>;
  readonly expected: Readonly<Record<string, string>>;
  readonly tolerance_rel: number;
  readonly source: string;
}

const rows: readonly Row[] = JSON.parse(readFileSync(new URL("../checks/rails.json", import.meta.url), "utf8"));

/** SI value of "number unit". */
function si(text: string | undefined): number {
  const [, number = "", unit = ""] = /^\s*([-+\d.eE]+)\s*(.*)$/.exec((text ?? "").replace("mohm", "mΩ").replace("ohm", "Ω")) ?? [];
  return unitOf(unit || "1").toSI(Number(number));
}

function law(formula: { readonly expression: Expression }, symbols: Readonly<Record<string, number>>): number {
  return evaluate(formula.expression, symbols);
}

/** "10 µF, 5 mohm, 1 nH" as the kind k of a bank. */
function kind(k: number, text = "0 F, 0 ohm, 0 H") {
  const [C, ESR, ESL] = text.split(",").map(si);
  return { [`C_${k}`]: C, [`ESR_${k}`]: ESR, [`ESL_${k}`]: ESL, [`n_${k}`]: C === 0 ? 0 : 1 };
}

type Bank = Omit<Parameters<typeof rails.bankImpedance.evaluate>[0], "f">;
type Outputs = Readonly<Record<string, number>>;

/** Each row computed with the library, by the names of its expected values. */
const computed: Readonly<Record<string, (inputs: Row["inputs"]) => Outputs>> = {
  "rails-01": ({ Vin, Vout, Iout, f, L, C }) => {
    const given = { V_in: si(Vin), V_out: si(Vout), I_out: si(Iout), f: si(f), L: si(L), C: si(C) };
    const D = law(rails.boostDuty, given);
    const dI = law(rails.inductorRipple, { ...given, D });
    const I_L = law(rails.inductorCurrent, { ...given, D });
    return { D, dI, I_L, I_pk: law(rails.peakInductorCurrent, { I_L, dI }), dV: law(rails.outputCapacitorRipple, { ...given, D }) };
  },
  "rails-02": ({ Vin, Vout, Iout, f, L }) => {
    const given = { V_in: si(Vin), V_out: si(Vout), I_out: si(Iout), f: si(f), L: si(L), eta: 1 };
    const { D, dI } = rails.boostOperation.evaluate(given);
    return { I_C_rms: law(rails.outputCapacitorCurrent, { ...given, D, dI }), I_out_crit: law(rails.conductionBorder, { D, dI }) };
  },
  "rails-05": ({ L, C, R }) => {
    const Z_0 = law(rails.characteristicImpedance, { L: si(L), C: si(C) });
    const Q = law(rails.parallelQuality, { R: si(R), Z_0 });
    return { f0: law(rails.cornerFrequency, { L: si(L), C: si(C) }), Z0: Z_0, Q, zeta: law(rails.dampingRatio, { Q }) };
  },
  "rails-07": ({ C, L }) => ({ f: law(rails.selfResonance, { C: si(C), L: si(L) }) }),
  "rails-08": ({ C1, C2 }) => {
    const bank = { ...kind(1, C1), ...kind(2, C2), ...kind(3), ...kind(4) } as Bank;
    const Z = (f: number): number => rails.bankImpedance.evaluate({ f, ...bank }).Z;
    const top = rails.bankAntiResonance.evaluate({ f_1: 1e5, f_2: 1e9, ...bank });
    return { Z_1MHz: Z(1e6), Z_10MHz: Z(1e7), Z_100MHz: Z(1e8), f_anti: top.f, Z_anti: top.Z };
  },
  "rails-10": ({ ripple, f, PSRR_dc, corner }) => {
    const A = law(rails.straightRejection, { A_0: si(PSRR_dc), f: si(f), f_c: si(corner) });
    return { PSRR: A, V_out: law(rails.rejectedRipple, { V_r: si(ripple), G: 1, A }) };
  },
  "rails-13": ({ Vin, Vout, f, L, C }) => {
    const given = { V_in: si(Vin), V_out: si(Vout), f: si(f), L: si(L), C: si(C) };
    const D = law(rails.buckDuty, given);
    const dI = law(rails.buckInductorRipple, { ...given, D });
    return { D, dI, dV: law(rails.buckOutputRipple, { ...given, dI }) };
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

describe("published and independently computed values of rails", () => {
  for (const { title, expected, got, tolerance } of lines) {
    it(title, () => {
      expect(Math.abs(got - expected)).toBeLessThanOrEqual(tolerance);
    });
  }

  it("leave no row uncomputed", () => {
    expect(rows.map(({ id }) => id).filter((id) => !(id in computed))).toEqual([]);
    expect(lines.length).toBe(22);
  });
});
