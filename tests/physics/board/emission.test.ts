/** The second routes of emission: sums of elementary dipoles with their phases, and the Fourier series of a sampled trapezoid. */
import { describe, expect, it } from "vitest";
import { curveArgument } from "../../../lib/graph/model";
import { board } from "../../../lib/physics";
import { dB, dBuV_per_m } from "../../../lib/units";
import { law, reference } from "../check-rows";
import { ngspicePresent, ngspiceRows } from "../ngspice";

const c = 299792458;
const mu_0 = 1.25663706127e-6;
const Z_0 = 376.730313412;
type Vector = readonly [number, number, number];

interface Element {
  readonly at: Vector;
  /** Current times length, A·m, as a vector. */
  readonly moment: Vector;
}

const dot = (a: Vector, b: Vector): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

/** Far field at the distance d in the direction `to` (of length 1): the moments' parts across it, with the phase of their way. */
function farField(elements: readonly Element[], to: Vector, f: number, d: number): number {
  const k = (2 * Math.PI * f) / c;
  const [re, im] = [
    [0, 0, 0],
    [0, 0, 0],
  ];
  for (const { at, moment } of elements) {
    const phase = k * dot(at, to);
    const along = dot(moment, to);
    moment.forEach((m, i) => {
      const across = m - along * (to[i] as number);
      re[i] = (re[i] as number) + across * Math.cos(phase);
      im[i] = (im[i] as number) + across * Math.sin(phase);
    });
  }
  return ((Z_0 * k) / (4 * Math.PI * d)) * Math.hypot(...re, ...im);
}

/** A straight wire along z from `low` to `high` with a current by place. */
function wire(low: number, high: number, current: (z: number) => number, count = 400): Element[] {
  const step = (high - low) / count;
  return Array.from({ length: count }, (_, i) => {
    const z = low + (i + 0.5) * step;
    return { at: [0, 0, z], moment: [0, 0, current(z) * step] };
  });
}

const angles = Array.from({ length: 181 }, (_, i) => (i * Math.PI) / 180);
const strongest = (elements: readonly Element[], f: number, d: number): number =>
  Math.max(...angles.map((angle) => farField(elements, [Math.sin(angle), 0, Math.cos(angle)], f, d)));

describe("a lead as a sum of elementary dipoles", () => {
  const I = 1e-6;

  it.each([1, 3, 10])("of a twentieth of a wave radiates as board.shortCableField says at %d m", (d) => {
    const [f, L] = [30e6, c / 30e6 / 20];
    const E = strongest(
      wire(-L / 2, L / 2, () => I),
      f,
      d,
    );
    expect(law(board.shortCableField, { mu_0, f, L, I, d }) / E).toBeCloseTo(1, 4);
    expect(law(board.cableField, { mu_0, f, L, I, d }) / E).toBeCloseTo(2, 4);
  });

  it("of half a wave with a sine of current radiates as board.resonantCableField says", () => {
    const [f, d] = [125e6, 3];
    const half = c / f / 4;
    const E = strongest(
      wire(-half, half, (z) => I * Math.cos((Math.PI * z) / (2 * half))),
      f,
      d,
    );
    expect(law(board.resonantCableField, { Z_0, I, d }) / E).toBeCloseTo(1, 4);
    expect(law(board.resonantCableCurrent, { E, d, Z_0 })).toBeCloseTo(I, 10);
  });

  it.each([
    [1, 1.5],
    [2, 4],
    [4, 6.8],
  ])("of %d waves, fed at its end, has lobes %d dB above the half-wave bound", (waves, more) => {
    const [f, d] = [300e6, 3];
    const L = (waves * c) / f;
    const E = strongest(
      wire(0, L, (z) => I * Math.sin((2 * Math.PI * f * (L - z)) / c)),
      f,
      d,
    );
    expect(20 * Math.log10(E / law(board.resonantCableField, { Z_0, I, d }))).toBeCloseTo(more, 1);
  });
});

describe("a loop as four wires", () => {
  it("radiates as board.loopField says while it is small, in its own plane", () => {
    const [f, side, I, d] = [50e6, 0.0141421356, 10e-3, 3];
    const count = 60;
    const step = side / count;
    const elements: Element[] = Array.from({ length: count }, (_, i) => (i + 0.5) * step - side / 2).flatMap((s): Element[] => [
      { at: [s, -side / 2, 0], moment: [I * step, 0, 0] },
      { at: [side / 2, s, 0], moment: [0, I * step, 0] },
      { at: [s, side / 2, 0], moment: [-I * step, 0, 0] },
      { at: [-side / 2, s, 0], moment: [0, -I * step, 0] },
    ]);
    const E = farField(elements, [1, 0, 0], f, d);
    expect(law(board.loopField, { Z_0, f, A: side * side, I, c, d }) / E).toBeCloseTo(1, 4);
    expect(farField(elements, [0, 0, 1], f, d)).toBeLessThan(1e-12);
  });
});

describe("board.harmonicBound", () => {
  it("lies on or above every harmonic of a sampled trapezoid, and touches the strongest within 1 dB", () => {
    const [V, f, D, t_r, n] = [9, 1.5e6, 0.4, 20e-9, 1 << 14];
    const T = 1 / f;
    // Duty between the middles of the edges
    const wave = (t: number): number => V * Math.max(0, Math.min(1, t / t_r, (D * T + t_r - t) / t_r));
    const samples = Array.from({ length: n }, (_, i) => wave((i / n) * T));
    const corners = { f_1: law(board.pulseCorner, { f, D }), f_2: law(board.edgeCorner, { t_r }) };
    const ratios = Array.from({ length: 60 }, (_, h) => {
      const k = h + 1;
      const [a, b] = [Math.cos, Math.sin].map((g) => samples.reduce((sum, x, i) => sum + x * g((2 * Math.PI * k * i) / n), 0) / n);
      return (Math.SQRT2 * Math.hypot(a as number, b as number)) / law(board.harmonicBound, { V, D, f: k * f, ...corners });
    });
    expect(Math.max(...ratios)).toBeLessThan(1.001);
    expect(Math.max(...ratios)).toBeGreaterThan(0.9);
  });
});

describe("board.leadEmissionCurve", () => {
  it("lies on or above what a sum of elementary dipoles radiates at each harmonic of a sampled trapezoid, and within 1 dB of the strongest", () => {
    const [V, f_0, D, t_r, n] = [9, 5e6, 0.4, 8e-9, 1 << 12];
    const [C, L, d] = [0.05e-12, 0.3, 10];
    const wave = (t: number): number => V * Math.max(0, Math.min(1, t / t_r, (D / f_0 + t_r - t) / t_r));
    const samples = Array.from({ length: n }, (_, i) => wave(i / n / f_0));
    const { E } = board.leadEmissionCurve.evaluate({ f_1: f_0, f_2: 1e9, V, f_0, D, t_r, C, L, d, k: 1 });
    const bound = curveArgument({ x: Float64Array.from(E.x), y: Float64Array.from(E.y), interpolation: "log-log" });
    // To where the lead is a tenth of a wave: even current, no retardation to speak of
    const highest = Math.floor(c / L / 10 / f_0);
    const ratios = Array.from({ length: highest }, (_, h) => {
      const f = (h + 1) * f_0;
      const [a, b] = [Math.cos, Math.sin].map((g) => samples.reduce((sum, x, i) => sum + x * g((2 * Math.PI * (h + 1) * i) / n), 0) / n);
      const I = 2 * Math.PI * f * C * Math.SQRT2 * Math.hypot(a as number, b as number);
      const lead = wire(-L / 2, L / 2, () => I);
      return strongest(lead, f, d) / bound.at(f);
    });
    expect(ratios.length).toBeGreaterThanOrEqual(19);
    expect(Math.max(...ratios)).toBeLessThan(1.001);
    expect(Math.max(...ratios)).toBeGreaterThan(0.9);
  });

  it("is flat between its corners and from a resonant lead falls by 20 dB a decade, twice as high over a reflecting ground", () => {
    const lead = { V: 9, f_0: 1.5e6, D: 0.5, t_r: 5e-9, C: 0.05e-12, L: 1.2, d: 3, k: 2 };
    // Current of the second bend on: √2·V·f_0/π · 2π·C · f_2/f, and the half-wave dipole's field
    const { E } = board.leadEmissionCurve.evaluate({ f_1: 100e6, f_2: 1e9, ...lead });
    const plateau = Math.SQRT2 * 9 * 1.5e6 * 2 * 0.05e-12;
    Array.from(E.x).forEach((f, i) => {
      const field = (2 * Z_0 * plateau) / (2 * Math.PI * 3 * Math.PI * 5e-9 * f);
      expect((E.y[i] as number) / field, `${f} Hz`).toBeCloseTo(1, 9);
    });
    const { E: short } = board.leadEmissionCurve.evaluate({ f_1: 1e6, f_2: 60e6, ...lead, L: 0.5, k: 1 });
    const between = Array.from(short.x, (f, i) => ({ f, E: short.y[i] as number })).filter(({ f }) => f > 1e6 && f < 60e6);
    for (const { f, E } of between) expect(E / ((Z_0 * plateau * 0.5 * f) / (2 * c * 3)), `${f} Hz`).toBeCloseTo(1, 9);
  });
});

describe("board.leadEmission", () => {
  const limits = reference("emission-limits");
  const limit = (name: string) => {
    const { x, y } = limits.table(name);
    return curveArgument({ x: Float64Array.from(x), y: Float64Array.from(y) });
  };
  const lead = { V: 9, f_0: 1.5e6, D: 0.5, t_r: 5e-9, C: 0.05e-12, L: 1.2, d: 3, k: 2 };
  const band = { f_1: 30e6, f_2: 1e9 };
  const fcc = limit("fcc-b-3m");

  it("is the chain of the laws at the frequency that it names", () => {
    const { M, f, E, I } = board.leadEmission.evaluate({ ...band, ...lead, limit: fcc });
    const V = law(board.harmonicBound, {
      V: 9,
      D: 0.5,
      f,
      f_1: law(board.pulseCorner, { f: 1.5e6, D: 0.5 }),
      f_2: law(board.edgeCorner, { t_r: 5e-9 }),
    });
    expect(law(board.coupledCurrent, { f, C: 0.05e-12, V })).toBeCloseTo(I, 15);
    const field = Math.min(law(board.shortCableField, { mu_0, f, L: 1.2, I, d: 3 }), law(board.resonantCableField, { Z_0, I, d: 3 }));
    expect(E / (2 * field)).toBeCloseTo(1, 9);
    expect(law(board.emissionMargin, { E_l: fcc.at(f), E })).toBeCloseTo(M, 12);
  });

  it("finds no smaller margin anywhere in the band", () => {
    const { M } = board.leadEmission.evaluate({ ...band, ...lead, limit: fcc });
    const { E } = board.leadEmissionCurve.evaluate({ ...band, ...lead });
    for (let f = 30e6; f <= 1e9; f *= 1.003) {
      const here = curveArgument({ x: Float64Array.from(E.x), y: Float64Array.from(E.y), interpolation: "log-log" }).at(f);
      expect(fcc.at(f) / here, `${f} Hz`).toBeGreaterThan(M * 0.9999);
    }
  });

  it("gives a pocket amplifier's headphone lead a few tenths of a microampere for 10 dB, as practice has it", () => {
    // 10 dB under 100 µV/m at 3 m over a reflecting ground
    const I = law(board.resonantCableCurrent, { E: dBuV_per_m.toSI(30) / 2, d: 3, Z_0 });
    expect(I * 1e6).toBeGreaterThan(0.5);
    expect(I * 1e6).toBeLessThan(1);
    const { M } = board.leadEmission.evaluate({ ...band, ...lead, limit: fcc });
    expect(dB.fromSI(M)).toBeGreaterThan(-5);
    expect(dB.fromSI(M)).toBeLessThan(15);
  });

  it("loses 6.02 dB by twice the capacitance or half the distance, and gains by a slower edge", () => {
    const margin = (more: Partial<typeof lead>): number =>
      dB.fromSI(board.leadEmission.evaluate({ ...band, ...lead, ...more, limit: fcc }).M);
    expect(margin({}) - margin({ C: 0.1e-12 })).toBeCloseTo(6.02, 2);
    expect(margin({}) - margin({ d: 1.5 })).toBeCloseTo(6.02, 2);
    expect(margin({ t_r: 10e-9 })).toBeGreaterThan(margin({}) + 3);
  });

  it("has limits as tables that say what their rows say", () => {
    for (const [table, row, f] of [
      ["cispr-b-3m", "cispr-b-3m-30-230", 100e6],
      ["cispr-b-3m", "cispr-b-3m-230-1000", 500e6],
      ["cispr-b-10m", "cispr-b-10m-30-230", 230e6],
      ["cispr-b-10m", "cispr-b-10m-230-1000", 231e6],
      ["fcc-b-3m", "fcc-b-3m-30-88", 88e6],
      ["fcc-b-3m", "fcc-b-3m-88-216", 216e6],
      ["fcc-b-3m", "fcc-b-3m-216-960", 300e6],
      ["fcc-b-3m", "fcc-b-3m-above-960", 980e6],
    ] as const) {
      expect(limit(table).at(f) / limits.value(row), `${table} at ${f} Hz`).toBeCloseTo(1, 9);
    }
  });
});

describe("board.plateCapacitance", () => {
  const epsilon_0 = 8.8541878188e-12;

  it("of a square is 2 % below the published 0.3668·4π·ε_0 of its side", () => {
    // T. J. Higgins and D. K. Reitan (1951), F. H. Read (1997): 0.36679 (from memory)
    expect(law(board.plateCapacitance, { epsilon_0, A: 1e-4 }) / (0.36679 * 4 * Math.PI * epsilon_0 * 0.01)).toBeCloseTo(0.979, 3);
  });

  it("of a board of 53 mm by 30 mm lies within 6 % of what its charges add up to, patch by patch", () => {
    const [a, b, n, m] = [0.053, 0.03, 20, 12];
    const [dx, dy] = [a / n, b / m];
    const at = Array.from({ length: n * m }, (_, k) => [((k % n) + 0.5) * dx, (Math.floor(k / n) + 0.5) * dy] as const);
    // Potential of a unit charge spread over a patch: in the middle of the patch itself in closed form, elsewhere as a point
    const own = (2 * (dx * Math.asinh(dy / dx) + dy * Math.asinh(dx / dy))) / (dx * dy);
    const rows = at.map(([x, y], i) => [...at.map(([u, v], k) => (i === k ? own : 1 / Math.hypot(x - u, y - v))), 1]);
    const charge = solved(rows).reduce((sum, q) => sum + q, 0);
    const ratio = law(board.plateCapacitance, { epsilon_0, A: a * b }) / (4 * Math.PI * epsilon_0 * charge);
    expect(ratio).toBeLessThan(1);
    expect(ratio).toBeGreaterThan(0.94);
  });
});

/** Gauss elimination of rows with their right sides at the end; no pivoting: each patch's own potential is its row's greatest. */
function solved(rows: readonly (readonly number[])[]): number[] {
  const left = rows.map((row) => Float64Array.from(row));
  const n = left.length;
  left.forEach((row, i) => {
    for (const other of left.slice(i + 1)) {
      const share = (other[i] as number) / (row[i] as number);
      for (let k = i; k <= n; k++) other[k] = (other[k] as number) - share * (row[k] as number);
    }
  });
  const x = new Array<number>(n).fill(0);
  for (let i = n - 1; i >= 0; i--) {
    const row = left[i] as Float64Array;
    const known = x.reduce((sum, value, k) => (k > i ? sum + value * (row[k] as number) : sum), 0);
    x[i] = ((row[n] as number) - known) / (row[i] as number);
  }
  return x;
}

describe.skipIf(!ngspicePresent)("board.chokedShare", () => {
  it.each([
    [73, 1000, 64e6, 1.6],
    [73, 1000, 200e6, 1.6],
    [40, 300, 100e6, 20],
  ])("of a lead of %d Ω, a choke of %d Ω at %d Hz and a board of %d pF is what ngspice divides a forced current by", (R_a, R_k, f, C) => {
    const current = (choke: number): number => {
      const [[, V] = []] = ngspiceRows(
        `forced into board and lead\nI1 0 b DC 0 AC 1\nC1 b 0 ${C}p\nR1 b j ${choke}\nR2 j 0 ${R_a}\nRd b 0 1e12\n` +
          `.ac lin 2 ${f} ${1.1 * f}\n.print ac vm(j)\n.end\n`,
      );
      return (V as number) / R_a;
    };
    const k = law(board.chokedShare, { R_a, R_k, f, C: C * 1e-12 });
    expect(dB.fromSI(current(1e-6) / current(R_k))).toBeCloseTo(dB.fromSI(k), 2);
  });

  it("is next to nothing while the board is small, whatever the choke, and the whole choke where the board is large", () => {
    const small = law(board.chokedShare, { R_a: 73, R_k: 1000, f: 30e6, C: 1e-12 });
    expect(dB.fromSI(small)).toBeLessThan(0.2);
    expect(law(board.chokedShare, { R_a: 73, R_k: 1000, f: 30e6, C: 1e-6 })).toBeCloseTo(1073 / 73, 3);
  });
});

describe("board.fieldAtDistance", () => {
  it("puts 10.46 dB between 10 m and 3 m, where the standard has 10 dB", () => {
    const E = law(board.fieldAtDistance, { E_1: dBuV_per_m.toSI(30), d_1: 10, d: 3 });
    expect(dBuV_per_m.fromSI(E)).toBeCloseTo(40.458, 3);
  });
});
