/** A value measured on a prototype beside the result that it tests. */
import type { Analysis } from "./result";

/** Whether a reading, in SI, lies within the middle 95 % of units; where nothing spreads, whether it is the nominal value. */
export function meets(reading: number, { interval, nominal }: Pick<Analysis, "interval" | "nominal">): boolean {
  return reading >= (interval?.low ?? nominal) && reading <= (interval?.high ?? nominal);
}
