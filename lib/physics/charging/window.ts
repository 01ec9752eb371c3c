/**
 * Temperature window of a charge by a thermistor: a divider of R_s above, R_p and the thermistor in parallel below, and
 * a charger that compares its ratio with two thresholds. The thermistor follows R_0·exp(B·(1/T − 1/T_0)). Which window a
 * cell needs stands in its maker's data sheet and IEC 62133-2.
 */
import { exp, ln } from "../../quantity/elementary";
import { WorkingsError } from "../../quantity/error";

/** R_0 in Ω at T_0 in K; B in K. */
export interface Thermistor {
  readonly R_0: number;
  readonly B: number;
  readonly T_0: number;
}

/** Resistance at T (K), Ω. */
function thermistorAt({ R_0, B, T_0 }: Thermistor, T: number): number {
  return R_0 * exp(B * (1 / T - 1 / T_0));
}

/** Ratio of a divider's output to its supply at T (K). */
export function dividerRatio(thermistor: Thermistor, R_s: number, R_p: number, T: number): number {
  const R = 1 / (1 / thermistorAt(thermistor, T) + 1 / R_p);
  return R / (R_s + R);
}

/** Temperature (K) at which a divider's ratio is x. Throws "nominal-domain" where no thermistor makes it. */
export function temperatureAt({ R_0, B, T_0 }: Thermistor, R_s: number, R_p: number, x: number): number {
  const G = (1 - x) / (x * R_s) - 1 / R_p;
  const inverse = 1 / T_0 - ln(R_0 * G) / B;
  if (!(x > 0 && x < 1 && R_s > 0 && R_p > 0 && R_0 > 0 && B > 0 && G > 0 && inverse > 0)) {
    throw new WorkingsError(
      "nominal-domain",
      `no temperature brings this divider to ${x} of its supply; R_p alone holds it at ${R_p / (R_s + R_p)}`,
    );
  }
  return 1 / inverse;
}

/** R_s and R_p (Ω) that put the thresholds x_c and x_h of a charger at T_c (cold) and T_h (hot), K. */
export function windowDivider(
  thermistor: Thermistor,
  cold: { readonly T: number; readonly x: number },
  hot: { readonly T: number; readonly x: number },
): { readonly R_s: number; readonly R_p: number } {
  if (!(hot.T > cold.T && cold.x > hot.x && hot.x > 0 && cold.x < 1)) {
    throw new WorkingsError("nominal-domain", "a window needs T_c below T_h, and thresholds 1 > x_c > x_h > 0 of a thermistor to ground");
  }
  const [a_c, a_h] = [1 / cold.x - 1, 1 / hot.x - 1];
  const [G_c, G_h] = [1 / thermistorAt(thermistor, cold.T), 1 / thermistorAt(thermistor, hot.T)];
  const R_s = (a_h - a_c) / (G_h - G_c);
  const G_p = a_c / R_s - G_c;
  if (G_p > 0) return { R_s, R_p: 1 / G_p };
  throw new WorkingsError(
    "nominal-domain",
    "two resistors cannot stretch this thermistor to the window: take one of a higher B, or a resistor in series with it",
  );
}
