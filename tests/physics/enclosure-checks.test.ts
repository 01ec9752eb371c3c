import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readReferences } from "../../lib/design/reference";
import { evaluate } from "../../lib/formula/evaluate";
import type { Expression } from "../../lib/formula/expression";
import { enclosure } from "../../lib/physics";
import { unitOf } from "../../lib/units";

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
const rows: readonly Row[] = JSON.parse(read("../checks/enclosure.json"));
const materials = readReferences({ "materials.yaml": read("../../data/reference/materials.yaml") });

/** SI value of "number unit". */
function si(text: string | undefined): number {
  const [, number = "", unit = ""] =
    /^\s*([-+\d.eE]+)\s*(.*)$/.exec((text ?? "").replace("kg/m3", "kg/m³").replace(" (uniform)", "")) ?? [];
  return unitOf(unit || "1").toSI(Number(number));
}

/** SI lengths of "100 x 60 x 20 mm". */
function box(text: string | undefined): { readonly L: number; readonly W: number; readonly H: number } {
  const [, L = "", W = "", H = ""] = /^(\S+) x (\S+) x (\S+) mm$/.exec(text ?? "") ?? [];
  return { L: Number(L) * 1e-3, W: Number(W) * 1e-3, H: Number(H) * 1e-3 };
}

function law(formula: { readonly expression: Expression }, symbols: Readonly<Record<string, number>>): number {
  return evaluate(formula.expression, symbols);
}

function material(row: string): number {
  const node = materials.nodes.get(`reference.materials.${row}`);
  return node?.kind === "given" ? node.nominal : Number.NaN;
}

type Outputs = Readonly<Record<string, number>>;
const names = { PC: "pc", ABS: "abs", "6061": "aluminium", AZ91D: "magnesium", "304": "steel" };
const property = (kind: string): Outputs =>
  Object.fromEntries(Object.entries(names).map(([name, row]) => [name, material(`${row}-${kind}`)]));
const coefficients = (formula: { readonly expression: Expression }): Outputs =>
  Object.fromEntries([1, 1.5, 2].map((r) => [`alpha_${r}`, law(formula, { r })]));

/** Each row computed with the library, by the names of its expected values. */
const computed: Readonly<Record<string, (inputs: Row["inputs"]) => Outputs>> = {
  "enclosure-01": () => property("density"),
  "enclosure-03": () => property("modulus"),
  "enclosure-04": ({ outer, t, rho }) => {
    const walls = { ...box(outer), t: si(t) };
    const weigh = (V: number): number => law(enclosure.mass, { rho: si(rho), V });
    return { m: weigh(law(enclosure.sharpShellVolume, walls)), m_naive: weigh(law(enclosure.areaTimesWall, walls)) };
  },
  "enclosure-05": ({ outer, r_out, t, rho }) => {
    const { V } = enclosure.shell.evaluate({ ...box(outer), r: si(r_out), t: si(t) });
    return { V_shell: V, m: law(enclosure.mass, { rho: si(rho), V }) };
  },
  "enclosure-08": () => coefficients(enclosure.uniformSupportedCoefficient),
  "enclosure-09": () => coefficients(enclosure.uniformClampedCoefficient),
  "enclosure-12": ({ E, nu, t, a, b, F }) => {
    const D = law(enclosure.flexuralRigidity, { E: si(E), t: si(t), nu: si(nu) });
    const alpha = law(enclosure.uniformSupportedCoefficient, { r: law(enclosure.sideRatio, { a: si(a), b: si(b) }) });
    return { D, w: law(enclosure.uniformDeflection, { alpha, q: si(F) / (si(a) * si(b)), a: si(a), D }) };
  },
  "enclosure-14": ({ E1, E2, rho1, rho2 }) => {
    const E = { E_1: si(E1), E_2: si(E2) };
    return {
      t_ratio: law(enclosure.equalStiffnessWall, { ...E, t_1: 1 }),
      m_ratio: law(enclosure.equalStiffnessMass, { ...E, rho_1: si(rho1), rho_2: si(rho2) }),
    };
  },
  "enclosure-16": ({ E, nu, rho, t, a, b }) => {
    const D = law(enclosure.flexuralRigidity, { E: si(E), t: si(t), nu: si(nu) });
    return { f: law(enclosure.supportedPlateFrequency, { D, rho: si(rho), t: si(t), a: si(a), b: si(b) }) };
  },
};

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

describe("published and independently computed values of enclosures", () => {
  for (const { title, expected, got, tolerance } of lines) {
    it(title, () => {
      expect(Math.abs(got - expected)).toBeLessThanOrEqual(tolerance);
    });
  }

  it("leave no row uncomputed", () => {
    expect(rows.map(({ id }) => id).filter((id) => !(id in computed))).toEqual([]);
    expect(lines.length).toBe(23);
  });
});
