/** Values that the present givens may make impossible, such as a table read outside its rows: the value, or why there is none. */
import { type ErrorCode, WorkingsError } from "../../quantity/error";

/** Errors that say what is wrong with the values, not with the book or the program. */
const valueCodes: ReadonlySet<ErrorCode> = new Set<ErrorCode>([
  "curve-crossing",
  "curve-points",
  "division-by-zero",
  "drawing",
  "level",
  "model-argument",
  "model-failed",
  "nominal-domain",
  "not-finite",
  "table-range",
]);

/** What stands in place of a number that cannot be computed. */
export const notComputed = "cannot be computed";

/** A value, or in a sentence why the present givens do not give one. */
export type Computed<T> = { readonly value: T; readonly why?: undefined } | { readonly value?: undefined; readonly why: string };

/** Runs `make`. An error that the values cause becomes `why`; any other error is thrown on. */
export function computed<T>(make: () => T): Computed<T> {
  try {
    return { value: make() };
  } catch (error) {
    if (!(error instanceof WorkingsError && valueCodes.has(error.code))) throw error;
    return { why: error.message };
  }
}
