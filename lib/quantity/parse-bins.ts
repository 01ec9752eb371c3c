/** Lists of values that a unit may have: `one of 1 kΩ, 2 kΩ`, `450 mcd, one of 350 mcd (20 %), 450 mcd (80 %)`. */
import { framed, type NumberWithUnit, named, one, type Stated, sameLevel } from "./amount";
import { comparable } from "./dimension";
import type { Unit } from "./quantity";
import { readValue } from "./read-value";
import { numberText, type Scanner } from "./scanner";

interface Bin {
  readonly value: NumberWithUnit;
  /** In percent. */
  readonly share: number | undefined;
}

/** How far shares may be from adding up to 100 %: thirds are written 33.3 %. */
const slack = 0.5;

/** Behind `one of`; `stated` is the value before it, which is then the nominal one. */
export function bins(scanner: Scanner, stated?: NumberWithUnit): Stated {
  const found = readBins(scanner);
  const last = found.at(-1) as Bin;
  const lent = last.value.scale ?? stated?.scale ?? one;
  const missing = found.find(({ value }) => value.scale === undefined);
  if (missing !== undefined && found.slice(0, -1).some(({ value }) => value.scale !== undefined))
    throw scanner.trouble(missing.value.number.at, "write a unit behind each value, or behind the last alone");
  const values = found.map(({ value }) => binValue(scanner, value, lent));
  const first = stated ?? (found[0] as Bin).value;
  const scale = first.scale ?? lent;
  const spread = { kind: "discrete", values, ...sharesOf(scanner, found) } as const;
  if (stated === undefined) return { nominal: values[0] as number, scale, spread };
  const own = binValue(scanner, stated, lent);
  const nominal = values.find((value) => Math.abs(value - own) <= 1e-12 * Math.abs(own));
  if (nominal === undefined) throw scanner.trouble(stated.number.at, `${numberText(stated.number)} is none of the values listed`);
  return { nominal, scale, spread };
}

function readBins(scanner: Scanner): readonly Bin[] {
  const found: Bin[] = [];
  do {
    const value = readValue(scanner);
    const share = scanner.take(/^\( ?(\d+(?:\.\d+)?) ?% ?\)/);
    found.push({ value, share: share && Number(share[1]) });
  } while (scanner.take(/^,/));
  if (found.length > 1) return found;
  throw scanner.trouble(scanner.at, "one value alone is exact; write at least two, or the value without one of");
}

function binValue(scanner: Scanner, { number, scale }: NumberWithUnit, lent: Unit<any>): number {
  const own = scale ?? lent;
  if (!comparable(own.dimension, lent.dimension) || !sameLevel(own, lent))
    throw scanner.trouble(number.at, `the values are ${named(own)} and ${named(lent)}`);
  return framed(scanner, number, own).nominal;
}

function sharesOf(scanner: Scanner, found: readonly Bin[]): { readonly shares?: readonly number[] } {
  const shares = found.flatMap(({ share }) => (share === undefined ? [] : [share]));
  refuseTwice(scanner, found);
  if (shares.length === 0) return {};
  const without = found.find(({ share }) => share === undefined);
  if (without !== undefined) throw scanner.trouble(without.value.number.at, "a share stands behind each value or behind none");
  const sum = shares.reduce((total, share) => total + share, 0);
  if (shares.some((share) => share === 0) || Math.abs(sum - 100) > slack)
    throw scanner.trouble(scanner.at - 1, `the shares are above zero and add up to 100 %, not to ${Number(sum.toPrecision(6))} %`);
  return { shares: shares.map((share) => share / sum) };
}

function refuseTwice(scanner: Scanner, found: readonly Bin[]): void {
  const lent = (found.at(-1) as Bin).value.scale ?? one;
  const values = found.map(({ value }) => binValue(scanner, value, value.scale ?? lent));
  const at = values.findIndex((value, i) => values.indexOf(value) < i);
  if (at >= 0) throw scanner.trouble((found[at] as Bin).value.number.at, `${numberText((found[at] as Bin).value.number)} stands twice`);
}
