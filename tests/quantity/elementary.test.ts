/** Elementary functions: near the exact values, right at their special ones, and the same bits in every engine. */
import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { buildSync } from "esbuild";
import { describe, expect, it } from "vitest";
import * as elementary from "../../lib/quantity/elementary";
import { noChromium, sharedBrowser } from "../document/browser";
import { inFull } from "../full";
import { exact, fixed, ulpsFrom } from "./exact";

type Unary = Exclude<keyof typeof elementary, "atan2">;
type Interval = readonly [low: number, high: number];

/** Intervals from which arguments are drawn; those marked `powers` hold the natural logarithm of the argument's size. */
const domains: Readonly<
  Record<Unary, { readonly plain?: readonly Interval[]; readonly powers?: readonly Interval[]; readonly signed?: true }>
> = {
  exp: {
    plain: [
      [-1, 1],
      [-150, 709.7],
    ],
  },
  expm1: {
    plain: [
      [-1.2, 1.2],
      [-40, 709.7],
    ],
    powers: [[-60, 0]],
    signed: true,
  },
  ln: {
    plain: [
      [0.5, 1.5],
      [0.9999, 1.0001],
    ],
    powers: [[-130, 700]],
  },
  log10: {
    plain: [
      [0.5, 1.5],
      [0.9999, 1.0001],
    ],
    powers: [[-130, 700]],
  },
  log2: {
    plain: [
      [0.5, 1.5],
      [1.4, 1.43],
    ],
    powers: [[-130, 700]],
  },
  log1p: { plain: [[-0.99999, 5]], powers: [[-60, 200]] },
  cbrt: { plain: [[0.5, 8]], powers: [[-130, 600]], signed: true },
  sin: {
    plain: [
      [-4, 4],
      [-1e6, 1e6],
    ],
    powers: [[-60, 30]],
    signed: true,
  },
  cos: {
    plain: [
      [-4, 4],
      [-1e6, 1e6],
    ],
    powers: [[-60, 30]],
    signed: true,
  },
  tan: {
    plain: [
      [-4, 4],
      [-1e6, 1e6],
    ],
    powers: [[-60, 30]],
    signed: true,
  },
  asin: {
    plain: [
      [-1, 1],
      [0.999, 1],
    ],
    powers: [[-60, 0]],
    signed: true,
  },
  acos: {
    plain: [
      [-1, 1],
      [0.999, 1],
    ],
    powers: [[-60, 0]],
    signed: true,
  },
  atan: { plain: [[-3, 3]], powers: [[-60, 60]], signed: true },
  sinh: {
    plain: [
      [-3, 3],
      [-40, 40],
      [700, 710.4],
    ],
    powers: [[-60, 0]],
    signed: true,
  },
  cosh: {
    plain: [
      [-3, 3],
      [-40, 40],
      [700, 710.4],
    ],
  },
  tanh: {
    plain: [
      [-3, 3],
      [-25, 25],
    ],
    powers: [[-60, 0]],
    signed: true,
  },
};
const unary = Object.keys(domains) as Unary[];

/** `count` arguments of a function; the same in Node and, as text, in a browser. */
function argumentsOf(name: Unary, count: number, from: typeof domains, { exp }: typeof elementary): Float64Array {
  let state = 777;
  const random = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (state + 0.5) / 4294967296;
  };
  const { plain = [], powers = [], signed } = from[name];
  const all = [...plain, ...powers];
  return Float64Array.from({ length: count }, (_, i) => {
    const [low, high] = all[i % all.length] as Interval;
    const x = low + (high - low) * random();
    if (i % all.length < plain.length) return x;
    return signed && random() < 0.5 ? -exp(x) : exp(x);
  });
}

/** Hash of the bits of the values at those arguments. */
function bitsOf(xs: Float64Array, f: (x: number, i: number) => number): string {
  const words = new Uint32Array(xs.map(f).buffer);
  let hash = 0;
  for (const word of words) hash = Math.imul(hash ^ word ^ (hash >>> 15), 16777619) >>> 0;
  return hash.toString(16);
}

/** Arguments that are held against exact values. */
const drawn = inFull(6000, 1000);

const engine = (name: Unary): ((x: number) => number) => (name === "ln" ? Math.log : Math[name]);
const ulps = (a: number, b: number): number => (a === b ? 0 : Math.abs(a - b) / Math.max(Math.abs(b) * 2 ** -52, 5e-324));

describe("elementary functions", () => {
  it.each(unary)("%s is within two units in the last place of the exact value", (name) => {
    const xs = argumentsOf(name, drawn, domains, elementary);
    const worst = Math.max(...Array.from(xs, (x) => ulpsFrom(elementary[name](x), exact[name](fixed(x)))));
    expect(worst).toBeLessThan(2);
    expect(worst).toBeGreaterThan(0.4);
  });

  it("atan2 is within two units in the last place of the exact value", () => {
    const ys = argumentsOf("atan", drawn, domains, elementary);
    const xs = argumentsOf("sin", drawn, domains, elementary);
    const worst = Math.max(
      ...Array.from(ys, (y, i) => ulpsFrom(elementary.atan2(y, xs[i] as number), exact.atan2(fixed(y), fixed(xs[i] as number)))),
    );
    expect(worst).toBeLessThan(2);
  });

  it("sine, cosine and tangent are right next to multiples of π/2 and beyond 2²⁰", () => {
    const turns = Array.from({ length: 2000 }, (_, i) => (i * 331 * Math.PI) / 2);
    // 6381956970095103·2^797 is the double closest to a multiple of π/2 (J.-M. Muller, Elementary Functions, from memory).
    for (const x of [...turns, 2 ** 20, 2 ** 20 + 2 ** -32, 2 ** 52 + 1, 2 ** 53, 1e22, 1e30]) {
      for (const name of ["sin", "cos", "tan"] as const) {
        if (x !== 0) expect(ulpsFrom(elementary[name](x), exact[name](fixed(x))), `${name}(${x})`).toBeLessThan(1);
      }
    }
    expect(ulps(elementary.cos(6381956970095103 * 2 ** 797), -4.687165924254628e-19)).toBeLessThanOrEqual(1);
    expect(elementary.sin(1e22)).toBe(-0.8522008497671888);
  });

  it("are exact where exactness is expected", () => {
    const { exp, ln, log10, log2, cbrt, sin, cos, tan, asin, acos, cosh, expm1 } = elementary;
    expect([exp(0), ln(1), sin(0), cos(0), tan(0), expm1(0), cosh(0), acos(1)]).toEqual([1, 0, 0, 1, 0, 0, 1, 0]);
    expect([asin(1), acos(0), acos(-1)]).toEqual([Math.PI / 2, Math.PI / 2, Math.PI]);
    for (let k = -323; k <= 308; k++) expect(log10(Number(`1e${k}`))).toBe(k);
    for (let k = -1074, x = 5e-324; k <= 1023; k++, x *= 2) expect(log2(x)).toBe(k);
    for (let n = 1; n <= 20_000; n++) expect(cbrt(n * n * n)).toBe(n);
    expect([cbrt(27), cbrt(-8), log10(1000), log2(8)]).toEqual([3, -2, 3, 3]);
  });

  it("have the engine's values at infinities, zeros of either sign, subnormals, and where they end", () => {
    const ends = [
      709.782712893384, 709.7827128933841, -745.1332191019411, -745.1332191019412, -708.5, -740.3, 710.4758600739439, 710.475860073944,
    ];
    const sizes = [Infinity, 0, 5e-324, 1e-310, 2.2250738585072014e-308, 1e-17, 0.5, 1, 2, 40, 1000, 1e300, Number.MAX_VALUE];
    const all = [...ends, Number.NaN, ...sizes, ...sizes.map((x) => -x)];
    for (const name of unary) {
      for (const x of all) {
        const [own, theirs] = [elementary[name](x), engine(name)(x)];
        if (Number.isFinite(theirs) && theirs !== 0) expect(ulps(own, theirs), `${name}(${x})`).toBeLessThanOrEqual(2);
        else expect(own, `${name}(${x})`).toBe(theirs);
      }
    }
    for (const y of all) {
      for (const x of all) {
        const [own, theirs] = [elementary.atan2(y, x), Math.atan2(y, x)];
        if (theirs === 0 || Number.isNaN(theirs)) expect(own, `atan2(${y}, ${x})`).toBe(theirs);
        else expect(ulps(own, theirs), `atan2(${y}, ${x})`).toBeLessThanOrEqual(2);
      }
    }
  });

  it("are the only ones that evaluation calls", () => {
    const lib = resolve(__dirname, "../../lib");
    const engines =
      /Math\.(expm1|exp|log1p|log10|log2|log|pow|sinh|cosh|tanh|asin|acos|atan2|atan|sin|cos|tan|asinh|acosh|atanh|cbrt|hypot)\b/;
    const varyingPower = /\*\*(?!\s*-?[\d.]+\b)/;
    const code = (file: string) => readFileSync(file, "utf8").replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, "");
    const files = ["quantity", "formula", "graph", "analysis", "physics"].flatMap((floor) =>
      readdirSync(join(lib, floor), { recursive: true, encoding: "utf8" })
        .filter((file) => file.endsWith(".ts"))
        .map((file) => join(lib, floor, file)),
    );
    expect(files.length).toBeGreaterThan(80);
    expect([engines.test("Math.exp"), varyingPower.test("2 ** d"), varyingPower.test("d ** 2 + 10 ** -3")]).toEqual([true, true, false]);
    expect(files.filter((file) => engines.test(code(file)) || varyingPower.test(code(file)))).toEqual([]);
  });

  it("give known bits, in this and every other version of Node", () => {
    const hashes = unary.map((name) => bitsOf(argumentsOf(name, 20_000, domains, elementary), elementary[name])).join(" ");
    expect(createHash("sha256").update(hashes).digest("hex").slice(0, 16)).toMatchInlineSnapshot(`"a5167f3b92f4fb43"`);
  });

  it.skipIf(noChromium)(
    "give the same bits in Chromium, at many arguments each (skipped where there is none)",
    { timeout: 120_000 },
    async () => {
      const entry = resolve(__dirname, "../../lib/quantity/elementary.ts");
      const bundled = buildSync({ entryPoints: [entry], bundle: true, format: "iife", globalName: "elementary", write: false })
        .outputFiles[0]?.text;
      const shared = `const domains = ${JSON.stringify(domains)}; ${argumentsOf.toString()}; ${bitsOf.toString()}`;
      const count = inFull(100_000, 5_000);
      const browser = await sharedBrowser();
      const page = await browser.newPage();
      await page.addScriptTag({ content: `${bundled};${shared}` });
      for (const name of unary) {
        const xs = argumentsOf(name, count, domains, elementary);
        const theirs = await page.evaluate<string[]>(`(() => {
          const xs = argumentsOf("${name}", ${count}, domains, elementary);
          return [bitsOf(xs, (x) => x), bitsOf(xs, elementary.${name}), bitsOf(xs, (x, i) => elementary.atan2(x, xs[xs.length - 1 - i]))];
        })()`);
        const ours = [
          bitsOf(xs, (x) => x),
          bitsOf(xs, elementary[name]),
          bitsOf(xs, (x, i) => elementary.atan2(x, xs[xs.length - 1 - i] as number)),
        ];
        expect(theirs, name).toEqual(ours);
      }
    },
  );
});
