/** Random trees of formulas for property tests: every operation, symbols of several alphabets, numbers that text can hold. */
import fc from "fast-check";
import type { Expression, Operation } from "../../lib/formula/expression";

const unary: Operation[] = [
  "negate",
  "sqrt",
  "cbrt",
  "exp",
  "ln",
  "log10",
  "log2",
  "sin",
  "cos",
  "tan",
  "asin",
  "acos",
  "atan",
  "sinh",
  "cosh",
  "tanh",
  "abs",
  "sign",
  "ceil",
  "floor",
  "round",
];
const binary: Operation[] = ["add", "subtract", "multiply", "divide", "power", "atan2", "min", "max"];
const comparisons: Operation[] = ["less", "lessEqual", "greater", "greaterEqual", "equal", "unequal"];

const symbolNames = ["a", "R_1", "V_s", "θ_JA", "ΔT", "in", "mod", "i", "x2"];

const leaf: fc.Arbitrary<Expression> = fc.oneof(
  fc.constantFrom(...symbolNames).map((symbol) => ({ symbol })),
  fc.constantFrom<Expression>({ constant: "pi" }, { constant: "e" }),
  fc
    .oneof(fc.nat(1000), fc.double({ min: 0, max: 1e300, noNaN: true }), fc.constantFrom(1e-7, 1.6e-19, 0.5))
    .map((number) => ({ number: number + 0 })),
);

/** Trees to a depth of about six. */
export const trees: fc.Arbitrary<Expression> = fc.letrec<{ tree: Expression }>((tie) => ({
  tree: fc.oneof(
    { maxDepth: 6, withCrossShrink: true },
    leaf,
    fc.tuple(fc.constantFrom(...unary), tie("tree")).map(([call, a]) => ({ call, of: [a] })),
    fc.tuple(fc.constantFrom(...binary), tie("tree"), tie("tree")).map(([call, a, b]) => ({ call, of: [a, b] })),
    fc.tuple(fc.constantFrom<Operation>("min", "max"), tie("tree"), tie("tree"), tie("tree")).map(([call, ...of]) => ({ call, of })),
    fc
      .tuple(fc.constantFrom(...comparisons), tie("tree"), tie("tree"), tie("tree"), tie("tree"))
      .map(([call, a, b, x, y]) => ({ call: "if" as const, of: [{ call, of: [a, b] }, x, y] })),
  ),
})).tree;
