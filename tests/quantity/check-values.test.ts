/** Published and independently computed conversions. Each row prints what was expected, what came out, and the source. */
import { describe, expect, it } from "vitest";
import { preferred, preferredNumbers, type Series } from "../../lib/graph/preferred";
import { quantity } from "../../lib/quantity/parse";
import type { Quantity } from "../../lib/quantity/quantity";
import { unitOf } from "../../lib/quantity/unit";
import rows from "../checks/units.json";

interface Row {
  readonly id: string;
  readonly statement: string;
  readonly inputs: Readonly<Record<string, string>>;
  readonly expected: Readonly<Record<string, string>>;
  readonly tolerance_rel: number;
  readonly source: string;
}
type Q = Quantity<any>;
type Outcome = Q | boolean;
/** The input of a name. */
type Inputs = (name: string) => Q;

const q = quantity;
/** What the library makes of the inputs of each row, by the names of `expected`. */
const worked: Readonly<Record<string, (i: Inputs) => Readonly<Record<string, Outcome>>>> = {
  "units-01": (i) => ({ T_K: i("T"), T_F: i("T") }),
  "units-02": (i) => ({ dT_K: i("dT"), dT_F: i("dT") }),
  "units-03": (i) => ({ rise: i("theta").mul(i("P")), T: warmed(i), T_K: warmed(i) }),
  "units-05": (i) => ({ p_Pa: i("p"), p_bar: i("p") }),
  "units-07": (i) => ({ areal: i("foil"), t: i("foil").div(i("rho")) }),
  "units-08": (i) => ({ x_mm: i("x"), x_um: i("x") }),
  "units-10": (i) => ({ F_N: i("F"), k_N_per_m: i("k") }),
  "units-11": (i) => ({
    d: i("gauge"),
    A: i("gauge")
      .mul(i("gauge"))
      .mul(Math.PI / 4),
  }),
  "units-13": (i) => ({ E_J: i("E"), Q_C: i("Q") }),
  "units-14": (i) => ({ V_a: i("L_a"), V_b: i("L_b"), L_b_in_dBV: i("L_b"), dBu_minus_dBV: q("1 V").div(q("0 dBu")) }),
  "units-15": (i) => ({ V_a: voltage(i, "R_a"), V_b: voltage(i, "R_b"), L_a: voltage(i, "R_a") }),
  "units-17": (i) => ({ p_of_L: i("L"), L_of_p: i("p") }),
  "units-20": (i) => ({ V: i("e_n").mul(i("B").sqrt()) }),
  "units-21": (i) => ({
    R: i("R0").mul(
      i("a")
        .mul(i("T").minus(i("T0")))
        .plus(q("1")),
    ),
  }),
  "units-22": (i) => ({ V_a: i("k").mul(i("T_a")).div(i("q")), V_b: i("k").mul(i("T_b")).div(i("q")) }),
};

const warmed = (i: Inputs): Q => i("T_a").plus(i("theta").mul(i("P")));
const voltage = (i: Inputs, resistance: string): Q => i("P").mul(i(resistance)).sqrt();

/** Rows whose inputs are lists of codes or cases. */
const listed: Readonly<Record<string, (row: Row) => Readonly<Record<string, Outcome>>>> = {
  "units-23": ({ expected }) => mapped(expected, (code) => q(code)),
  "units-24": ({ expected }) => mapped(expected, (code) => q(code)),
  "units-26": ({ expected }) => mapped(expected, isMember),
  "units-28": ({ expected, inputs }) =>
    mapped(expected, (series) => unitOf("Ω")(preferred(q(inputs.x ?? "").si, series as Series, "nearest"))),
};

function mapped(expected: Readonly<Record<string, string>>, make: (name: string) => Outcome): Record<string, Outcome> {
  return Object.fromEntries(Object.keys(expected).map((name) => [name, make(name)]));
}

function isMember(text: string): boolean {
  const [number, series] = text.split("/") as [string, Series];
  const value = Number(number);
  return preferredNumbers[series].includes(value < 100 ? value * 10 : value);
}

describe.each(rows as unknown as Row[])("$id: $statement", (row) => {
  const got = listed[row.id]?.(row) ?? worked[row.id]?.((name) => q(row.inputs[name] ?? "")) ?? {};
  it.each(Object.entries(row.expected))("%s is %s", (name, expected) => {
    const [shown, error] = compared(got[name], expected);
    console.log(`${row.id} ${name}: expected ${expected}, got ${shown} (${row.source})`);
    expect(error, `${row.id} ${name}: expected ${expected}, got ${shown} (${row.source})`).toBeLessThanOrEqual(row.tolerance_rel);
  });
});

/** What came out, in the unit of the expected value, and its relative error. A level is compared as a number of dB. */
function compared(outcome: Outcome | undefined, expected: string): [shown: string, error: number] {
  if (outcome === undefined) return ["nothing", 1];
  if (typeof outcome === "boolean") return [String(outcome), outcome === (expected === "true") ? 0 : 1];
  const wanted = q(expected);
  const { unit } = wanted;
  const [x, y] = [outcome.in(unit), wanted.in(unit)];
  return [`${x} ${unit.symbol}`, Math.abs(x - y) / Math.abs(y)];
}

it("works every row of the table", () => {
  expect((rows as unknown as Row[]).map((row) => row.id).sort()).toEqual([...Object.keys(worked), ...Object.keys(listed)].sort());
});
