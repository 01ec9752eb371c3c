import { describe, expect, it } from "vitest";
import {
  betweenLimits,
  drawer,
  freedomOf,
  isRange,
  isTolerance,
  nominalPart,
  standardUncertainty,
  widening,
} from "../../lib/analysis/distribution";
import { normalQuantile } from "../../lib/analysis/normal";
import { moments, orderStatistic, quantile } from "../../lib/analysis/quantile";
import { Stream } from "../../lib/analysis/stream";
import { hashDigits } from "../../lib/graph/hash";
import { exp, ln } from "../../lib/quantity/elementary";
import { limitsOf } from "../../lib/quantity/limits";
import type { Spread } from "../../lib/quantity/spread";
import { exact, given, normal, range } from "../graph/nodes";

const decibel = { factor: 20, reference: 1 } as const;
const spreads: readonly { name: string; spread: Spread; nominal: number }[] = [
  { name: "rectangular", spread: { kind: "rectangular", low: 1, high: 4 }, nominal: 2 },
  { name: "normal", spread: normal(0.5, 2), nominal: 2 },
  { name: "triangular", spread: { kind: "triangular", low: 1, high: 4 }, nominal: 2 },
  { name: "triangular with its mode at a limit", spread: { kind: "triangular", low: 2, high: 4 }, nominal: 2 },
  { name: "split", spread: { kind: "split", low: 1.9, high: 4 }, nominal: 2 },
  { name: "rectangular in decibels", spread: { kind: "rectangular", low: 6 - 8, high: 6 + 8, scale: decibel }, nominal: 10 ** 0.3 },
  { name: "normal in decibels", spread: { kind: "normal", sigma: 1.5, coverage: 3, scale: decibel }, nominal: 2 },
];
const otherSpreads: typeof spreads = [
  { name: "a list", spread: { kind: "discrete", values: [2, 1, 4] }, nominal: 2 },
  { name: "a list with shares", spread: { kind: "discrete", values: [2, 1, 4], shares: [0.6, 0.3, 0.1] }, nominal: 2 },
  { name: "a factor", spread: { kind: "rectangular", low: -3, high: 9, scale: decibel }, nominal: 10 ** (3 / 20) },
  { name: "log-normal", spread: { kind: "normal", sigma: 2, coverage: 2, scale: decibel }, nominal: 2 },
];
const all = [...spreads, ...otherSpreads];
const rows = 200_000;
const draw = (nominal: number, spread: Spread, n = rows): Float64Array => {
  const out = new Float64Array(n);
  const node = given("g", nominal, spread);
  drawer(node, new Stream(1, "g"))(out, 0, n);
  return out;
};

describe("spreads", () => {
  it.each(all)("are drawn with the standard uncertainty that first order uses: $name", ({ spread, nominal }) => {
    const u = standardUncertainty(given("g", nominal, spread));
    expect(moments(draw(nominal, spread)).deviation / u).toBeCloseTo(1, 2);
  });

  it.each(all.filter(({ spread }) => spread.kind !== "normal"))("are drawn inside their limits: $name", ({ spread, nominal }) => {
    const [low, high] = limitsOf(spread, nominal);
    expect(draw(nominal, spread).every((value) => value >= low && value <= high)).toBe(true);
  });

  it("reach their limits and nominal along the way between them", () => {
    for (const { spread, nominal } of all) {
      const node = given("g", nominal, spread);
      expect([betweenLimits(node)(0), betweenLimits(node)(1)]).toEqual(limitsOf(spread, nominal));
      expect(betweenLimits(node)(nominalPart(node))).toBeCloseTo(nominal, 12);
    }
  });

  it("have the median of min/typ/max at typ, and of decibels at the level's middle", () => {
    expect(quantile(draw(2, { kind: "split", low: 1.9, high: 4 }), 0.5)).toBeCloseTo(2, 2);
    expect(quantile(draw(2, { kind: "normal", sigma: 1.5, coverage: 3, scale: decibel }), 0.5)).toBeCloseTo(2, 2);
    expect(limitsOf({ kind: "rectangular", low: 0, high: 20, scale: decibel }, 2)[1]).toBeCloseTo(10, 12);
  });

  it("give each value of a list its share of the units, and nothing else", () => {
    const values = draw(2, { kind: "discrete", values: [2, 1, 4], shares: [0.6, 0.3, 0.1] });
    const share = (value: number) => values.filter((x) => x === value).length / values.length;
    expect([share(1), share(2), share(4)]).toEqual([0.3, 0.6, 0.1].map((p) => expect.closeTo(p, 2)));
    const node = given("g", 2, { kind: "discrete", values: [2, 1, 4] });
    expect([0, 0.2, 0.3, 0.7, 0.8, 1].map(betweenLimits(node))).toEqual([1, 1, 2, 2, 4, 4]);
  });

  it("are Student's t for readings, their standard uncertainty being σ", () => {
    const readings: Spread = { ...normal(0.5), freedom: 5 };
    const values = draw(2, readings);
    expect(standardUncertainty(given("g", 2, readings))).toBe(0.5);
    expect(moments(values).deviation).toBeCloseTo(0.5 * widening(given("g", 2, readings)), 1.6);
    // t_0.975(5) = 2.571, JCGM 100 table G.2.
    expect((quantile(values, 0.975) - 2) / 0.5).toBeCloseTo(2.571, 1);
    expect(limitsOf(readings, 2)).toEqual([0.5, 3.5]);
    expect([freedomOf(given("g", 2, readings)), freedomOf(given("g", 2, normal(1)))]).toEqual([5, Infinity]);
    expect(widening(given("g", 2, { ...normal(1), freedom: 2 }))).toBe(Infinity);
  });

  it("draw a rectangular one alike whatever its degrees of freedom", () => {
    expect(draw(2, { kind: "rectangular", low: 1, high: 4, freedom: 3 }, 100)).toEqual(
      draw(2, { kind: "rectangular", low: 1, high: 4 }, 100),
    );
  });

  it("refuse decibels about a value that has no level", () => {
    expect(() => betweenLimits(given("g", 0, { kind: "normal", sigma: 1, coverage: 3, scale: decibel }))).toThrow("needs a value above 0");
  });

  it("are tolerances, ranges or neither", () => {
    expect(
      [normal(1), range(0, 1), exact, range(1, 1), normal(0)].map((spread) => [
        isTolerance(given("g", 1, spread)),
        isRange(given("g", 1, spread)),
      ]),
    ).toEqual([
      [true, false],
      [false, true],
      [false, false],
      [false, false],
      [false, false],
    ]);
    expect(standardUncertainty(given("g", 0.5, range(0, 1)))).toBe(0);
  });
});

describe("Stream", () => {
  it("gives fixed values for a key, whatever block they are drawn in", () => {
    const stream = new Stream(1, "logic.supply");
    expect([0, 1, 2, 1_000_000].map((i) => stream.uniform(i))).toMatchInlineSnapshot(`
      [
        0.8343376073753461,
        0.9977072732290253,
        0.6498338776873425,
        0.005045006168074906,
      ]
    `);
    const whole = draw(0, normal(1), 3000);
    const part = new Float64Array(500);
    drawer(given("g", 0, normal(1)), new Stream(1, "g"))(part, 1300, 500);
    expect(part).toEqual(whole.slice(1300, 1800));
  });

  it("is uniform, in value and in the next value", () => {
    const stream = new Stream(7, "x");
    const counts = new Float64Array(256);
    for (let i = 0; i < 256_000; i++) {
      const cell = Math.floor(stream.uniform(i) * 16) * 16 + Math.floor(stream.uniform(i + 1) * 16);
      counts[cell] = (counts[cell] as number) + 1;
    }
    const chi = counts.reduce((sum, count) => sum + (count - 1000) ** 2 / 1000, 0);
    expect(chi).toBeGreaterThan(180);
    expect(chi).toBeLessThan(340);
  });

  it("is uncorrelated between keys and seeds, however alike", () => {
    const streams = [new Stream(1, "R#a"), new Stream(1, "R#b"), new Stream(2, "R#a"), new Stream(12, "R"), new Stream(1, "2 R")];
    const columns = streams.map((stream) => Float64Array.from({ length: 40_000 }, (_, i) => stream.uniform(i) - 0.5));
    for (let a = 0; a < columns.length; a++) {
      for (let b = 0; b < a; b++) {
        const product = (columns[a] as Float64Array).reduce((sum, value, i) => sum + value * (columns[b]?.[i] as number), 0) / 40_000;
        expect(Math.abs(product * 12)).toBeLessThan(0.02);
      }
    }
  });

  it("does not let one stream be another shifted", () => {
    const [a, b] = [new Stream(1, "p"), new Stream(1, "q")];
    const seen = new Set(Array.from({ length: 100_000 }, (_, i) => a.uniform(i)));
    const common = Array.from({ length: 100_000 }, (_, i) => b.uniform(i)).filter((value) => seen.has(value)).length;
    expect(common).toBeLessThan(20);
  });
});

describe("elementary functions", () => {
  it("agree with the engine's within two units in the last place", () => {
    for (let x = 1e-10; x < 1e10; x *= 1.37) {
      expect(Math.abs(ln(x) - Math.log(x))).toBeLessThanOrEqual(2 * Number.EPSILON * Math.max(Math.abs(Math.log(x)), 1e-3));
      const y = Math.log(x);
      expect(Math.abs(exp(y) / Math.exp(y) - 1)).toBeLessThanOrEqual(2 * Number.EPSILON);
    }
    expect([ln(1), exp(0), ln(2), exp(-3)]).toEqual([0, 1, Math.LN2, Math.exp(-3)]);
  });

  it("give draws that are the same to the last bit everywhere", () => {
    // Also found in Node 24 and Chromium.
    const digits = spreads.map(({ nominal, spread }) => {
      const words = new Uint32Array(draw(nominal, spread, 2000).buffer);
      return hashDigits([...words].join());
    });
    expect(digits).toMatchInlineSnapshot(`
      [
        "7184a30ae4cfadd3",
        "ae2b837f8e0e608b",
        "7ad1c3fd93eb4f51",
        "0785f5618ffc3efe",
        "c7dd5814d44dfba8",
        "87602cd375cc3f08",
        "b6ee562e6363d182",
      ]
    `);
  });
});

describe("quantiles", () => {
  it("of the normal distribution agree with tables", () => {
    // scipy.stats.norm.ppf
    expect([0.5, 0.975, 0.95, 0.001, 1e-9].map(normalQuantile)).toEqual(
      [0, 1.959963984540054, 1.6448536269514722, -3.090232306167813, -5.9978070150076865].map((z) => expect.closeTo(z, 12)),
    );
    expect(normalQuantile(0)).toBeNaN();
  });

  it("are order statistics, exact for long columns too", () => {
    const values = draw(0, normal(1), 50_000);
    const sorted = values.slice().sort();
    for (const rank of [1, 2, 1250, 25_000, 49_999, 50_000]) expect(orderStatistic(values, rank)).toBe(sorted[rank - 1]);
    expect(quantile(Float64Array.of(5, 1, 3, 2, 4), 0.4)).toBe(2);
    expect(quantile(new Float64Array(30_000).fill(7), 0.9)).toBe(7);
    expect(quantile(new Float64Array(0), 0.5)).toBeNaN();
  });
});
