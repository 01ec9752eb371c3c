/** Compound units: a product over a product of units becomes one linear unit with its symbol, UCUM code and exact factor. */
import { dimensionless, power as dimensionPower, divide, multiply } from "./dimension";
import { power } from "./power";
import type { Unit } from "./quantity";
import { toSuperscript } from "./superscript";
import { linear, type Stem } from "./unit-forms";

export interface Factor {
  readonly unit: Unit<any>;
  /** Doubled, without the sign of a denominator. */
  readonly exponent: number;
  readonly text: string;
}

/** A unit with its exponent: `mm²`, `√Hz`, `s^(-3/2)`. */
export function factorText(symbol: string, doubled: number): string {
  if (doubled === 2) return symbol;
  if (doubled === 1) return `√${symbol}`;
  return symbol + (doubled % 2 === 0 ? toSuperscript(doubled / 2) : `^(${doubled}/2)`);
}

/** One linear unit from linear factors; a single one without exponent is itself, of whatever form. */
export function compound(above: readonly Factor[], below: readonly Factor[]): Unit<any> {
  const first = above[0] as Factor;
  if (above.length === 1 && below.length === 0 && first.exponent === 2) return first.unit;
  const parts = [...above.map((f) => ({ ...f, sign: 1 })), ...below.map((f) => ({ ...f, sign: -1 }))];
  let of = dimensionless;
  for (const { unit, exponent, sign } of parts) {
    const piece = dimensionPower(unit.dimension, exponent, 2);
    of = sign > 0 ? multiply(of, piece) : divide(of, piece);
  }
  return linear(
    { symbol: symbolText(above, below), dimension: of, ucum: ucumText(above, below), ...stemOf(above, below) },
    factorOf(parts),
  );
}

/** Factors as whole numbers and a power of ten, so that mil² is 6.4516·10⁻¹⁰ and 1/mm² is 10⁶ to the last bit. */
function factorOf(parts: readonly { unit: Unit<any>; exponent: number; sign: number }[]): number {
  let exponent = 0;
  let above = 1;
  let below = 1;
  for (const { unit, exponent: doubled, sign } of parts) {
    const n = (sign * doubled) / 2;
    const [digits, ten] = decimalParts(unit.factor as number);
    exponent += ten * n;
    if (n > 0) above *= power(digits, n);
    else below *= power(digits, -n);
  }
  if (!Number.isInteger(exponent)) return (above / below) * power(10, exponent);
  if (below === 1) return Number(above.toString().includes("e") ? above * power(10, exponent) : `${above}e${exponent}`);
  return exponent < 0 ? above / (below * Number(`1e${-exponent}`)) : (above * Number(`1e${exponent}`)) / below;
}

/** x = digits · 10^ten with whole digits. */
function decimalParts(x: number): [digits: number, ten: number] {
  const [mantissa, ten] = x.toExponential().split("e") as [string, string];
  const decimals = mantissa.length - 1 - mantissa.indexOf(".");
  return mantissa.includes(".") ? [Number(mantissa.replace(".", "")), Number(ten) - decimals] : [Number(mantissa), Number(ten)];
}

function symbolText(above: readonly Factor[], below: readonly Factor[]): string {
  const up = above.map((f) => f.text).join("·");
  if (below.length === 0) return up;
  const down = below.map((f) => f.text).join("·");
  return below.length === 1 ? `${up}/${down}` : `${up}/(${down})`;
}

/** UCUM has no half powers: such a unit has no code. */
function ucumText(above: readonly Factor[], below: readonly Factor[]): string {
  const all = [...above, ...below];
  if (all.some((f) => f.unit.ucum === "" || f.exponent % 2 !== 0)) return "";
  const part = (f: Factor) => differenceCode(f.unit) + (f.exponent === 2 ? "" : String(f.exponent / 2));
  const up = above.map(part).join(".");
  const down = below.map(part).join(".");
  if (below.length === 0) return up;
  return below.length === 1 ? `${up}/${down}` : `${up}/(${down})`;
}

function differenceCode(unit: Unit<any>): string {
  if (!unit.affine) return /[./]/.test(unit.ucum) ? `(${unit.ucum})` : unit.ucum;
  return unit.ucum === "Cel" ? "K" : unit.ucum;
}

/** The prefix of the first factor may change (nV/√Hz to µV/√Hz) where that factor has no exponent. */
function stemOf(above: readonly Factor[], below: readonly Factor[]): { stem?: Stem } {
  const first = above[0] as Factor;
  const stem = first.unit.stem;
  if (stem === undefined || first.exponent !== 2) return {};
  const rest = symbolText([{ ...first, text: stem.rest }, ...above.slice(1)], below);
  return { stem: { ...stem, rest } };
}
