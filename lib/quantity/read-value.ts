import type { NumberWithUnit } from "./amount";
import { letterCode } from "./letter-code";
import type { Scanner } from "./scanner";

/** A number with the unit behind it, a code such as 4k7, or a wire gauge of several zeros such as 4/0 AWG; `uncertain` allows 9.109(28)e-31. */
export function readValue(scanner: Scanner, uncertain = false): NumberWithUnit {
  const code = letterCode(scanner);
  if (code !== undefined) return code;
  const zeros = scanner.take(/^([1-4])\/0(?= ?AWG\b)/);
  if (zeros !== undefined) {
    const count = Number(zeros[1]);
    const number = { at: scanner.at - zeros[0].length, digits: "0".repeat(count), exponent: 0, value: 1 - count };
    return { number, scale: scanner.unit() };
  }
  const number = uncertain ? scanner.uncertainNumber() : scanner.number();
  const scale = scanner.unit();
  if (scale === undefined) scanner.unitless = number;
  return { number, scale };
}
