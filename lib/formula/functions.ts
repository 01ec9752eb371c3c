/**
 * The functions a formula may call: one row each with the operation it becomes, how many arguments it takes,
 * what it asks of their dimensions and how it is typeset (ISO 80000-2: function names upright).
 */
import type { Operation } from "./expression";

/**
 * What a function asks of its arguments and gives:
 * `number`: dimensionless in, dimensionless out; `same`: keeps dimension and kind; `root`: divides exponents;
 * `sign`: anything in, dimensionless out; `extreme`: comparable in, the same out; `angle`: comparable in,
 * dimensionless out; `choice`: a comparison, then two comparable values.
 */
type DimensionRule = "number" | "same" | "root" | "sign" | "extreme" | "angle" | "choice";

export interface FormulaFunction {
  readonly operation: Operation;
  readonly fewest: number;
  readonly most: number;
  readonly rule: DimensionRule;
  /** LaTeX before the bracketed arguments; absent where the typesetter has a form of its own. */
  readonly latex?: string;
}

function unary(operation: Operation, rule: DimensionRule, latex?: string): FormulaFunction {
  return { operation, fewest: 1, most: 1, rule, ...(latex === undefined ? {} : { latex }) };
}

/** Every function by the name it has in formula text. */
export const formulaFunctions: ReadonlyMap<string, FormulaFunction> = new Map<string, FormulaFunction>([
  ["sqrt", unary("sqrt", "root")],
  ["cbrt", unary("cbrt", "root")],
  ["exp", unary("exp", "number", "\\exp")],
  ["ln", unary("ln", "number", "\\ln")],
  ["log10", unary("log10", "number", "\\log_{10}")],
  ["log2", unary("log2", "number", "\\log_{2}")],
  ["sin", unary("sin", "number", "\\sin")],
  ["cos", unary("cos", "number", "\\cos")],
  ["tan", unary("tan", "number", "\\tan")],
  ["asin", unary("asin", "number", "\\arcsin")],
  ["acos", unary("acos", "number", "\\arccos")],
  ["atan", unary("atan", "number", "\\arctan")],
  ["sinh", unary("sinh", "number", "\\sinh")],
  ["cosh", unary("cosh", "number", "\\cosh")],
  ["tanh", unary("tanh", "number", "\\tanh")],
  ["atan2", { operation: "atan2", fewest: 2, most: 2, rule: "angle", latex: "\\operatorname{atan2}" }],
  ["abs", unary("abs", "same")],
  ["sign", unary("sign", "sign", "\\operatorname{sgn}")],
  ["ceil", unary("ceil", "number")],
  ["floor", unary("floor", "number")],
  ["round", unary("round", "number", "\\operatorname{round}")],
  ["min", { operation: "min", fewest: 2, most: Infinity, rule: "extreme", latex: "\\min" }],
  ["max", { operation: "max", fewest: 2, most: Infinity, rule: "extreme", latex: "\\max" }],
  ["if", { operation: "if", fewest: 3, most: 3, rule: "choice" }],
]);

/** The row of an operation that is written as a function call; undefined for operators. */
export function functionOf(operation: Operation): FormulaFunction | undefined {
  // Each function is named as its operation, so the one table serves both ways.
  return formulaFunctions.get(operation);
}

/** Comparison operators by the operation they become; their only place is the first argument of `if`. */
export const comparisons: ReadonlyMap<string, Operation> = new Map<string, Operation>([
  ["<", "less"],
  ["<=", "lessEqual"],
  [">", "greater"],
  [">=", "greaterEqual"],
  ["==", "equal"],
  ["!=", "unequal"],
]);

/** `<` for `less` and so on. */
export const comparisonText: ReadonlyMap<Operation, string> = new Map([...comparisons].map(([text, operation]) => [operation, text]));

/** Constants a formula may name; a symbol given under the same name goes first. */
export const constants: ReadonlyMap<string, "pi" | "e"> = new Map([
  ["pi", "pi"],
  ["e", "e"],
] as const);
