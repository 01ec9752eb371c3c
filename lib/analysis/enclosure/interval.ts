/**
 * Intervals that hold every value of an operation over its operands' intervals, rounded outwards: half a unit in the last place for
 * arithmetic, some for functions, are more than covered. R. E. Moore, R. B. Kearfott and M. J. Cloud, Introduction to Interval
 * Analysis (SIAM, 2009), chapters 2 and 5. An operation that may have no value somewhere has the whole line.
 */
import { Code, operationsByCode } from "../../graph/code";

export interface Interval {
  readonly low: number;
  readonly high: number;
}

export const whole: Interval = { low: -Infinity, high: Infinity };

export const at = (value: number): Interval => (Number.isNaN(value) ? whole : { low: value, high: value });

/** 1: nowhere below 0; −1: nowhere above; 0: not known. */
export function signOf({ low, high }: Interval): -1 | 0 | 1 {
  return low >= 0 ? 1 : high <= 0 ? -1 : 0;
}

export const holdsZero = ({ low, high }: Interval): boolean => low <= 0 && high >= 0;

/** Two units in the last place, and the least number there is. */
const slack = 4.5e-16;

/** Around computed ends; signs that the operands leave no doubt about are kept. */
export function around(low: number, high: number, sign: -1 | 0 | 1 = 0): Interval {
  if (Number.isNaN(low) || Number.isNaN(high)) return whole;
  const down = low - Math.abs(low) * slack - Number.MIN_VALUE;
  const up = high + Math.abs(high) * slack + Number.MIN_VALUE;
  return { low: sign > 0 ? Math.max(0, down) : down, high: sign < 0 ? Math.min(0, up) : up };
}

export function hull(a: Interval, b: Interval): Interval {
  return { low: Math.min(a.low, b.low), high: Math.max(a.high, b.high) };
}

export function add(a: Interval, b: Interval): Interval {
  const [p, q] = [signOf(a), signOf(b)];
  return around(a.low + b.low, a.high + b.high, p === q ? p : 0);
}

export function negate({ low, high }: Interval): Interval {
  return { low: -high, high: -low };
}

export function multiply(a: Interval, b: Interval): Interval {
  return fromCorners(a, b, (x, y) => (x === 0 || y === 0 ? 0 : x * y), productSign(a, b));
}

/** Of one value by itself. */
export function square({ low, high }: Interval): Interval {
  const [p, q] = [low * low, high * high];
  return around(low <= 0 && high >= 0 ? 0 : Math.min(p, q), Math.max(p, q), 1);
}

export function divide(a: Interval, b: Interval): Interval {
  if (holdsZero(b)) return whole;
  return fromCorners(a, b, (x, y) => (x === 0 ? 0 : x / y), productSign(a, b));
}

/** For a base above 0, or an integer exponent that does not vary. */
export function power(a: Interval, b: Interval): Interval {
  const raise = operationsByCode[Code.power] as (x: number, y: number) => number;
  if (a.low > 0 || (a.low === 0 && b.low > 0)) return fromCorners(a, b, raise, 1);
  const n = b.low;
  if (n !== b.high || !Number.isInteger(n) || (n < 0 && holdsZero(a))) return whole;
  const ends = [raise(a.low, n), raise(a.high, n)] as const;
  const least = n % 2 === 0 && holdsZero(a) ? 0 : Math.min(...ends);
  return around(least, Math.max(...ends), n % 2 === 0 ? 1 : signOf(a));
}

/** Sine (shift 0) or cosine (shift π/2): 1 and −1 where a crest or a trough lies inside. */
export function wave({ low, high }: Interval, shift: number, value: (x: number) => number): Interval {
  if (!(high - low < 2 * Math.PI)) return { low: -1, high: 1 };
  const ends = [value(low), value(high)];
  const crest = reaches(low + shift, high + shift, Math.PI / 2);
  const trough = reaches(low + shift, high + shift, -Math.PI / 2);
  const found = around(trough ? -1 : Math.min(...ends), crest ? 1 : Math.max(...ends));
  return { low: Math.max(-1, found.low), high: Math.min(1, found.high) };
}

/** Whether place + 2π·k lies between the ends, or within rounding of them. */
function reaches(low: number, high: number, place: number): boolean {
  const margin = 1e-12 * Math.max(1, Math.abs(low), Math.abs(high));
  const turn = 2 * Math.PI;
  return place + turn * Math.ceil((low - margin - place) / turn) <= high + margin;
}

function productSign(a: Interval, b: Interval): -1 | 0 | 1 {
  return (signOf(a) * signOf(b)) as -1 | 0 | 1;
}

function fromCorners(a: Interval, b: Interval, of: (x: number, y: number) => number, sign: -1 | 0 | 1): Interval {
  const corners = [of(a.low, b.low), of(a.low, b.high), of(a.high, b.low), of(a.high, b.high)];
  return around(Math.min(...corners), Math.max(...corners), sign);
}
