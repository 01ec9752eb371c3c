/**
 * A round boss that is widened by what is pressed, screwed or cast into it: Lamé's thick-walled tube, as formulas. What is
 * inside is taken as rigid (steel or brass in plastic), the boss as long, elastic and free outside. Plastics creep: the
 * stress falls with time and the weld line beside the boss is weaker than the resin, so such stresses are held far below
 * yield. Left out: threads, ribs, friction and heat.
 */
import { formula } from "../../formula/formula";
import { GPa, MPa, mm, one, um } from "../../units";

const lame = "Lamé's thick-walled tube; S. Timoshenko, Strength of Materials, part II, chapter on thick-walled cylinders";

export const pressFitPressure = formula(
  "p = E*d/(d_i*((d_o^2 + d_i^2)/(d_o^2 - d_i^2) + nu))",
  { E: GPa, d: um, d_i: mm, d_o: mm, nu: one },
  MPa,
  {
    meaning:
      "pressure in the bore of a boss of bore d_i and outer diameter d_o into which a rigid pin is pressed that is thicker by d (both diameters)",
    source: lame,
    valid: { E: "> 0 GPa", d: ">= 0 µm", d_i: "> 0 mm", d_o: "> 0 mm", nu: "0 to 0.5" },
    holds: "d_o above d_i, and d small against it",
  },
);

export const boreHoopStress = formula("sigma = p*(d_o^2 + d_i^2)/(d_o^2 - d_i^2)", { p: MPa, d_o: mm, d_i: mm }, MPa, {
  meaning: "hoop stress at the bore of a boss under the pressure p inside: the greatest in it, and always more than p",
  source: lame,
  valid: { p: ">= 0 MPa", d_o: "> 0 mm", d_i: "> 0 mm" },
  holds: "d_o above d_i",
});

export const outerHoopStress = formula("sigma = 2*p*d_i^2/(d_o^2 - d_i^2)", { p: MPa, d_o: mm, d_i: mm }, MPa, {
  meaning: "hoop stress at the outside of a boss under the pressure p in its bore: less than at the bore by p",
  source: lame,
  valid: { p: ">= 0 MPa", d_o: "> 0 mm", d_i: "> 0 mm" },
  holds: "d_o above d_i",
});

export const pressFitInterference = formula(
  "d = sigma*d_i/E*(1 + nu*(d_o^2 - d_i^2)/(d_o^2 + d_i^2))",
  { sigma: MPa, E: GPa, d_i: mm, d_o: mm, nu: one },
  um,
  {
    meaning: "interference of a rigid pin that brings the hoop stress at the bore to sigma: the two laws before turned round",
    source: lame,
    valid: { sigma: ">= 0 MPa", E: "> 0 GPa", d_i: "> 0 mm", d_o: "> 0 mm", nu: "0 to 0.5" },
    holds: "d_o above d_i",
  },
);
