import type { AnyFormula } from "../../../lib/formula/formula";
import { enclosure } from "../../../lib/physics";
import { type Computed, checkRows, law, reference, si } from "../check-rows";

const materials = reference("materials");

/** SI lengths of "100 x 60 x 20 mm". */
function box(text: string | undefined): { readonly L: number; readonly W: number; readonly H: number } {
  const [, L = "", W = "", H = ""] = /^(\S+) x (\S+) x (\S+) mm$/.exec(text ?? "") ?? [];
  return { L: Number(L) * 1e-3, W: Number(W) * 1e-3, H: Number(H) * 1e-3 };
}

const names = { PC: "pc", ABS: "abs", "6061": "aluminium", AZ91D: "magnesium", "304": "steel" };
const property = (kind: string) =>
  Object.fromEntries(Object.entries(names).map(([name, row]) => [name, materials.value(`${row}-${kind}`)]));
const coefficients = (formula: AnyFormula) => Object.fromEntries([1, 1.5, 2].map((r) => [`alpha_${r}`, law(formula, { r })]));

/** Each row computed with the library, by the names of its expected values. */
const computed: Computed = {
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

checkRows("enclosure", computed, 23);
