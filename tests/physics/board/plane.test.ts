/** The second routes of planes: a grid of resistors, the unbounded sheet, a strip's plain length, images of a return current. */
import { describe, expect, it } from "vitest";
import { board } from "../../../lib/physics";
import { law } from "../check-rows";

type Point = readonly [x: number, y: number];
const R_sq = 0.5e-3;
const mm = 1e-3;

/** Voltages of a grid of resistors R_sq between the middles of n × m square cells, 1 A from one cell to another. */
function grid(n: number, m: number, from: number, to: number): Float64Array {
  const neighbours = (k: number): number[] => {
    const [i, j] = [k % n, Math.floor(k / n)];
    return [i > 0 ? k - 1 : -1, i + 1 < n ? k + 1 : -1, j > 0 ? k - n : -1, j + 1 < m ? k + n : -1].filter((q) => q >= 0);
  };
  const around = Array.from({ length: n * m }, (_, k) => neighbours(k));
  const apply = (v: Float64Array) => v.map((x, k) => (around[k] as number[]).reduce((sum, q) => sum + x - (v[q] as number), 0) / R_sq);
  const dot = (a: Float64Array, b: Float64Array): number => a.reduce((sum, x, k) => sum + x * (b[k] as number), 0);
  // Conjugate gradients; the sum of the currents is zero, so the free constant never enters
  const v = new Float64Array(n * m);
  let r = new Float64Array(n * m);
  r[from] = 1;
  r[to] = -1;
  let p = r.slice();
  let rr = dot(r, r);
  for (let step = 0; step < 600 && rr > 1e-22; step++) {
    const q = apply(p);
    const alpha = rr / dot(p, q);
    for (let k = 0; k < v.length; k++) v[k] = (v[k] as number) + alpha * (p[k] as number);
    r = r.map((x, k) => x - alpha * (q[k] as number));
    const next = dot(r, r);
    p = p.map((x, k) => (r[k] as number) + (next / rr) * x);
    rr = next;
  }
  return v;
}

const plane = { R_sq, a: 54 * mm, b: 30 * mm };
const points = ([x_1, y_1]: Point, [x_2, y_2]: Point) => ({ x_1: x_1 * mm, y_1: y_1 * mm, x_2: x_2 * mm, y_2: y_2 * mm });
const sense = ([x_3, y_3]: Point, [x_4, y_4]: Point) => ({ x_3: x_3 * mm, y_3: y_3 * mm, x_4: x_4 * mm, y_4: y_4 * mm });

describe("a plane in a grid of 1 mm resistors", () => {
  const cell = ([x, y]: Point): number => Math.floor(x) + 54 * Math.floor(y);
  const [from, to]: readonly Point[] = [
    [5.5, 5.5],
    [48.5, 20.5],
  ] as const;
  const v = grid(54, 30, cell(from as Point), cell(to as Point));

  it("has the same coupling between points away from the contacts within 1 %", () => {
    const pairs: readonly (readonly [Point, Point])[] = [
      [
        [15.5, 10.5],
        [35.5, 15.5],
      ],
      [
        [2.5, 25.5],
        [50.5, 5.5],
      ],
      [
        [27.5, 2.5],
        [27.5, 27.5],
      ],
    ];
    for (const [one, two] of pairs) {
      const { R_c } = board.planeCoupling.evaluate({ ...plane, r: 0.5 * mm, ...points(from as Point, to as Point), ...sense(one, two) });
      const counted = (v[cell(one)] as number) - (v[cell(two)] as number);
      expect(Math.abs(R_c - counted), `${one} to ${two}`).toBeLessThan(0.01 * Math.abs(counted) + 2e-6);
    }
  });

  it("has the same resistance for contacts as large as a grid's node seems, 0.208 of its cell", () => {
    const { R } = board.planeResistance.evaluate({ ...plane, r: Math.exp(-Math.PI / 2) * mm, ...points(from as Point, to as Point) });
    const counted = (v[cell(from as Point)] as number) - (v[cell(to as Point)] as number);
    expect(Math.abs(R / counted - 1)).toBeLessThan(0.01);
  });
});

describe("board.planeResistance", () => {
  const r = 1 * mm;

  it("is that of the unbounded sheet between contacts close together far from every edge", () => {
    const far = { R_sq, a: 2, b: 2, r, x_1: 0.995, y_1: 1, x_2: 1.005, y_2: 1 };
    const sheet = law(board.spreadingResistance, { R_sq, s: 10 * mm, r: 1 * mm });
    // Equipotential circles against circles of the own field alone: 1 % at s = 10·r
    expect(Math.abs(board.planeResistance.evaluate(far).R / sheet - 1)).toBeLessThan(0.01);
  });

  it("is twice that of the unbounded sheet between contacts at an edge", () => {
    const edge = { R_sq, a: 2, b: 2, r, x_1: 0.95, y_1: r, x_2: 1.05, y_2: r };
    const middle = { ...edge, y_1: 1, y_2: 1 };
    const ratio = board.planeResistance.evaluate(edge).R / board.planeResistance.evaluate(middle).R;
    expect(ratio).toBeGreaterThan(1.7);
    expect(ratio).toBeLessThan(2);
  });

  it("grows by R_sq per square along a strip, whichever way the strip lies", () => {
    const strip = (x_2: number) => ({ R_sq, a: 0.2, b: 0.01, r, x_1: 0.02, y_1: 0.005, x_2, y_2: 0.005 });
    const more = board.planeResistance.evaluate(strip(0.15)).R - board.planeResistance.evaluate(strip(0.1)).R;
    expect(more / (5 * R_sq)).toBeCloseTo(1, 6);
    const turned = { R_sq, a: 0.01, b: 0.2, r, x_1: 0.005, y_1: 0.02, x_2: 0.005, y_2: 0.15 };
    expect(board.planeResistance.evaluate(turned).R).toBeCloseTo(board.planeResistance.evaluate(strip(0.15)).R, 12);
  });

  it("is the coupling between the contacts themselves, and reciprocal between two circuits", () => {
    const [one, two, three, four]: readonly Point[] = [
      [5, 5],
      [40, 20],
      [12, 25],
      [50, 8],
    ] as const;
    const own = board.planeCoupling.evaluate({ ...plane, r, ...points(one as Point, two as Point), ...sense(one as Point, two as Point) });
    expect(own.R_c).toBeCloseTo(own.R, 15);
    const there = board.planeCoupling.evaluate({
      ...plane,
      r,
      ...points(one as Point, two as Point),
      ...sense(three as Point, four as Point),
    });
    const back = board.planeCoupling.evaluate({
      ...plane,
      r,
      ...points(three as Point, four as Point),
      ...sense(one as Point, two as Point),
    });
    expect(there.R_c).toBeCloseTo(back.R_c, 15);
    expect(Math.abs(there.R_c)).toBeLessThan(there.R);
  });

  it("refuses contacts that reach over the edge", () => {
    const over = { ...plane, r, ...points([0.5, 5], [40, 20]) };
    expect(() => board.planeResistance.evaluate(over)).toThrow(/not inside the plane of 0.054 m × 0.03 m/);
  });
});

describe("laws of planes", () => {
  it("spread inductance as they spread resistance: µ0·d takes the place of R_sq", () => {
    const [mu_0, d] = [1.25663706127e-6, 0.2 * mm];
    const L = law(board.spreadingInductance, { mu_0, d, s: 20 * mm, r: 0.15 * mm });
    expect(L / law(board.spreadingResistance, { R_sq: mu_0 * d, s: 20 * mm, r: 0.15 * mm })).toBeCloseTo(1, 12);
    expect(L).toBeCloseTo(0.39e-9, 11);
  });

  it("gather the return current under the trace: the integral of the image's density", () => {
    const h = 0.2;
    const steps = 20_000;
    let sum = 0;
    for (let i = 0; i < steps; i++) {
      const x = ((i + 0.5) / steps) * 3 * h;
      sum += ((2 / (Math.PI * h)) * (3 * h)) / steps / (1 + (x / h) ** 2);
    }
    expect(law(board.returnShare, { x: 3 * h * mm, h: h * mm })).toBeCloseTo(sum, 8);
    expect(law(board.returnShare, { x: h * mm, h: h * mm })).toBeCloseTo(0.5, 12);
  });

  it("resonate where half a wave fits the longer side", () => {
    const [c, eps_r, a, b] = [299792458, 4.3, 54 * mm, 30 * mm];
    const f = law(board.cavityResonance, { c, eps_r, m: 1, a, n: 0, b });
    expect(law(board.wavelength, { c, f, eps_r }) / 2).toBeCloseTo(a, 9);
    expect(f / 1e9).toBeCloseTo(1.34, 2);
  });

  it("share a return by its resistance over both", () => {
    expect(law(board.sharedReturnRatio, { R_g: 0.06, R_L: 38 })).toBeCloseTo(0.06 / 38.06, 12);
    expect(law(board.sharedReturnRatio, { R_g: 0, R_L: 38 })).toBe(0);
  });
});
