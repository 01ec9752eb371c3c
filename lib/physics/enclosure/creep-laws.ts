/**
 * Plastics that give way with time, and the clip that suffers from it, as formulas. Stresses are low enough for strain to
 * go with stress (a quarter of yield), temperature is steady, and the load is taken on at once. A clip holds its bend, so
 * its force falls as the creep modulus does: this overstates what is left by the factor sin(pi*n)/(pi*n) of a pure power
 * law at most, 1.6 % for n = 0.1 and 6 % for n = 0.2.
 */
import { commonPractice, formula } from "../../formula/formula";
import { GPa, hour, mm, newton, one, percent } from "../../units";

const findley = "Findley, Lai, Onaran, Creep and Relaxation of Nonlinear Viscoelastic Materials (1976), power law (from memory)";
const beam = "Euler–Bernoulli bending of a cantilever";
const positive = { E: "> 0 GPa", t: "> 0 mm", l: "> 0 mm" } as const;

export const creepModulus = formula("E_c = 1/(1/E_0 + (t/t_0)^n/E_t)", { E_0: GPa, t: hour, t_0: hour, n: one, E_t: GPa }, GPa, {
  meaning:
    "creep modulus, stress over strain after the time t under a steady load: the modulus E_0 at once, and a creep compliance 1/E_t after t_0 that grows with the power n of time (0.1 to 0.3 for stiff plastics)",
  source: findley,
  valid: { E_0: "> 0 GPa", t: ">= 0 h", t_0: "> 0 h", n: "0.01 to 0.5", E_t: "> 0 GPa" },
});

export const creepModulusBetween = formula(
  "E_c = E_1*(E_2/E_1)^(ln(t/t_1)/ln(t_2/t_1))",
  { E_1: GPa, E_2: GPa, t: hour, t_1: hour, t_2: hour },
  GPa,
  {
    meaning:
      "creep modulus after the time t from those after t_1 and t_2 (data sheets: 1 h and 1000 h), a straight line of the logarithms; up to ten times t_2",
    source: "ISO 899-1 defines the creep modulus; interpolation by common practice",
    valid: { E_1: "> 0 GPa", E_2: "> 0 GPa", t: "> 0 h", t_1: "> 0 h", t_2: "> 0 h" },
  },
);

export const creptDeflection = formula("w = w_0*E_0/E_c", { w_0: mm, E_0: GPa, E_c: GPa }, mm, {
  meaning: "deflection under a steady force once the modulus is down to E_c, from the deflection w_0 that E_0 gave",
  source: "correspondence of elastic and creep deflection for strain that goes with stress",
  valid: { E_0: "> 0 GPa", E_c: "> 0 GPa" },
});

export const relaxedForce = formula("F = F_0*E_c/E_0", { F_0: newton, E_c: GPa, E_0: GPa }, newton, {
  meaning: "force of a plastic clip that holds its bend, once its modulus is down to E_c, from the force F_0 that E_0 gave",
  source: "relaxation taken from creep (quasi-elastic); common practice",
  valid: { E_0: "> 0 GPa", E_c: "> 0 GPa" },
});

export const clipForce = formula("F = E*w*t^3*s/(4*l^3)", { E: GPa, w: mm, t: mm, s: mm, l: mm }, newton, {
  meaning: "force at the end of a clip, a tongue of width w, thickness t and length l held at one end, lifted by s (up to a tenth of l)",
  source: beam,
  valid: { ...positive, w: "> 0 mm", s: ">= 0 mm" },
});

export const clipStrain = formula("epsilon = 3*t*s/(2*l^2)", { t: mm, s: mm, l: mm }, percent, {
  meaning: "largest strain of such a clip, at its root; lasting strain should stay below 0.5 % to 1 % for stiff plastics",
  source: beam,
  valid: { t: "> 0 mm", s: ">= 0 mm", l: "> 0 mm" },
});

export const moistureContent = formula("c = c_s*phi^m", { c_s: one, phi: one, m: one }, percent, {
  meaning:
    "share of water by mass that a polyamide takes up in the end in air of the relative humidity phi, from c_s in water; m = ln(c_s/c_50)/ln(2), about 1.8 for PA6 and PA66",
  source: commonPractice,
  valid: { c_s: "0 to 0.12", phi: "0 to 1", m: "1 to 3" },
});

export const conditionedModulus = formula("E = E_d*(E_50/E_d)^(c/c_50)", { E_d: GPa, E_50: GPa, c: one, c_50: one }, GPa, {
  meaning:
    "modulus of a polyamide that holds the share c of water, from those dry and conditioned at 23 °C and 50 % relative humidity (c_50); near saturation it falls less than this says",
  source: "ISO 1110 defines the conditioned state; a straight line of the logarithm by common practice",
  valid: { E_d: "> 0 GPa", E_50: "> 0 GPa", c: "0 to 0.04", c_50: "> 0" },
});
