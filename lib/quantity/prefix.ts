/** SI prefixes, once for every unit. SI Brochure 9th ed. (2019, 2022 update) table 7. */
export interface Prefix {
  readonly symbol: string;
  readonly name: string;
  /** Power of ten. */
  readonly exponent: number;
  /** Other ways of typing it. */
  readonly aliases?: readonly string[];
}

const prefixes: readonly Prefix[] = [
  { symbol: "q", name: "quecto", exponent: -30 },
  { symbol: "r", name: "ronto", exponent: -27 },
  { symbol: "y", name: "yocto", exponent: -24 },
  { symbol: "z", name: "zepto", exponent: -21 },
  { symbol: "a", name: "atto", exponent: -18 },
  { symbol: "f", name: "femto", exponent: -15 },
  { symbol: "p", name: "pico", exponent: -12 },
  { symbol: "n", name: "nano", exponent: -9 },
  { symbol: "µ", name: "micro", exponent: -6, aliases: ["u"] },
  { symbol: "m", name: "milli", exponent: -3 },
  { symbol: "c", name: "centi", exponent: -2 },
  { symbol: "d", name: "deci", exponent: -1 },
  { symbol: "da", name: "deca", exponent: 1 },
  { symbol: "h", name: "hecto", exponent: 2 },
  { symbol: "k", name: "kilo", exponent: 3 },
  { symbol: "M", name: "mega", exponent: 6 },
  { symbol: "G", name: "giga", exponent: 9 },
  { symbol: "T", name: "tera", exponent: 12 },
  { symbol: "P", name: "peta", exponent: 15 },
  { symbol: "E", name: "exa", exponent: 18 },
  { symbol: "Z", name: "zetta", exponent: 21 },
  { symbol: "Y", name: "yotta", exponent: 24 },
  { symbol: "R", name: "ronna", exponent: 27 },
  { symbol: "Q", name: "quetta", exponent: 30 },
];

const bySymbol = new Map(prefixes.map((prefix) => [prefix.symbol, prefix]));

/** The prefix with this symbol. */
export function prefixOf(symbol: string): Prefix | undefined {
  return bySymbol.get(symbol);
}
