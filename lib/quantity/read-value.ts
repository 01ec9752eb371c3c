import type { NumberWithUnit } from "./amount";
import { letterCode } from "./letter-code";
import type { Scanner } from "./scanner";

/** A number with the unit behind it, or a code such as 4k7; `uncertain` allows 9.109(28)e-31. */
export function readValue(scanner: Scanner, uncertain = false): NumberWithUnit {
  const code = letterCode(scanner);
  if (code !== undefined) return code;
  const number = uncertain ? scanner.uncertainNumber() : scanner.number();
  const scale = scanner.unit();
  if (scale === undefined) scanner.unitless = number;
  return { number, scale };
}
