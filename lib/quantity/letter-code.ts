/**
 * Letter and digit codes of resistors and capacitors, where the letter stands for the decimal point and the
 * power of ten: 4k7, R47, 2n2. IEC 60062:2016 clause 3. R k M G T are resistances, p n µ capacitances. V for the decimal
 * point of a voltage (3V3) is trade practice. With a dimension asked for, 4n7 can be an inductance.
 */
import { excerpt } from "./characters";
import type { Dimension } from "./dimension";
import type { Unit } from "./quantity";
import type { NumberToken, Scanner } from "./scanner";
import { unitOf } from "./unit";
import { readUnit } from "./unit-text";

interface Letter {
  readonly prefix: string;
  /** Unit when no dimension is asked for; absent where the code alone is ambiguous. */
  readonly unit?: string;
}

const letters: Readonly<Record<string, Letter>> = {
  R: { prefix: "", unit: "Ω" },
  k: { prefix: "k", unit: "Ω" },
  K: { prefix: "k", unit: "Ω" },
  M: { prefix: "M", unit: "Ω" },
  G: { prefix: "G", unit: "Ω" },
  T: { prefix: "T", unit: "Ω" },
  p: { prefix: "p", unit: "F" },
  n: { prefix: "n", unit: "F" },
  µ: { prefix: "µ", unit: "F" },
  u: { prefix: "µ", unit: "F" },
  m: { prefix: "m" },
  V: { prefix: "", unit: "V" },
};

/** Units that a code may be read in when their dimension is asked for. */
const codedUnits = ["Ω", "F", "H", "V", "A"];

/** Letter within (4k7, R47) or behind whole digits (100R, 10u) with nothing but a spread or a unit behind it. */
const codePattern = /^(?:(\d*)([RkKMGTpnµumV])(\d+)(?![\d.])|(\d+)([RkKMGpnµum])(?= *(?:$|±|\+|,|\()| +[-(±]| +to | +σ))/u;

export interface Code {
  readonly number: NumberToken;
  readonly scale: Unit<any>;
}

/** Reads a code if one stands here. */
export function letterCode(scanner: Scanner): Code | undefined {
  scanner.space();
  const at = scanner.at;
  const match = codePattern.exec(scanner.rest());
  if (match === null) return undefined;
  const [whole, before = match[4] ?? "", within, after = ""] = match;
  const letter = within ?? (match[5] as string);
  const digits = `${before || "0"}${after === "" ? "" : `.${after}`}`;
  const base = asked(scanner) ?? byCode(scanner, at, digits, letter, within === undefined);
  if (base === undefined) return undefined;
  scanner.at += whole.length;
  const stated = scanner.unit();
  const { prefix } = letters[letter] as Letter;
  const unit = stated === undefined ? base : bareSymbol(stated, scanner, at, whole);
  if (letter === "R" && unit !== "Ω")
    throw scanner.trouble(at, `"${excerpt(whole)}" is the code of a resistance; R is the decimal point of ohms (IEC 60062)`, [
      `${digits} ${unit}`,
    ]);
  if (letter === "V" && unit !== "V")
    throw scanner.trouble(at, `"${excerpt(whole)}" is the code of a voltage; V is the decimal point of volts`, [`${digits} ${unit}`]);
  const value = Number(digits);
  if (!Number.isFinite(value)) throw scanner.trouble(at, "the number is too large");
  const scale = readUnit(prefix + unit);
  if ("reason" in scale)
    throw scanner.trouble(at, `"${excerpt(whole)}" would be in ${prefix}${unit}, which is not in use`, [`${digits} ${unit}`]);
  scanner.codeRead ||= prefix !== "";
  return { number: { at, digits, exponent: 0, value }, scale };
}

/** The unit that the dimension asked for implies; none where another dimension is asked for. */
function asked({ asked: dimension }: Scanner): string | undefined {
  return dimension === undefined ? undefined : codedUnits.find((symbol) => sameSi(unitOf(symbol).dimension, dimension));
}

function sameSi(a: Dimension, b: Dimension): boolean {
  return a.si === b.si;
}

/** `10m` is ten metres and `10K` could be ten kelvin: a letter at the end that is also a unit is no code by itself. */
function byCode(scanner: Scanner, at: number, digits: string, letter: string, atEnd: boolean): string | undefined {
  if (atEnd && letter === "m") return undefined;
  if (atEnd && (letter === "K" || letter === "G")) {
    throw scanner.trouble(at, `"${digits}${letter}" has two readings`, [
      `${digits} ${letter}`,
      `${digits} ${letter === "K" ? "k" : letter}Ω`,
    ]);
  }
  const unit = letters[letter]?.unit;
  if (unit !== undefined) return unit;
  throw scanner.trouble(at, `the code does not say of what; write the unit`, [`${digits} mΩ`, `${digits} mF`, `${digits} mH`]);
}

function bareSymbol(stated: Unit<any>, scanner: Scanner, at: number, code: string): string {
  if (codedUnits.includes(stated.symbol)) return stated.symbol;
  throw scanner.trouble(
    at,
    `the code "${excerpt(code)}" already has its power of ten; write Ω, F, H, V or A behind it, not ${stated.symbol}`,
  );
}
