/**
 * The form of a value: what of levels is in it, and which sums are refused for that (`level-words.ts` says why). The types of
 * `text-operators.ts` do the same.
 */
import type { Dimension } from "../quantity/dimension";
import type { CallExpression, Expression, Operation } from "./expression";
import type { FormulaFunction } from "./functions";

/**
 * What a value is beside its dimension: a literal number, a level (stated in decibels; its negative, a number of it), a number
 * of logarithms, what counts either as a ratio, or none of these.
 */
export type Form = "" | "number" | "level" | "log" | "ratio";

/** A value's dimension and form. */
export interface Sort {
  readonly dimension: Dimension;
  readonly form: Form;
}

/** What a level, which counts as its ratio, cannot stand beside: another level, a logarithm, or a number of decibels other than 0 and 1. */
export function clashOf(x: Expression, { form: a }: Sort, y: Expression, { form: b }: Sort): "level" | "log" | "number" | undefined {
  if (a !== "level" && b !== "level") return undefined;
  const [beside, form] = a === "level" ? [y, b] : [x, a];
  if (form === "" || form === "ratio" || (form === "number" && isNeutral(beside))) return undefined;
  return form;
}

/** 0, 1 and −1 as written: no number of decibels. */
function isNeutral(expression: Expression): boolean {
  if ("number" in expression) return expression.number === 0 || expression.number === 1;
  if (!("call" in expression) || expression.call !== "negate") return false;
  const [size] = expression.of as [Expression];
  return "number" in size && size.number === 1;
}

/** The form of what an operator makes of two values. */
export function formOf(operation: Operation, a: Sort, b: Sort): Form {
  switch (operation) {
    case "multiply":
      if (isOfLevels(b)) return multiple(b.form, a);
      return isOfLevels(a) ? multiple(a.form, b) : "";
    case "divide":
      if (isOfLevels(b)) return "ratio";
      if (isOfLevels(a)) return multiple(a.form, b);
      return a.form === "number" && b.form === "number" ? "number" : "";
    case "add":
    case "subtract":
      if (a.form === "log" || b.form === "log") return "log";
      if (a.form !== b.form && a.form !== "" && b.form !== "") return ofRatios([a, b]);
      return a.form === "level" || b.form === "level" ? "level" : ofRatios([a, b]);
    default:
      return ofRatios([a, b]);
  }
}

const logarithms: ReadonlySet<string> = new Set(["log10", "ln", "log2"]);

/** The form of a function's value; `if` is given its two values. */
export function formOfCall({ call }: CallExpression, { rule }: FormulaFunction, sorts: readonly Sort[]): Form {
  if (logarithms.has(call)) return "log";
  return rule === "extreme" || rule === "choice" || call === "abs" ? strongest(sorts) : ofRatios(sorts);
}

/** Of values of which one is taken. */
export function strongest(sorts: readonly Sort[]): Form {
  return (["log", "level"] as const).find((form) => sorts.some((sort) => sort.form === form)) ?? ofRatios(sorts);
}

function isOfLevels({ form }: Sort): boolean {
  return form === "level" || form === "log" || form === "ratio";
}

/** A number of levels or logarithms is still one; all else is arithmetic with ratios. */
function multiple(form: Form, by: Sort): Form {
  return isOfLevels(by) || by.dimension.si !== "1" ? "ratio" : form;
}

function ofRatios(sorts: readonly Sort[]): Form {
  return sorts.some(isOfLevels) ? "ratio" : "";
}
