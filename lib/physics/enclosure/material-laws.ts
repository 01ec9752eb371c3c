/** One wall material against another, as formulas: index 1 is the present material, 2 the other. */
import { commonPractice, formula } from "../../formula/formula";
import type { SpecificEnergy } from "../../quantity/dimension-tables";
import type { Unit } from "../../quantity/quantity";
import { GPa, g_per_cm3, mm, one, unitOf } from "../../units";

const index = "Ashby, Materials Selection in Mechanical Design, material index of a light stiff plate, E^(1/3)/ρ";
const Nm_per_kg: Unit<SpecificEnergy> = unitOf("J/kg");

export const equalStiffnessWall = formula("t_2 = t_1*cbrt(E_1/E_2)", { t_1: mm, E_1: GPa, E_2: GPa }, mm, {
  meaning: "wall of a material of modulus E_2 that is as stiff in bending as a wall t_1 of modulus E_1, Poisson's ratios taken as equal",
  source: `${commonPractice}; flexural rigidity goes with E·t³`,
  valid: { E_1: "> 0 GPa", E_2: "> 0 GPa" },
});

export const equalRigidityWall = formula(
  "t_2 = t_1*cbrt(E_1*(1 - nu_2^2)/(E_2*(1 - nu_1^2)))",
  { t_1: mm, E_1: GPa, nu_1: one, E_2: GPa, nu_2: one },
  mm,
  {
    meaning: "wall of a material E_2, nu_2 that has the flexural rigidity of a wall t_1 of the material E_1, nu_1",
    source: "Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, 2nd edition (1959), Art. 1, eq. (3), solved for t",
    valid: { E_1: "> 0 GPa", nu_1: "0 to 0.5", E_2: "> 0 GPa", nu_2: "0 to 0.5" },
  },
);

export const equalStiffnessMass = formula(
  "mu = cbrt(E_1/E_2)*rho_2/rho_1",
  { E_1: GPa, E_2: GPa, rho_1: g_per_cm3, rho_2: g_per_cm3 },
  one,
  {
    meaning: "mass of a wall of material 2 over that of a wall of material 1, equally stiff in bending: a cube root saves little",
    source: index,
    valid: { E_1: "> 0 GPa", E_2: "> 0 GPa", rho_1: "> 0 g/cm³", rho_2: "> 0 g/cm³" },
  },
);

export const stiffnessPerMass = formula(
  "kappa = E*t^2/(12*(1 - nu^2)*rho*a*b)",
  { E: GPa, nu: one, rho: g_per_cm3, t: mm, a: mm, b: mm },
  Nm_per_kg,
  {
    meaning: "flexural rigidity of a wall of sides a and b, over its mass",
    source: `flexural rigidity over rho*t*a*b; ${commonPractice}`,
    valid: { E: "> 0 GPa", nu: "0 to 0.5", rho: "> 0 g/cm³", t: "> 0 mm", a: "> 0 mm", b: "> 0 mm" },
  },
);
