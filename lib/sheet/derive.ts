/** Derivations: a result from a law as text, from a formula of the physics modules, or from a model. */
import { checkFormula, type Stated } from "../formula/check";
import type { Expression } from "../formula/expression";
import type { AnyFormula } from "../formula/formula";
import { plainText } from "../formula/plain-text";
import { symbolsOf } from "../formula/symbols";
import { typeset } from "../formula/typeset";
import { type AnyModel, isCurveSlot, type Slot } from "../graph/model";
import type { FormulaNode, NodeId } from "../graph/node";
import { assignable, type Dimension, dimension } from "../quantity/dimension";
import type { Unit } from "../quantity/quantity";
import { Quantity } from "../quantity/quantity";
import type { ResultBlock } from "./block";
import { Curve, curveUnits } from "./curve";
import { expectFits, isUnit } from "./fits";
import { type FactorValue, levelBudget } from "./level-budget";
import type { AnyQuantity, Session } from "./session";
import { type LawValue, substitutedLaw } from "./substituted-law";

// Units and curves of whatever dimension; explicit variance refuses Dim
type Any = any;
type AnyUnit = Unit<Any>;
type AnyCurve = Curve<Any, Any>;

/** What a law may take: quantities and curves by symbol. */
export type Arguments = Readonly<Record<string, AnyQuantity | AnyCurve>>;

export interface DeriveOptions {
  /** Name of the result; the formula's own unless stated. A model's result must be named. */
  readonly name?: string;
  /** What comes out, in words; the law's own meaning unless stated. For a model with several outputs, of each by name. */
  readonly meaning?: string | Readonly<Record<string, string>>;
}

/** Tells the kinds of law apart. Throws where it is none. */
export function derive(session: Session, law: unknown, args: Arguments, third: unknown, fourth: unknown): unknown {
  if (typeof args !== "object" || args === null || args instanceof Quantity || args instanceof Curve)
    throw session.error("formula", "derive takes the quantities of the law by symbol, as in { V: V, I: I }");
  if (typeof law === "string") return deriveText(session, law, args, asUnit(session, third), String(fourth ?? ""));
  if (typeof law === "object" && law !== null && "expression" in law) {
    return deriveFormula(session, law as AnyFormula, args, asUnit(session, third), fourth as DeriveOptions | undefined);
  }
  if (typeof law === "object" && law !== null && "outputs" in law)
    return deriveModel(session, law as AnyModel, args, (third ?? {}) as DeriveOptions);
  throw session.error("formula", "derive takes the text of a law, a formula or a model");
}

function asUnit(session: Session, value: unknown): AnyUnit {
  if (isUnit(value)) return value;
  throw session.error("dimension", "a unit is missing, such as volt");
}

/** A result from a law as text: `"R_g = (V_s - V_g)/I_g"`. The name before `=` is required. */
function deriveText(session: Session, text: string, args: Arguments, unit: AnyUnit, meaning: string): AnyQuantity {
  const quantities = Object.entries(args).filter((entry): entry is [string, AnyQuantity] => entry[1] instanceof Quantity);
  const symbols = Object.fromEntries(quantities.map(([symbol, { dimension, unit }]) => [symbol, statedAs(dimension, unit)]));
  const checked = checkFormula(text, symbols, unit);
  if ("error" in checked) throw session.error("formula", `"${text}": ${refusal(checked.error, args)}`);
  const { name, expression } = checked;
  if (name === undefined) throw session.error("formula", `"${text}": the result has no name; begin with one, as in R = ${text}`);
  return addFormula(session, { name, expression, text: plainText(expression), unit, meaning }, args);
}

/** A quantity without kind may be shown in a unit that has one. */
function statedAs(dimension: Dimension, { log }: AnyUnit): Stated {
  return log === undefined ? { dimension } : { dimension, log };
}

/** To the formula alone, a symbol that stands for something else than a quantity is unknown. */
function refusal(error: string, args: Arguments): string {
  const other = Object.keys(args).find((symbol) => error === `✗ unknown symbol '${symbol}'`);
  return other === undefined ? error : `✗ ${other} is no quantity`;
}

/** A result by a formula of the physics modules. */
function deriveFormula(session: Session, formula: AnyFormula, args: Arguments, unit: AnyUnit, options: DeriveOptions = {}): AnyQuantity {
  const { name = formula.name } = options;
  const meaning = meaningOf(options, name) ?? formula.meaning;
  for (const [symbol, expected] of Object.entries(formula.arguments)) expectArgument(session, formula.text, symbol, expected, args[symbol]);
  if (!assignable(formula.result.dimension, unit.dimension)) {
    throw session.error("dimension", `${formula.text}: the law gives ${formula.result.dimension.label}, not ${unit.dimension.label}`);
  }
  const extra = {
    source: formula.source,
    valid: formula.valid,
    ...(formula.numerical === undefined ? {} : { numerical: formula.numerical }),
  };
  return addFormula(session, { name, expression: formula.expression, text: plainText(formula.expression), unit, meaning }, args, extra);
}

interface Law {
  readonly name: string;
  readonly expression: Expression;
  readonly text: string;
  readonly unit: AnyUnit;
  readonly meaning: string;
}

function addFormula(
  session: Session,
  law: Law,
  args: Arguments,
  extra: Pick<FormulaNode, "source" | "valid" | "numerical"> = {},
): AnyQuantity {
  const used = symbolsOf(law.expression);
  const nodes = Object.fromEntries(used.map((symbol) => [symbol, session.enter(args[symbol] as AnyQuantity)]));
  const id = session.define({
    kind: "formula",
    id: session.idOf(law.name),
    dimension: law.unit.dimension.key,
    unit: law.unit.symbol,
    symbol: law.name,
    meaning: law.meaning,
    text: law.text,
    expression: law.expression,
    arguments: nodes,
    ...extra,
  });
  const levels = levelBudget(law.expression, (symbol) => factorValue(nodes[symbol], args[symbol]), law.unit);
  const block: ResultBlock = {
    type: "result",
    node: id,
    law: typeset(law.expression),
    substituted: substitutedLaw(law.expression, (symbol) => lawValue(nodes[symbol], args[symbol])),
    ...(levels === undefined ? {} : { levels }),
    ...(extra.source === undefined ? {} : { source: extra.source }),
  };
  return shown(session, id, block, law.unit);
}

function factorValue(node: NodeId | undefined, argument: AnyQuantity | AnyCurve | undefined): FactorValue | undefined {
  return node !== undefined && argument instanceof Quantity ? { node, unit: argument.unit } : undefined;
}

function lawValue(node: NodeId | undefined, argument: AnyQuantity | AnyCurve | undefined): LawValue | undefined {
  if (node === undefined) return undefined;
  const { unit, dimension } = argument as AnyQuantity;
  return { node, unit: unit.symbol, dimension: dimension.key };
}

/** The outputs of a model as quantities: one under the given name, several each under its own. */
function deriveModel(session: Session, model: AnyModel, args: Arguments, options: DeriveOptions): Record<string, AnyQuantity | AnyCurve> {
  for (const [symbol, slot] of Object.entries(model.inputs)) expectSlot(session, model.name, symbol, slot, args[symbol]);
  const nodes = Object.fromEntries(Object.keys(model.inputs).map((symbol) => [symbol, enterArgument(session, args[symbol])]));
  const outputs = Object.entries(model.outputs);
  return Object.fromEntries(
    outputs.map(([output, slot]) => {
      const name = outputs.length === 1 ? (options.name ?? output) : options.name === undefined ? output : `${output}_${options.name}`;
      const unit = "shape" in slot ? slot.y : slot;
      const id = session.define({
        kind: "model",
        id: session.idOf(name),
        dimension: unit.dimension.key,
        unit: unit.symbol,
        symbol: name,
        meaning: meaningOf(options, output) ?? model.meanings?.[output] ?? model.meaning,
        model: model.name,
        output,
        arguments: nodes,
      });
      if (isCurveSlot(slot)) return [output, new Curve<Any, Any>(session, id)];
      return [output, shown(session, id, { type: "result", node: id, model: model.meaning, source: model.source }, unit)];
    }),
  );
}

function meaningOf({ meaning }: DeriveOptions, output: string): string | undefined {
  return typeof meaning === "object" ? meaning[output] : meaning;
}

function shown(session: Session, id: NodeId, block: ResultBlock, unit: AnyUnit): AnyQuantity {
  const quantity = session.quantity(id, unit);
  if (session.isShowing) session.show(block, [session.evaluation.analysis(id)]);
  return quantity;
}

function enterArgument(session: Session, value: AnyQuantity | AnyCurve | undefined): NodeId {
  return value instanceof Curve ? value.id : session.enter(value as AnyQuantity);
}

function expectArgument(session: Session, law: string, symbol: string, unit: AnyUnit, value: AnyQuantity | AnyCurve | undefined): void {
  if (value === undefined) throw session.error("formula", `${law}: ${symbol} is missing: ${unit.dimension.label}`);
  expectFits(session, `${law}: ${symbol}`, unit.dimension, value);
}

function expectSlot(session: Session, model: string, symbol: string, slot: Slot, value: AnyQuantity | AnyCurve | undefined): void {
  if (!("shape" in slot)) {
    expectArgument(session, model, symbol, slot, value);
    return;
  }
  const wanted = `a table of ${slot.y.dimension.label} against ${slot.x.dimension.label}`;
  if (value === undefined) throw session.error("formula", `${model}: ${symbol} is missing: ${wanted}`);
  if (!(value instanceof Curve)) throw session.error("formula", `${model}: ${symbol} must be ${wanted}`);
  const { x, y } = curveUnits(session, value.id);
  const [foundX, foundY] = [dimension(x.dimension), dimension(y.dimension)];
  if (assignable(foundX, slot.x.dimension) && assignable(foundY, slot.y.dimension)) return;
  throw session.error("dimension", `${model}: ${symbol} must be ${wanted}, got one of ${foundY.label} against ${foundX.label}`);
}
