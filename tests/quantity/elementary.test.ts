/** Elementary functions: near the engine's own, right at their special values, and the same bits in every engine. */
import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { buildSync } from "esbuild";
import { describe, expect, it } from "vitest";
import * as elementary from "../../lib/quantity/elementary";
import { launch, noChromium } from "../document/browser";

type Unary = Exclude<keyof typeof elementary, "atan2">;

/** Interval from which arguments are drawn; logarithms draw its exponential. */
const domains: Readonly<Record<Unary, readonly [number, number]>> = {
  exp: [-700, 700],
  expm1: [-20, 20],
  log1p: [0, 3],
  ln: [-300, 300],
  log10: [-300, 300],
  log2: [-300, 300],
  cbrt: [-1e6, 1e6],
  sin: [-1e6, 1e6],
  cos: [-1e6, 1e6],
  tan: [-1e3, 1e3],
  asin: [-1, 1],
  acos: [-1, 1],
  atan: [-50, 50],
  sinh: [-20, 20],
  cosh: [-20, 20],
  tanh: [-8, 8],
};
const unary = Object.keys(domains) as Unary[];

/** Runs in Node and, as text, in the browser: only integer arithmetic and the functions under test. */
function bitsOf(functions: typeof elementary, name: Unary, [low, high]: readonly [number, number], count: number): string {
  let state = 777;
  const random = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 4294967296;
  };
  const value = new Float64Array(1);
  const words = new Uint32Array(value.buffer);
  let hash = 0;
  for (let i = 0; i < count; i++) {
    const x = low + (high - low) * random();
    value[0] = functions[name](name.startsWith("l") ? functions.exp(x) : x) + functions.atan2(x, random() - 0.5);
    hash = (Math.imul(hash ^ (words[0] ?? 0), 16777619) ^ (words[1] ?? 0)) >>> 0;
  }
  return hash.toString(16);
}

/** Distance in units of the last place of b. */
const ulps = (a: number, b: number) => (a === b ? 0 : Math.abs(a - b) / (Math.abs(b) * 2 ** -52));

describe("elementary functions", () => {
  it.each(unary)("%s is within three units in the last place of the engine's", (name) => {
    const [low, high] = domains[name];
    const engine = name === "ln" ? Math.log : Math[name];
    let worst = 0;
    for (let i = 0; i <= 100_000; i++) {
      const x = low + (high - low) * (i / 100_000);
      const argument = name.startsWith("l") ? Math.exp(x) : x;
      worst = Math.max(worst, ulps(elementary[name](argument), engine(argument)));
    }
    // Near its zeros a sine has few correct digits left in either; the absolute error still is below one ulp of 1.
    expect(worst).toBeLessThan(name === "tan" ? 6 : 4);
  });

  it("are exact where exactness is expected", () => {
    const { exp, ln, log10, log2, cbrt, sin, cos, tan, atan2 } = elementary;
    expect([exp(0), ln(1), log10(1000), log10(1e22), log2(8), log2(0.25), cbrt(27), cbrt(-8), sin(0), cos(0), tan(0)]).toEqual([
      1, 0, 3, 22, 3, -2, 3, -2, 0, 1, 0,
    ]);
    expect([atan2(0, -1), atan2(-0, -1), atan2(1, 0), atan2(-1, -1)]).toEqual([Math.PI, -Math.PI, Math.PI / 2, (-3 * Math.PI) / 4]);
  });

  it("have the engine's values at infinities, zeros, subnormals and outside their domains", () => {
    for (const name of unary) {
      const engine = name === "ln" ? Math.log : Math[name];
      for (const x of [Infinity, -Infinity, Number.NaN, 0, -0, 1000, -1000, 5e-324, 2]) {
        const own = elementary[name](x);
        if (Number.isFinite(engine(x)) && engine(x) !== 0) expect(ulps(own, engine(x)), `${name}(${x})`).toBeLessThan(4);
        else expect(own, `${name}(${x})`).toBe(engine(x));
      }
    }
  });

  it("take published values", () => {
    // Abramowitz and Stegun, Handbook of Mathematical Functions (1964), tables 1.1 and 4.x (from memory), to 15 digits.
    expect(elementary.exp(1)).toBeCloseTo(2.718281828459045, 14);
    expect(elementary.ln(10)).toBeCloseTo(2.302585092994046, 14);
    expect(elementary.sin(1)).toBeCloseTo(0.841470984807897, 14);
    expect(elementary.atan(1) * 4).toBeCloseTo(3.141592653589793, 14);
    expect(elementary.cosh(1)).toBeCloseTo(1.543080634815244, 14);
  });

  it("are the only ones that evaluation calls", () => {
    const lib = resolve(__dirname, "../../lib");
    const own = /Math\.(exp|expm1|log|log1p|log10|log2|pow|sin|cos|tan|asin|acos|atan|atan2|sinh|cosh|tanh|cbrt|hypot)\(/;
    const files = ["quantity", "formula", "graph", "analysis", "physics"].flatMap((floor) =>
      readdirSync(join(lib, floor)).map((file) => join(lib, floor, file)),
    );
    expect(files.filter((file) => !file.endsWith("elementary.ts") && own.test(readFileSync(file, "utf8")))).toEqual([]);
  });

  it("give known bits, in this and every other version of Node", () => {
    const hashes = unary.map((name) => bitsOf(elementary, name, domains[name], 20_000)).join(" ");
    expect(createHash("sha256").update(hashes).digest("hex").slice(0, 16)).toMatchInlineSnapshot(`"2c578aa76c08d5d1"`);
  });

  it.skipIf(noChromium)("give the same bits in Chromium", { timeout: 120_000 }, async () => {
    const bundled = buildSync({
      entryPoints: [resolve(__dirname, "../../lib/quantity/elementary.ts")],
      bundle: true,
      format: "iife",
      globalName: "elementary",
      write: false,
    }).outputFiles[0]?.text;
    const browser = await launch();
    try {
      const page = await browser.newPage();
      await page.addScriptTag({ content: `${bundled};globalThis.bitsOf=${bitsOf.toString()}` });
      for (const name of unary) {
        const theirs = await page.evaluate<string>(`bitsOf(elementary, "${name}", ${JSON.stringify(domains[name])}, 100000)`);
        expect(theirs, name).toBe(bitsOf(elementary, name, domains[name], 100_000));
      }
    } finally {
      await browser.close();
    }
  });
});
