/**
 * Air gaps and creepage, as formulas: what a gap holds before a spark crosses it. For design only: insulation that people
 * rely on is for the standard of the product, its tables and those licensed to judge by them; kilovolts can hurt. A spark
 * through air needs some 3 kV for each millimetre between smooth faces, but only 1 kV or less at points and edges and
 * along dirty or damp surfaces: clearances of products are taken from `data/reference/clearances.yaml`.
 */
import { formula } from "../../formula/formula";
import { numericalFormula } from "../../formula/numerical";
import type { SI } from "../../quantity/dimension-types";
import { celsius, cm, kPa, kV, mm, one, type Unit, unitOf, volt } from "../../units";

const mm_per_kV: Unit<SI<"kg⁻¹·m⁻¹·s³·A">> = unitOf("mm/kV");
const paschen =
  "fit to measurements in air that follow Paschen's law; E. Kuffel, W. S. Zaengl and J. Kuffel, High Voltage Engineering, 2nd edition (2000), chapter 5 (from memory)";
const coordination = "IEC 60664-1, insulation coordination (from memory)";

export const relativeAirDensity = formula("delta = p/p_0*T_0/T", { p: kPa, p_0: kPa, T: celsius, T_0: celsius }, one, {
  meaning: "density of air at the pressure p and the temperature T over that at p_0 and T_0, which are 101.325 kPa and 20 °C",
  source: "ideal gas, absolute temperatures; IEC 60060-1",
  valid: { p: "> 0 kPa", p_0: "> 0 kPa", T: "233 K to 358 K" },
});

export const uniformBreakdown = numericalFormula("U = 24.22*delta*d + 6.08*sqrt(delta*d)", { delta: one, d: cm }, kV, {
  meaning:
    "peak voltage at which air of relative density delta breaks down between smooth, even faces d apart, in kV for cm: 30 kV at 1 cm, 4.3 kV at 1 mm",
  source: paschen,
  valid: { delta: "0.3 to 1.2", d: "0.01 cm to 20 cm" },
});

export const uniformGap = numericalFormula("d = ((sqrt(6.08^2 + 4*24.22*U) - 6.08)/(2*24.22))^2/delta", { U: kV, delta: one }, cm, {
  meaning:
    "distance of smooth, even faces at which air of relative density delta breaks down at the peak voltage U: `uniformBreakdown` turned round",
  source: paschen,
  valid: { U: "0.85 kV to 500 kV", delta: "0.3 to 1.2" },
});

export const creepageDistance = formula("l = max(d, c*U)", { d: mm, c: mm_per_kV, U: volt }, mm, {
  meaning:
    "least creepage along a surface: by tracking, c for each volt of the rms working voltage U that stands across it (5, 7.1 and 10 mm/kV for material groups I, II and III at pollution degree 2), and never less than the clearance d",
  source: `${coordination}, table of creepage distances from 500 V to 1 kV; a discharge is too short to track: for it the clearance decides`,
  valid: { d: ">= 0 mm", c: "> 0", U: "0 V to 1000 V" },
});
