/**
 * A second reader of quantities: it tries every way to cut a text into the forms of the grammar and gives all complete
 * readings. A text that the library accepts must have exactly one meaning here, and the same. Shares no code with it.
 */
import {
  type Amount,
  amount,
  type Num,
  none,
  number,
  sameLooks,
  skip,
  units,
  type Val,
  value,
  type Ways,
  word,
} from "./independent-pieces";
import { type Exponents, type ReadUnit, readUnitText } from "./independent-units";

export interface Reading {
  readonly si: number;
  readonly exponents: Exponents;
  readonly kind: string;
  readonly spread: string;
  /** In SI, or in decibels where the unit is a level. For normal: nominal ± σ. */
  readonly low: number;
  readonly high: number;
  readonly coverage?: number;
  readonly freedom?: number;
  /** Stated as a factor: low and high are 20·lg of the limits in coherent units. */
  readonly factor?: true;
  /** Of a list: its values in SI and the share of each. */
  readonly bins?: readonly (readonly [value: number, share: number])[];
}

/** Every meaning of a text, without repetitions. */
export function readings(text: string): readonly Reading[] {
  const s = sameLooks(text);
  const all = forms(s).filter((reading): reading is Reading => reading !== undefined && isFiniteReading(reading));
  return all.filter((reading, i) => all.findIndex((other) => sameReading(reading, other)) === i);
}

function isFiniteReading({ si, low, high }: Reading): boolean {
  return [si, low, high].every(Number.isFinite);
}

/** Equal to rounding: numbers to 10⁻¹¹ of the larger of value and limits. */
export function sameReading(a: Reading, b: Reading): boolean {
  const size = Math.max(
    ...[a, b].flatMap(({ low, high, spread, si }) => (spread === "exact" ? [Math.abs(si)] : [Math.abs(low), Math.abs(high)])),
  );
  const near = (x: number, y: number) => x === y || Math.abs(x - y) <= 1e-11 * Math.max(size, Math.abs(x));
  return (
    a.kind === b.kind &&
    a.spread === b.spread &&
    a.coverage === b.coverage &&
    a.freedom === b.freedom &&
    a.factor === b.factor &&
    a.bins?.length === b.bins?.length &&
    (a.bins ?? []).every(([x, p], i) => {
      const [y, q] = (b.bins ?? [])[i] as readonly [number, number];
      return near(x, y) && Math.abs(p - q) < 1e-9;
    }) &&
    a.exponents.every((e, i) => e === b.exponents[i]) &&
    (a.si === b.si || Math.abs(a.si - b.si) <= 1e-11 * Math.max(Math.abs(a.si), a.spread === "exact" ? 0 : size)) &&
    near(a.low, b.low) &&
    near(a.high, b.high)
  );
}

// --- forms

const plusMinus = /±|\+\/-|\+-/;
const to = /to(?!\w)|…|\.\.\.?(?!\.)|–/;

function forms(s: string): (Reading | undefined)[] {
  const ends = <T>(ways: Ways<T>) => ways.filter(([, end]) => skip(s, end) === s.length).map(([piece]) => piece);
  const out: (Reading | undefined)[] = [...alone(s), ...bracketed(s), ...minTypMax(s), ...bins(s)];
  out.push(...ends(value(s, 0)).map(plain));
  for (const [v, end] of value(s, 0)) {
    if (v.x.brackets !== undefined) {
      const freedom = freedomIn(s.slice(skip(s, end)));
      const read = plain(v);
      if (freedom !== undefined && read !== undefined) out.push({ ...read, freedom });
      continue;
    }
    for (const [a, after] of follow(s, end, /×\/÷/, number)) out.push(...tails(s, after).map((tail) => times(v, a, tail)));
    for (const [a, after] of follow(s, end, plusMinus, amount)) out.push(...tails(s, after).map((tail) => tolerance(v, a, tail)));
    for (const [a, after] of follow(s, end, /σ|sigma(?!\w)/, amount))
      out.push(
        ...freedoms(s.slice(skip(s, after))).map((freedom) => tolerance(v, a, { spread: "normal", sigmas: 1, coverage: 3, ...freedom })),
      );
    for (const [a, after] of amount(s, end)) {
      for (const b of ends(follow(s, after, /\//, amount))) if (/^[+-]/.test(s.slice(skip(s, end)))) out.push(unequal(v, a, b));
    }
    for (const w of ends(follow(s, end, to, value))) out.push(between(undefined, v, w, "range"));
    for (const [a, after] of follow(s, end, /in /, value))
      for (const b of ends(follow(s, after, to, value))) out.push(between(v, a, b, "range"));
    for (const [a, after] of follow(s, end, /\(/, value)) {
      for (const [b, last] of follow(s, after, to, value)) out.push(...inBrackets(s, v, a, b, last));
    }
  }
  return out;
}

function follow<T>(s: string, i: number, before: RegExp, read: (s: string, i: number) => Ways<T>): Ways<T> {
  const at = word(s, i, before);
  return at < 0 ? [] : read(s, at);
}

interface Tail {
  readonly spread: string;
  readonly sigmas: number;
  readonly coverage?: number;
  readonly freedom?: number;
}

/** Degrees of freedom, where they are all that is left. */
function freedomIn(rest: string): number | undefined {
  const match = /^(?:ν|dof(?!\w)) ?(\d+(?:\.\d+)?) *$/.exec(rest);
  return match === null || Number(match[1]) < 1 ? undefined : Number(match[1]);
}

/** Nothing left, or degrees of freedom. */
function freedoms(rest: string): { readonly freedom?: number }[] {
  const freedom = freedomIn(rest);
  return rest.trim() === "" ? [{}] : freedom === undefined ? [] : [{ freedom }];
}

/** How what follows the amount says it is distributed, to the end of the text. */
function tails(s: string, i: number): Tail[] {
  const rest = s.slice(skip(s, i)).trim();
  const sigma = /^\( ?±? ?(\d+(?:\.\d+)?) ?(?:σ|sigma) ?\) *(.*)$/s.exec(rest);
  if (sigma !== null) {
    const coverage = Number(sigma[1]);
    return coverage > 0
      ? freedoms(sigma[2] as string).map((freedom) => ({ spread: "normal", sigmas: coverage, coverage, ...freedom }))
      : [];
  }
  if (/^\( ?triangular ?\)$/.test(rest)) return [{ spread: "triangular", sigmas: 1 }];
  return freedoms(rest.replace(/^\( ?rectangular ?\) */, "")).map((freedom) => ({ spread: "rectangular", sigmas: 1, ...freedom }));
}

function inBrackets(s: string, v: Val, a: Val, b: Val, i: number): (Reading | undefined)[] {
  const match = /^(?:, ?(triangular|rectangular))? *\)(.*)$/s.exec(s.slice(skip(s, i)));
  if (match === null) return [];
  const spread = match[1] ?? "split";
  const behind = (match[2] as string).trim();
  if (behind === "") return [between(v, a, b, spread)];
  const freedom = freedomIn(behind);
  const read = spread === "rectangular" && freedom !== undefined ? between(v, a, b, spread) : undefined;
  if (read !== undefined) return [{ ...read, freedom: freedom as number }];
  const unit = readUnitText(behind);
  if (unit === undefined || unit.form !== "linear" || v.unit !== undefined || a.unit !== undefined || b.unit !== undefined) return [];
  return [between({ ...v, unit }, { ...a, unit }, { ...b, unit }, spread)];
}

// --- meanings

function si(x: number, unit: ReadUnit): number {
  if (unit.form === "gauge") return 0.127e-3 * 92 ** ((36 - x) / 39);
  if (unit.decibels !== undefined) return unit.decibels.reference * 10 ** (x / unit.decibels.factor);
  return (x + (unit.offset ?? 0)) * unit.factor;
}

/** In decibels for a level, else in SI. */
function own(x: number, unit: ReadUnit): number {
  return unit.decibels === undefined ? si(x, unit) : x;
}

function reading(x: number, unit: ReadUnit, spread: string, low: number, high: number, coverage?: number): Reading | undefined {
  const { exponents, kind } = unit;
  return { si: si(x, unit), exponents, kind, spread, low, high, ...(coverage === undefined ? {} : { coverage }) };
}

function plain({ x, unit = none }: Val): Reading | undefined {
  const centre = own(x.value, unit);
  if (x.brackets === undefined) return reading(x.value, unit, "exact", centre, centre);
  if (unit.form === "gauge" || x.brackets === 0) return undefined;
  const sigma = x.brackets * (unit.form === "level" ? 1 : unit.factor);
  return reading(x.value, unit, "normal", centre - sigma, centre + sigma, 3);
}

/** The unit of a value and the half width of an amount, in the numbers of its spread. */
function framed({ x, unit }: Val, amount: Amount, among: readonly Amount[] = [amount]): { unit: ReadUnit; width: number } | undefined {
  const lent = among.find((a) => a.own !== undefined);
  const whole = unit ?? (lent?.own?.share ? (x.value === 0 ? lent.own : undefined) : lent?.own) ?? (lent === undefined ? none : undefined);
  const behind = amount.width ?? lent?.width;
  if (whole === undefined || whole.form === "gauge" || amount.x.brackets !== undefined || x.brackets !== undefined) return undefined;
  if (whole.form === "level") {
    const decibels = behind === undefined || behind.plainDecibel || behind === whole;
    return decibels ? { unit: whole, width: amount.x.value } : undefined;
  }
  if (behind === undefined) return { unit: whole, width: amount.x.value * whole.factor };
  if (behind.form === "level" || behind.form === "gauge") return undefined;
  if (behind.share && whole.share) return x.value === 0 ? { unit: whole, width: amount.x.value * behind.factor } : undefined;
  if (behind.share)
    return whole.form === "point" ? undefined : { unit: whole, width: Math.abs(si(x.value, whole)) * (amount.x.value * behind.factor) };
  const fits = behind.exponents.every((e, i) => e === whole.exponents[i]) && kindsAdd(whole.kind, behind.kind);
  return fits ? { unit: whole, width: amount.x.value * behind.factor } : undefined;
}

function kindsAdd(a: string, b: string): boolean {
  if (a === "temperature") return b !== "temperature";
  return a === b || a === "" || b === "";
}

function tolerance(v: Val, amount: Amount, { spread, sigmas, coverage, freedom }: Tail): Reading | undefined {
  const frame = framed(v, amount);
  if (frame === undefined || amount.x.signed || (v.coded && amount.width === undefined)) return undefined;
  const centre = own(v.x.value, frame.unit);
  const half = frame.width / sigmas;
  if (half === 0 && spread === "normal") return undefined;
  const exact = half === 0 && spread === "rectangular";
  if (exact && freedom !== undefined) return undefined;
  const read = reading(v.x.value, frame.unit, exact ? "exact" : spread, centre - half, centre + half, coverage);
  return read && freedom !== undefined ? { ...read, freedom } : read;
}

/** A factor either way: ± on the logarithm. */
function times({ x, unit = none }: Val, ratio: Num, { spread, sigmas, coverage, freedom }: Tail): Reading | undefined {
  if (x.brackets !== undefined || ratio.brackets !== undefined || unit.form !== "linear" || !(x.value > 0)) return undefined;
  if (ratio.signed || !(ratio.value > 1)) return undefined;
  const centre = 20 * Math.log10(si(x.value, unit));
  const half = (20 * Math.log10(ratio.value)) / sigmas;
  const read = reading(x.value, unit, spread, centre - half, centre + half, coverage);
  return read && { ...read, factor: true, ...(freedom === undefined ? {} : { freedom }) };
}

/** `one of a, b`, `a, one of a (x %), b (x %)`. */
function bins(s: string): (Reading | undefined)[] {
  const match = /^(?:(.*?), ?)?one of(?!\w)(.*)$/s.exec(s);
  if (match === null) return [];
  const items = (match[2] as string).split(",").map((item) => /^(.*?)(?: *\( ?(\d+(?:\.\d+)?) ?% ?\) *)?$/s.exec(item) as RegExpExecArray);
  if (items.length < 2) return [];
  const shares = items.map((item) => (item[2] === undefined ? undefined : Number(item[2])));
  const whole = (text: string): Val[] =>
    value(text, 0)
      .filter(([v, end]) => skip(text, end) === text.length && v.x.brackets === undefined)
      .map(([v]) => v);
  const texts = [...items.map((item) => item[1] as string), ...(match[1] === undefined ? [] : [match[1]])];
  const choices = texts.map(whole).reduce<Val[][]>((all, vs) => all.flatMap((found) => vs.map((v) => [...found, v])), [[]]);
  return choices.map((all) => ofBins(all.slice(0, items.length), all[items.length], shares));
}

function ofBins(all: readonly Val[], stated: Val | undefined, shares: readonly (number | undefined)[]): Reading | undefined {
  const unit = all.at(-1)?.unit ?? stated?.unit ?? none;
  const everyOne = [...all, ...(stated === undefined ? [] : [stated])];
  if (everyOne.some((v) => v.coded) && everyOne.some((v) => v.unit === undefined)) return undefined;
  if (all.some((v) => v.unit === undefined) && all.slice(0, -1).some((v) => v.unit !== undefined)) return undefined;
  const alike = everyOne.every(({ unit: own = unit }) => {
    const level = own.decibels?.factor === unit.decibels?.factor && own.decibels?.reference === unit.decibels?.reference;
    return (
      level && own.exponents.every((e, i) => e === unit.exponents[i]) && (own.kind === unit.kind || own.kind === "" || unit.kind === "")
    );
  });
  if (!alike) return undefined;
  const values = all.map((v) => si(v.x.value, v.unit ?? unit));
  if (new Set(values).size < values.length) return undefined;
  const sum = shares.reduce<number>((total, share) => total + (share ?? 0), 0);
  const given = shares.filter((share) => share !== undefined);
  if (given.length > 0 && (given.length < shares.length || given.includes(0) || Math.abs(sum - 100) > 0.5)) return undefined;
  const first = stated ?? (all[0] as Val);
  const nominal = si(first.x.value, first.unit ?? unit);
  if (!values.some((one) => Math.abs(one - nominal) <= 1e-11 * Math.abs(nominal))) return undefined;
  const { exponents, kind } = first.unit ?? unit;
  const parts = values.map((one, i): [number, number] => [one, given.length > 0 ? (shares[i] as number) / sum : 1 / values.length]);
  return { si: nominal, exponents, kind, spread: "discrete", low: Math.min(...values), high: Math.max(...values), bins: parts };
}

function unequal(v: Val, a: Amount, b: Amount): Reading | undefined {
  const [first, second] = [framed(v, a, [a, b]), framed(v, b, [b, a])];
  if (first === undefined || second === undefined || !a.x.signed || !b.x.signed || Object.is(Math.sign(a.x.value), Math.sign(b.x.value)))
    return undefined;
  if (v.coded && a.width === undefined && b.width === undefined) return undefined;
  const centre = own(v.x.value, first.unit);
  const ends = [centre + first.width, centre + second.width];
  const shares = [a, b].map((one) => (one.width ?? a.width ?? b.width)?.share === true && !first.unit.share);
  if (shares[0] !== shares[1]) return undefined;
  const mirrored = shares[0] && centre < 0 ? ends.map((end) => 2 * centre - end) : ends;
  return reading(v.x.value, first.unit, "split", Math.min(...mirrored), Math.max(...mirrored));
}

function between(v: Val | undefined, a: Val, b: Val, spread: string): Reading | undefined {
  if ([v, a, b].some((one) => one?.x.brackets !== undefined)) return undefined;
  const all = [v ?? a, a, b];
  if (all.some((one) => one.coded) && all.some((one) => one.unit === undefined)) return undefined;
  const unit = a.unit ?? b.unit ?? v?.unit ?? none;
  const other = b.unit ?? unit;
  const whole = v?.unit ?? unit;
  const alike = (one: ReadUnit) =>
    one.exponents.every((e, i) => e === unit.exponents[i]) &&
    one.decibels?.factor === unit.decibels?.factor &&
    one.decibels?.reference === unit.decibels?.reference &&
    (one.kind === unit.kind || one.kind === "" || unit.kind === "");
  if (!alike(other) || !alike(whole)) return undefined;
  const [low, high] = [own(a.x.value, unit), own(b.x.value, other)];
  if (low > high) return undefined;
  if (v !== undefined) {
    const centre = own(v.x.value, whole);
    const slack = 1e-11 * Math.max(Math.abs(low), Math.abs(high));
    return centre < low - slack || centre > high + slack ? undefined : reading(v.x.value, whole, spread, low, high);
  }
  const centre = (low + high) / 2;
  const { exponents, kind } = unit;
  return { si: unit.decibels === undefined ? centre : si(centre, unit), exponents, kind, spread, low, high };
}

/** ±1 %: about zero, or about 0 dB. */
function alone(s: string): (Reading | undefined)[] {
  return follow(s, 0, plusMinus, amount).flatMap(([a, end]) => {
    const unit = a.width ?? none;
    const zero: Val = { x: { value: 0, signed: false }, unit };
    return tails(s, end).map((tail) => tolerance(zero, { x: a.x }, tail));
  });
}

function bracketed(s: string): (Reading | undefined)[] {
  const out: (Reading | undefined)[] = [];
  for (const [first, end] of follow(s, 0, /\(/, number)) {
    for (const pattern of [plusMinus, to]) {
      for (const [second, after] of follow(s, end, pattern, number)) {
        const closed = word(s, after, /\)/);
        if (closed < 0) continue;
        for (const [text, last] of units(s, closed)) {
          const unit = text === "" ? none : (readUnitText(text) as ReadUnit);
          if (pattern === plusMinus) out.push(...tails(s, last).map((tail) => tolerance({ x: first, unit }, { x: second }, tail)));
          else if (skip(s, last) === s.length) out.push(between(undefined, { x: first, unit }, { x: second, unit }, "range"));
        }
      }
    }
  }
  return out;
}

function minTypMax(s: string): (Reading | undefined)[] {
  let ways: [Record<string, Val>, number][] = [[{}, 0]];
  for (let turn = 0; turn < 3; turn++) {
    ways = ways.flatMap(([found, end]) => {
      const match = /^(?:[,;] *)?(min|typ|max)(?!\w)\.?/.exec(s.slice(skip(s, end)));
      if (match === null || (turn === 0 && /^[,;]/.test(match[0])) || (match[1] as string) in found) return [];
      return value(s, skip(s, end) + match[0].length).map(([v, after]): [Record<string, Val>, number] => [
        { ...found, [match[1] as string]: v },
        after,
      ]);
    });
  }
  return ways
    .filter(([, end]) => skip(s, end) === s.length)
    .map(([{ min, typ, max }]) => {
      const lent = [typ, max, min].find((one) => one?.unit !== undefined)?.unit ?? none;
      const [low, nominal, high] = [min, typ, max] as [Val, Val, Val];
      const unit = low.unit ?? high.unit ?? lent;
      const all = [low, nominal, high];
      if (all.some((one) => one.coded) && all.some((one) => one.unit === undefined)) return undefined;
      return between({ ...nominal, unit: nominal.unit ?? lent }, { ...low, unit }, { ...high, unit: high.unit ?? unit }, "split");
    });
}
