/**
 * Enclosures of random formulas against points inside the box: sampling can refute an enclosure, or a way that it claims, and never
 * confirm one. Intervals themselves against worked examples of R. E. Moore, R. B. Kearfott and M. J. Cloud, Introduction to Interval
 * Analysis (SIAM, 2009; from memory).
 */
import { describe, expect, it } from "vitest";
import { Enclosure } from "../../lib/analysis/enclosure/bounds";
import { around, divide, multiply, power, square, wave } from "../../lib/analysis/enclosure/interval";
import { Stream } from "../../lib/analysis/stream";
import { Study } from "../../lib/analysis/study";
import { tie } from "../../lib/analysis/tie";
import { worstCase } from "../../lib/analysis/worst-case";
import { Graph } from "../../lib/graph/graph";
import type { GivenNode } from "../../lib/graph/node";
import { inFull } from "../full";
import { formula, given, within } from "../graph/nodes";

const seed = 20261130;
const count = inFull(100_000, 600);

/** Corners are evaluated as points are, but for rounding. */
const slack = 1e-12;

/** A source of numbers in (0, 1), one after another. */
function drawing(key: string): () => number {
  const stream = new Stream(seed, key);
  let i = 0;
  return () => stream.uniform(i++);
}

function expression(next: () => number, depth: number): string {
  const pick = <T>(list: readonly T[]): T => list[Math.floor(next() * list.length)] as T;
  if (depth === 0 || next() < 0.15) return next() < 0.8 ? pick(["a", "b", "c"]) : pick(["1", "2", "1/2", "3"]);
  const inner = (): string => `(${expression(next, depth - 1)})`;
  const kind = next();
  if (kind < 0.6) return `${inner()}${pick(["+", "-", "*", "/"])}${inner()}`;
  if (kind < 0.7) return `${inner()}^${pick(["2", "3", "(-1)", "(1/2)", "4"])}`;
  if (kind < 0.78) return `${pick(["min", "max"])}(${inner()}, ${inner()})`;
  if (kind < 0.82) return `if(${inner()} ${pick(["<", ">", "<=", ">="])} ${inner()}, ${inner()}, ${inner()})`;
  return `${pick(["sqrt", "exp", "ln", "sin", "cos", "abs", "atan", "tanh", "cosh", "sinh", "cbrt"])}(${inner()})`;
}

const box = (next: () => number): GivenNode[] =>
  ["a", "b", "c"].map((id) => {
    const low = 4 * next() - 1.5;
    const high = low + 10 ** (2 * next() - 1.7);
    return given(id, (low + high) / 2, within(low, high));
  });

interface Case {
  readonly text: string;
  readonly study: Study;
  readonly enclosure: Enclosure;
}

/** Undefined for a formula without a nominal value, or that rests on none of its inputs. */
function caseOf(index: number): Case | undefined {
  const next = drawing(`enclosure ${index}`);
  const text = expression(next, 1 + Math.floor(4 * next()));
  const nodes = box(next);
  const used = nodes.filter(({ id }) => new RegExp(`\\b${id}\\b`).test(text));
  try {
    const study = new Study(Graph.from([...used, formula("y", text)]), "y");
    if (study.givens.length === 0 || !Number.isFinite(study.value)) return undefined;
    return { text, study, enclosure: new Enclosure(study.program, study.nominal, study.givens, tie(study.givens), "y") };
  } catch {
    return undefined;
  }
}

/** Values at points of the box: corners, the rest spread; and at each point moved a little along each input. */
function trials({ study }: Case, next: () => number, rows: number): { readonly columns: Float64Array[]; readonly values: Float64Array } {
  const columns = study.givens.map(({ spread }, k) => {
    const { low, high } = spread as { low: number; high: number };
    return Float64Array.from({ length: rows }, (_, i) => (i < 8 ? ((i >> k) & 1 ? high : low) : low + (high - low) * next()));
  });
  const plan = study.program.plan(
    study.givens.map(({ id }) => id),
    ["y"],
  );
  return { columns, values: plan.run(study.nominal, rows, columns)[0] as Float64Array };
}

describe(`enclosures of ${count} random formulas, seed ${seed}`, () => {
  const seen = { bounded: 0, known: 0, all: 0 };
  const outside: string[] = [];
  const turning: string[] = [];

  it("hold every value tried, and no way that they claim is refuted", { timeout: 1_800_000 }, () => {
    for (let index = 0; index < count; index++) {
      const one = caseOf(index);
      if (one === undefined) continue;
      seen.all++;
      const next = drawing(`points ${index}`);
      const { columns, values } = trials(one, next, 40);
      const finite = values.filter(Number.isFinite);
      if (finite.length === 0) continue;
      const [low, high] = [Math.min(...finite), Math.max(...finite)];
      const bounds = one.enclosure.bounds(low, high, 400);
      if (bounds !== undefined) {
        seen.bounded++;
        if (low < bounds.low || high > bounds.high)
          outside.push(`${index}: ${one.text}: ${low} to ${high}, bounds ${bounds.low} to ${bounds.high}`);
      }
      if (one.enclosure.isKnown) seen.known++;
      turning.push(...refuted(one, columns, values, next).map((way) => `${index}: ${one.text}: ${way}`));
    }
    expect(outside).toEqual([]);
    expect(turning).toEqual([]);
  });

  it("prove no worst case that a point refutes, where some of the ways are known", { timeout: 1_800_000 }, () => {
    const refutations: string[] = [];
    let proved = 0;
    for (let index = 0, tried = 0; tried < inFull(2000, 60) && index < count; index++) {
      const one = caseOf(index);
      if (one === undefined || one.enclosure.isKnown || !one.enclosure.ways.some((way) => Math.abs(way) === 1)) continue;
      tried++;
      const bounds = worstCase(one.study)?.worst.bounds;
      if (bounds === undefined) continue;
      proved++;
      const { values } = trials(one, drawing(`refuting ${index}`), 400);
      const beyond = values.find(
        (value) => value < bounds.low - slack * Math.abs(bounds.low) || value > bounds.high + slack * Math.abs(bounds.high),
      );
      if (beyond !== undefined) refutations.push(`${index}: ${one.text}: ${beyond}, bounds ${bounds.low} to ${bounds.high}`);
    }
    expect(refutations).toEqual([]);
    expect(proved).toBeGreaterThan(10);
  });

  it("are known or bounded in most cases", () => {
    expect(seen.all).toBeGreaterThan(count / 2);
    expect(seen.bounded / seen.all).toBeGreaterThan(0.5);
    expect(seen.known / seen.all).toBeGreaterThan(0.3);
  });
});

/** Ways that moving points along one input refutes. */
function refuted({ study, enclosure }: Case, columns: readonly Float64Array[], values: Float64Array, next: () => number): string[] {
  return study.givens.flatMap(({ id, spread }, k) => {
    const way = enclosure.ways[k] as number;
    if (way === 2) return [];
    const { high } = spread as { high: number };
    const moved = columns.map((column, j) => (j === k ? column.map((x) => x + (high - x) * next()) : column));
    const plan = study.program.plan(
      study.givens.map((one) => one.id),
      ["y"],
    );
    const others = plan.run(study.nominal, values.length, moved)[0] as Float64Array;
    const bad = values.findIndex((value, i) => {
      const change = (others[i] as number) - value;
      const rounding = 1e-12 * (Math.abs(value) + Math.abs(others[i] as number)) + 1e-300;
      return Number.isFinite(change) && (way === 0 ? Math.abs(change) > rounding : change * way < -rounding);
    });
    return bad < 0 ? [] : [`goes against way ${way} along ${id}: ${values[bad]} to ${others[bad]}`];
  });
}

describe("intervals", () => {
  it("of [1, 2]·[3, 4], [−2, −1]·[−5, 3] and [1, 2]/[3, 4] are the worked ones, a rounding wider", () => {
    for (const [found, low, high] of [
      [multiply({ low: 1, high: 2 }, { low: 3, high: 4 }), 3, 8],
      [multiply({ low: -2, high: -1 }, { low: -5, high: 3 }), -6, 10],
      [divide({ low: 1, high: 2 }, { low: 3, high: 4 }), 1 / 4, 2 / 3],
      [square({ low: -3, high: 1 }), 0, 9],
      [power({ low: -2, high: 3 }, { low: 3, high: 3 }), -8, 27],
      [wave({ low: 0, high: 2 }, 0, Math.sin), 0, 1],
    ] as const) {
      expect(found.low).toBeLessThanOrEqual(low);
      expect(found.high).toBeGreaterThanOrEqual(high);
      expect(found.low).toBeCloseTo(low, 12);
      expect(found.high).toBeCloseTo(high, 12);
    }
  });

  it("have the whole line where a divisor may be 0, or a value is none", () => {
    expect(divide({ low: 1, high: 2 }, { low: -1, high: 1 })).toEqual({ low: -Infinity, high: Infinity });
    expect(around(Number.NaN, 1)).toEqual({ low: -Infinity, high: Infinity });
  });
});
