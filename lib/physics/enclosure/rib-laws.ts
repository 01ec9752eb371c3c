/**
 * A wall with ribs on one side, one rib of width b and height h (beyond the wall) on every pitch p, as formulas. Bending is
 * along the ribs; across them the wall is hardly stiffer than without, so a plate needs ribs both ways to behave like a
 * thicker one. A rib wider than 0.6 walls shows as a sink mark. Left out: the part of a wide pitch that does not bend with
 * its rib (shear lag; p up to 20 walls), and buckling of ribs higher than 5 widths.
 */
import { formula } from "../../formula/formula";
import { MPa, mm, mm4, N_mm } from "../../units";

const section = "second moment of a T section about its centroid (Steiner's theorem)";
const positive = { t: "> 0 mm", p: "> 0 mm", b: "> 0 mm", h: ">= 0 mm" } as const;
const shape = { t: mm, p: mm, b: mm, h: mm } as const;

export const ribbedCentroid = formula("y = (p*t^2/2 + b*h*(t + h/2))/(p*t + b*h)", shape, mm, {
  meaning: "distance of the neutral axis from the smooth face of a ribbed wall",
  source: section,
  valid: positive,
});

export const ribbedSecondMoment = formula("J = p*t^3/3 + b*h*(h^2/12 + (t + h/2)^2) - (p*t + b*h)*y^2", { ...shape, y: mm }, mm4, {
  meaning: "second moment of area of one pitch of a ribbed wall about its neutral axis y (ribbedCentroid)",
  source: section,
  valid: positive,
});

export const ribbedThickness = formula("t_e = cbrt(12*J/p)", { J: mm4, p: mm }, mm, {
  meaning: "thickness of a smooth wall that is as stiff along the ribs as the ribbed one of second moment J on every pitch p",
  source: "equal second moment of area",
  valid: { J: "> 0 mm⁴", p: "> 0 mm" },
});

export const ribbedMassThickness = formula("t_m = t + b*h/p", shape, mm, {
  meaning:
    "thickness of a smooth wall of the same mass as one with ribs one way; with ribs both ways the second set adds as much again, less the crossings",
  source: "geometry",
  valid: positive,
});

export const ribStress = formula("sigma = M*(t + h - y)/J", { M: N_mm, t: mm, h: mm, y: mm, J: mm4 }, MPa, {
  meaning:
    "stress at the tip of a rib under the bending moment M of one pitch: higher than on the smooth face, as the tip is farther from the axis",
  source: "Euler–Bernoulli bending",
  valid: { t: "> 0 mm", h: ">= 0 mm", J: "> 0 mm⁴" },
});
