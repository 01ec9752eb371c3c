/**
 * A product of levels as the trade adds it up: each factor in decibels with its sign and power, and their sum. Shown where it holds: every
 * factor and the result are levels of one factor (10 or 20), and the reference of the result is the product of theirs (dBm + dB = dBm).
 */
import { literalExponent } from "../formula/exponent";
import type { Expression } from "../formula/expression";
import type { NodeId } from "../graph/node";
import { power } from "../quantity/power";
import type { Unit } from "../quantity/quantity";
import type { LevelBudget } from "./block";

interface Factor {
  readonly symbol: string;
  /** The power it is raised to. */
  readonly times: number;
}

/** What a factor is called in the graph, and the unit that it is shown in. */
export interface FactorValue {
  readonly node: NodeId;
  readonly unit: Unit<any>;
}

/** The budget of a law; undefined where it is no product of two levels or more, or their decibels do not add up to the result's. */
export function levelBudget(
  expression: Expression,
  valueFor: (symbol: string) => FactorValue | undefined,
  { log: of }: Unit<any>,
): LevelBudget | undefined {
  const factors = together(factorsOf(expression, 1) ?? []);
  if (of === undefined || factors.length < 2) return undefined;
  let reference = 1;
  const lines: LevelBudget["lines"][number][] = [];
  for (const { symbol, times } of factors) {
    const value = valueFor(symbol);
    if (value?.unit.log?.factor !== of.factor) return undefined;
    reference *= power(value.unit.log.reference, times);
    lines.push({ symbol, node: value.node, unit: value.unit.symbol, times });
  }
  return Math.abs(reference / of.reference - 1) < 1e-9 ? { lines } : undefined;
}

/** `+`, `−`, `+ 2 ·`: what stands before the decibels of a line. */
export function signOf(times: number): string {
  const size = Math.abs(times) === 1 ? "" : ` ${Math.abs(times)} ·`;
  return `${times < 0 ? "−" : "+"}${size}`;
}

/** Each symbol once, with all of its powers; what cancels is left out. */
function together(factors: readonly Factor[]): readonly Factor[] {
  const powers = new Map<string, number>();
  for (const { symbol, times } of factors) powers.set(symbol, (powers.get(symbol) ?? 0) + times);
  return [...powers].map(([symbol, times]) => ({ symbol, times })).filter(({ times }) => times !== 0);
}

/** Symbols with their powers; undefined where anything else than products, quotients and literal powers is in it. */
function factorsOf(expression: Expression, times: number): readonly Factor[] | undefined {
  if ("symbol" in expression) return [{ symbol: expression.symbol, times }];
  if (!("call" in expression)) return undefined;
  const [first, second] = expression.of as [Expression, Expression];
  if (expression.call === "sqrt") return factorsOf(first, times / 2);
  if (expression.call === "power") {
    const exponent = literalExponent(second);
    return exponent === undefined ? undefined : factorsOf(first, times * exponent);
  }
  if (expression.call !== "multiply" && expression.call !== "divide") return undefined;
  const left = factorsOf(first, times);
  const right = factorsOf(second, expression.call === "divide" ? -times : times);
  return left && right && [...left, ...right];
}
