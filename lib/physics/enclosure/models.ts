/** Procedures of enclosures, as models. */
import { defineModel } from "../../graph/model";
import { WorkingsError } from "../../quantity/error";
import { cm3, mm, N_mm, N_per_mm, newton, percent } from "../../units";
import { notNegative, positive } from "../model-limits";
import { clampedCoefficient } from "./clamped";
import { type LoadedPlate, supportedCoefficient } from "./patch";
import { cavity, roundedVolume } from "./shell";

const book = "Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, 2nd edition (1959)";

/** Material and cavity of a closed rounded box. */
export const shell = defineModel({
  name: "enclosure.shell",
  inputs: { L: mm, W: mm, H: mm, r: mm, t: mm },
  outputs: { V: cm3, V_i: cm3, r_i: mm },
  meaning:
    "volume of material V, volume inside V_i and inner radius r_i of a closed box L × W × H with walls t and all edges and corners rounded to the outer radius r",
  meanings: { V: "volume of material of the shell", V_i: "volume inside the shell", r_i: "inner radius of the edges" },
  source: "Steiner's formula for the parallel body of a box",
  valid: [...positive("L", "W", "H", "t"), ...notNegative("r")],
  holds: "for 2·r up to the shortest side and 2·t below it, an error otherwise",
  ways: () => ({
    V: { L: 1, W: 1, H: 1, r: -1, t: 1 },
    V_i: { L: 1, W: 1, H: 1, r: -1, t: -1 },
    r_i: { L: 1, W: 1, H: 1, r: 1, t: -1 },
  }),
  waysBecause:
    "a cavity lies inside that of a thinner wall; a larger radius takes off at the edges, more of the outer body than of the inner one, whose radius is smaller; along a side the wall's cross-section is swept",
  evaluate: ({ L, W, H, r, t }) => {
    const outer = { L, W, H, r };
    const inner = cavity(outer, t);
    const V_i = roundedVolume(inner);
    return { V: roundedVolume(outer) - V_i, V_i, r_i: inner.r };
  },
});

/** How far a pad gives, within its thickness. */
export const padTravel = defineModel({
  name: "enclosure.padTravel",
  inputs: { F: newton, k: N_per_mm, t: mm },
  outputs: { x_p: mm, epsilon: percent },
  meaning:
    "travel x_p and compression epsilon of a pad of stiffness k and thickness t under the force F; a force that needs more than the thickness is refused",
  meanings: { x_p: "travel", epsilon: "compression, as a share of the thickness" },
  source: "Hooke's law",
  valid: [...notNegative("F"), ...positive("k", "t")],
  holds: "to some 15 % of compression; beyond, an elastomer hardens and gives less",
  ways: () => ({ x_p: { F: 1, k: -1, t: 1 }, epsilon: { F: 1, k: -1, t: -1 } }),
  waysBecause: "x_p = F/k, epsilon = F/(k·t), nothing below 0",
  evaluate: ({ F, k, t }) => {
    const x_p = F / k;
    if (x_p < t) return { x_p, epsilon: x_p / t };
    throw new WorkingsError(
      "nominal-domain",
      `a pad of ${1e3 * t} mm cannot give ${1e3 * x_p} mm: ${F} N on ${k / 1e3} N/mm bottom it out; take a thicker, larger or stiffer pad`,
      { F, k, t },
    );
  },
});

/** Deflection under a central patch, edges simply supported. */
export const supportedPatchDeflection = defineModel({
  name: "enclosure.supportedPatchDeflection",
  inputs: { F: newton, a: mm, b: mm, u: mm, v: mm, D: N_mm },
  outputs: { w: mm },
  meaning:
    "deflection w at the centre of a simply supported plate a × b of flexural rigidity D under the force F spread evenly over a central patch, u along a, v along b",
  source: `${book}, Art. 28 and 34: Navier's series`,
  valid: positive("a", "b", "D"),
  ways: ({ F }) => ({ w: { F: 1, ...(F.low >= 0 && { a: 1, b: 1, u: -1, v: -1, D: -1 }) } }),
  waysBecause:
    "the influence of a point load is Green's function of the membrane applied twice: positive, larger on a larger plate, and least far from the centre; a wider patch moves the load outwards",
  evaluate: ({ F, D, ...plate }) => ({ w: (supportedCoefficient(plate) * F * squaredSpan(plate)) / D }),
});

/** Deflection under a central patch, edges clamped. */
export const clampedPatchDeflection = defineModel({
  name: "enclosure.clampedPatchDeflection",
  inputs: { F: newton, a: mm, b: mm, u: mm, v: mm, D: N_mm },
  outputs: { w: mm },
  meaning:
    "deflection w at the centre of a clamped plate a × b of flexural rigidity D under the force F spread evenly over a central patch, u along a, v along b; for patches of a fifth of the shorter side or more within 0.4 %, for a concentrated force 2 % low",
  source: `${book}, Art. 44 (tables); Ritz's method`,
  valid: positive("a", "b", "D"),
  draws: 4000,
  evaluate: ({ F, D, ...plate }) => ({ w: (clampedCoefficient(plate) * F * squaredSpan(plate)) / D }),
});

/** The coefficients go with the shorter side. */
function squaredSpan({ a, b }: LoadedPlate): number {
  return Math.min(a, b) * Math.min(a, b);
}
