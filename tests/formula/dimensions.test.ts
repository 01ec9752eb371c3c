/**
 * dimensionOf against an evaluator written anew here on plain vectors of exponents, without kinds: on random
 * trees both find the same dimension, or both find none.
 */
import fc from "fast-check";
import { expect, test } from "vitest";
import { dimensionOf } from "../../lib/formula/dimensions";
import type { Expression, Operation } from "../../lib/formula/expression";
import { type Dimension, ofExponents } from "../../lib/quantity/dimension";
import { WorkingsError } from "../../lib/quantity/error";

/** Exponents of m, s, A: enough for a chain of units, in halves. */
const symbols: Record<string, readonly number[]> = {
  l: [1, 0, 0],
  t: [0, 1, 0],
  I: [0, 0, 1],
  v: [1, -1, 0],
  n: [0, 0, 0],
  A: [2, 0, 0],
  k: [4, -2, 2],
};

const dimensions: Record<string, Dimension> = Object.fromEntries(
  Object.entries(symbols).map(([name, [m = 0, s = 0, a = 0]]) => [name, ofExponents([0, 2 * m, 2 * s, 2 * a, 0, 0, 0])]),
);

type Tree = { readonly expression: Expression; readonly vector: readonly number[] | undefined };

function call(
  operation: Operation,
  of: readonly Tree[],
  combine: (...vectors: (readonly number[])[]) => readonly number[] | undefined,
): Tree {
  const vectors = of.map(({ vector }) => vector);
  const known = vectors.every((vector) => vector !== undefined) ? combine(...(vectors as (readonly number[])[])) : undefined;
  const inRange = known?.every((x) => Number.isInteger(2 * x));
  return { expression: { call: operation, of: of.map(({ expression }) => expression) }, vector: inRange === true ? known : undefined };
}

const same = (a: readonly number[], b: readonly number[]) => (a.every((x, i) => x === b[i]) ? a : undefined);
const plus = (a: readonly number[], b: readonly number[]) => a.map((x, i) => x + (b[i] as number));
const minus = (a: readonly number[], b: readonly number[]) => a.map((x, i) => x - (b[i] as number));
const times = (factor: number) => (a: readonly number[]) => a.map((x) => x * factor);
const none = [0, 0, 0];

const leaf = fc.oneof(
  fc.constantFrom(...Object.keys(symbols)).map((symbol): Tree => ({ expression: { symbol }, vector: symbols[symbol] })),
  fc.integer({ min: 1, max: 9 }).map((number): Tree => ({ expression: { number }, vector: none })),
);

const trees = fc.letrec<{ tree: Tree }>((tie) => ({
  tree: fc.oneof(
    { maxDepth: 5 },
    leaf,
    fc.tuple(tie("tree"), tie("tree")).map((of) => call("multiply", of, plus)),
    fc.tuple(tie("tree"), tie("tree")).map((of) => call("divide", of, minus)),
    // Sums of trees drawn apart hardly ever fit, so most sums are of a tree and a multiple of itself.
    tie("tree").map((a) => call("add", [a, call("multiply", [{ expression: { number: 3 }, vector: none }, a], plus)], same)),
    fc.tuple(tie("tree"), tie("tree")).map((of) => call("subtract", of, same)),
    fc.tuple(tie("tree"), tie("tree")).map((of) => call("max", of, same)),
    tie("tree").map((a) => call("sqrt", [a], times(1 / 2))),
    tie("tree").map((a) => call("negate", [a], (x) => x)),
    fc
      .tuple(tie("tree"), fc.constantFrom(2, 3, 0.5, 1.5))
      .map(([a, p]) => call("power", [a, { expression: { number: p }, vector: none }], times(p))),
  ),
})).tree;

test("dimensionOf agrees with exponents counted by hand", () => {
  let fitting = 0;
  fc.assert(
    fc.property(trees, ({ expression, vector }) => {
      if (vector === undefined) {
        expect(() => dimensionOf(expression, dimensions)).toThrow(WorkingsError);
        return;
      }
      fitting += 1;
      const [m = 0, s = 0, a = 0] = vector;
      expect(dimensionOf(expression, dimensions)).toBe(ofExponents([0, 2 * m, 2 * s, 2 * a, 0, 0, 0]));
    }),
    { seed: 7, numRuns: 2000 },
  );
  expect(fitting).toBeGreaterThan(700);
});

test("dimensionOf quotes the plain text of a tree", () => {
  const tree: Expression = { call: "add", of: [{ symbol: "l" }, { call: "multiply", of: [{ symbol: "t" }, { number: 2 }] }] };
  expect(() => dimensionOf(tree, dimensions)).toThrow("cannot add l (length) and t*2 (time)");
});
