/** Examples of formulas and models, run as a worksheet would run them: text through the parser, the law through the graph. */
import { Evaluation } from "../../analysis/evaluation";
import type { Example, Placed } from "../../design/examples";
import { nearest } from "../../design/nearest";
import { Graph } from "../../graph/graph";
import { curveAt } from "../../graph/interpolate";
import type { Slot } from "../../graph/model";
import type { GivenNode, GraphNode, TableNode } from "../../graph/node";
import { WorkingsError } from "../../quantity/error";
import { parseQuantity } from "../../quantity/parse";
import type { Unit } from "../../quantity/quantity";
import { type CatalogueEntry, pathOf } from "./catalogue";

const provenance = { source: "example" };
const interpolations = ["linear", "log-y", "log-log", "monotone"] as const;

/** The graph of an example, and which node is which result. */
export interface Worked {
  readonly graph: Graph;
  readonly results: Readonly<Record<string, string>>;
}

/** What a law takes, by symbol. */
export function inputsOf({ law }: CatalogueEntry): Readonly<Record<string, Slot>> {
  return law.kind === "formula" ? law.of.arguments : law.of.inputs;
}

/** What a law gives; a formula's result has the empty name. */
export function outputsOf({ law }: CatalogueEntry): Readonly<Record<string, Slot>> {
  return law.kind === "formula" ? { "": law.of.result } : law.of.outputs;
}

/** Throws WorkingsError `design` with the place of an argument that is missing, unknown or no such quantity. */
export function workedExample(entry: CatalogueEntry, example: Example): Worked {
  const inputs = inputsOf(entry);
  for (const [symbol, { place }] of Object.entries(example.arguments)) {
    if (symbol in inputs) continue;
    const near = nearest(symbol, Object.keys(inputs), 1)[0];
    fault(
      place,
      `${pathOf(entry)} has no argument '${symbol}'; it takes ${Object.keys(inputs).join(", ")}`,
      near && `did you mean ${near}?`,
    );
  }
  const arguments_ = Object.entries(inputs).map(([symbol, slot]) => {
    const placed = example.arguments[symbol];
    if (placed === undefined) return fault(example.place, `this example of ${pathOf(entry)} has no ${symbol}`, `write it under 'with'`);
    return argumentNode(symbol, slot, placed);
  });
  const names = Object.fromEntries(Object.keys(inputs).map((symbol) => [symbol, symbol]));
  const results = Object.entries(outputsOf(entry)).map(([name, slot]) => resultNode(entry, name, slot, names));
  return {
    graph: Graph.from([...arguments_, ...results]),
    results: Object.fromEntries(Object.keys(outputsOf(entry)).map((name) => [name, `result.${name}`])),
  };
}

function argumentNode(symbol: string, slot: Slot, { text, place }: Placed): GivenNode | TableNode {
  if ("shape" in slot) return tableNode(symbol, slot.x, slot.y, { text, place });
  const { si, spread } = read(slot, text, place);
  const { dimension, symbol: unit } = slot;
  return { kind: "given", id: symbol, path: symbol, symbol, dimension: dimension.key, unit, text, nominal: si, spread, provenance };
}

/** `0 % → 3.0 V, 100 % → 4.2 V (log-y)`. */
function tableNode(symbol: string, x: Unit<any>, y: Unit<any>, { text, place }: Placed): TableNode {
  const [, points = text, stated = "linear"] = /^(.*)\(([a-z-]+)\)\s*$/u.exec(text) ?? [];
  const interpolation = interpolations.find((name) => name === stated);
  if (interpolation === undefined) return fault(place, `'${stated}' is no interpolation`, `write ${interpolations.join(" or ")}`);
  const rows = points.split(/,\s/u).map((row) => {
    const [left, right, ...more] = row.split("→");
    if (left === undefined || right === undefined || more.length > 0)
      return fault(place, `'${row.trim()}' is no row of a table`, "write 'x → y' with units, rows parted by commas");
    return [read(x, left.trim(), place).si, read(y, right.trim(), place).si] as const;
  });
  return {
    ...{ kind: "table", id: symbol, path: symbol, symbol, xName: "x", yName: "y", interpolation, provenance },
    ...{ xDimension: x.dimension.key, xUnit: x.symbol, dimension: y.dimension.key, unit: y.symbol },
    ...{ x: rows.map(([left]) => left), y: rows.map(([, right]) => right) },
  };
}

function resultNode({ law }: CatalogueEntry, output: string, slot: Slot, names: Readonly<Record<string, string>>): GraphNode {
  const unit = "shape" in slot ? slot.y : slot;
  const common = { id: `result.${output}`, dimension: unit.dimension.key, unit: unit.symbol, arguments: names };
  if (law.kind === "model") return { ...common, kind: "model", model: law.of.name, output, symbol: output };
  const { expression, name, text, valid, numerical } = law.of;
  return { ...common, kind: "formula", symbol: name, text, expression, valid, ...(numerical && { numerical }) };
}

/** What an example gives beside what it should: one sentence for each result that is off; none where all is well. */
export function exampleFaults(entry: CatalogueEntry, example: Example): readonly string[] {
  const worked = workedExample(entry, example);
  const evaluation = new Evaluation(worked.graph);
  return Object.entries(example.results).flatMap(([name, placed]) => {
    const id = worked.results[name];
    const slot = outputsOf(entry)[name];
    if (id === undefined || slot === undefined)
      return [`${placed.place}: ${pathOf(entry)} has no result '${name}'; it gives ${Object.keys(worked.results).join(", ")}`];
    return resultFault(evaluation, id, slot, placed, name === "" ? pathOf(entry) : `${pathOf(entry)} ${name}`);
  });
}

function resultFault(evaluation: Evaluation, id: string, slot: Slot, { text, place }: Placed, what: string): readonly string[] {
  const [stated = "", at] = text.split(" at ");
  const unit = "shape" in slot ? slot.y : slot;
  const expected = read(unit, stated.trim(), place);
  const computed = "shape" in slot ? curvePoint(evaluation, id, slot.x, at, place) : evaluation.nominal(id);
  const [number, got] = [expected.number, expected.unit.fromSI(computed)];
  if (Math.abs(got - number) <= halfDigit(stated.trim()) * (1 + 1e-9) + 1e-12 * Math.abs(number)) return [];
  return [`${place}: ${what} should be ${text}, and is ${Number(got.toPrecision(10))} ${expected.unit.symbol}`];
}

function curvePoint(evaluation: Evaluation, id: string, x: Unit<any>, at: string | undefined, place: string): number {
  if (at === undefined) return fault(place, "the result is a curve", "write its value at a point, as in '2.10 mA at 3 V'");
  return curveAt(evaluation.curve(id), read(x, at.trim(), place).si);
}

/** Half of the last digit written: 0.05 of `12.3 mV`. */
function halfDigit(text: string): number {
  const [, fraction = "", exponent = "0"] = /^[-+−]?\d*(?:\.(\d*))?(?:e([-+]?\d+))?/iu.exec(text) ?? [];
  return 0.5 * Number(`1e${Number(exponent) - fraction.length}`);
}

function read(unit: Unit<any>, text: string, place: string) {
  try {
    const quantity = parseQuantity(text, { dimension: unit.dimension });
    return { si: quantity.si, spread: quantity.spread, unit: quantity.unit, number: quantity.unit.fromSI(quantity.si) };
  } catch (error) {
    if (!(error instanceof WorkingsError)) throw error;
    return fault(place, error.message, `${unit.dimension.label} is expected, as in '1 ${unit.symbol === "1" ? "" : unit.symbol}'`);
  }
}

function fault(place: string, what: string, remedy?: string): never {
  throw new WorkingsError("design", `${place}: ${what}${remedy ? `; ${remedy}` : ""}`, { place });
}
