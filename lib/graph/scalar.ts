/** One operation on numbers. */
import { acos, asin, atan, atan2, cbrt, cos, cosh, exp, ln, log2, log10, sin, sinh, tan, tanh } from "../quantity/elementary";
import { power } from "../quantity/power";

/** Value of the operation `code` (see code.ts) at a, b, c. NaN or an infinity outside its domain. */
export function scalar(code: number, a: number, b: number, c: number): number {
  switch (code) {
    case 0:
      return a + b;
    case 1:
      return a - b;
    case 2:
      return a * b;
    case 3:
      return a / b;
    case 4:
      return -a;
    case 5:
      return power(a, b);
    case 6:
      return Math.sqrt(a);
    case 7:
      return cbrt(a);
    case 8:
      return exp(a);
    case 9:
      return ln(a);
    case 10:
      return log10(a);
    case 11:
      return log2(a);
    case 12:
      return sin(a);
    case 13:
      return cos(a);
    case 14:
      return tan(a);
    case 15:
      return asin(a);
    case 16:
      return acos(a);
    case 17:
      return atan(a);
    case 18:
      return atan2(a, b);
    case 19:
      return sinh(a);
    case 20:
      return cosh(a);
    case 21:
      return tanh(a);
    case 22:
      return Math.abs(a);
    case 23:
      return Math.sign(a);
    case 24:
      return Math.ceil(a);
    case 25:
      return Math.floor(a);
    case 26:
      return Math.round(a);
    case 27:
      return Math.min(a, b);
    case 28:
      return Math.max(a, b);
    case 29:
      return choose(a, b, c);
    case 30:
      return truth(a, b, a < b);
    case 31:
      return truth(a, b, a <= b);
    case 32:
      return truth(a, b, a > b);
    case 33:
      return truth(a, b, a >= b);
    case 34:
      return truth(a, b, a === b);
    case 35:
      return truth(a, b, a !== b);
    case 40:
      return a * b + c;
    case 41:
      return a * b - c;
    case 42:
      return c - a * b;
    case 43:
      return (a + b) * c;
    case 44:
      return (a - b) * c;
    case 45:
      return (a + b) / c;
    case 46:
      return (a - b) / c;
    case 47:
      return a * b * c;
    case 48:
      return (a * b) / c;
    case 49:
      return a / b + c;
    case 50:
      return a + b + c;
    default:
      return Number.NaN;
  }
}

/** `if`: NaN where the condition is. */
export function choose(condition: number, value: number, otherwise: number): number {
  if (Number.isNaN(condition)) return Number.NaN;
  return condition !== 0 ? value : otherwise;
}

/** 1 or 0; NaN where either side is, so that a failed draw stays visible. */
function truth(a: number, b: number, holds: boolean): number {
  if (Number.isNaN(a) || Number.isNaN(b)) return Number.NaN;
  return holds ? 1 : 0;
}
