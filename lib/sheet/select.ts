/** Preferred values: the part that one buys instead of the value that was computed. */
import { partOf } from "../graph/identity";
import type { NodeId, SelectNode } from "../graph/node";
import type { Arrangement, SelectionRule, Series } from "../graph/preferred";
import { dimension, dimensionless } from "../quantity/dimension";
import type { Dim } from "../quantity/dimension-types";
import type { Quantity, Unit } from "../quantity/quantity";
import { gainAsAsked } from "./asked-gain";
import { expectGiven } from "./given";
import type { AnyQuantity, Session } from "./session";

export interface SelectOptions {
  /** Nearest by least relative error unless stated. */
  readonly rule?: SelectionRule;
}

/**
 * The member of an IEC 60063 series for a computed value, with the tolerance that the given at `tolerance` states
 * (`±1 %`). Every selection is a part of its own: it is drawn independently of others of the same tolerance.
 */
export function select<D extends Dim>(
  session: Session,
  of: Quantity<D>,
  series: Series,
  tolerance: string,
  { rule = "nearest" }: SelectOptions = {},
): Quantity<D> {
  const wanted = wantedBy(session, of, series, rule);
  const id = definePart(session, wanted, wanted.id, wanted.symbol, tolerance);
  session.show({ type: "select", node: id, of: wanted.source });
  return session.quantity(id) as Quantity<D>;
}

/**
 * A value that is fixed from nominals and is then the same in every unit: a calibration constant, a scale in firmware, a threshold in
 * code. What it is computed from may differ from unit to unit and with conditions of use; it does not.
 */
export function setOnce<D extends Dim>(session: Session, of: Quantity<D>): Quantity<D> {
  const source = session.enter(of);
  const { dimension: key, unit, symbol = "x", meaning = symbol } = session.node(source);
  const id = session.define({
    kind: "set-once",
    id: `${source}.set`,
    dimension: key,
    unit,
    symbol: `${symbol}_set`,
    meaning: `${meaning}, set once`,
    of: source,
  });
  session.show({ type: "select", node: id, of: source });
  return session.quantity(id) as Quantity<D>;
}

/** Two preferred values that stand for one, and what they make together. */
export interface SelectedPair<D extends Dim> {
  readonly larger: Quantity<D>;
  readonly smaller: Quantity<D>;
  readonly together: Quantity<D>;
}

/**
 * The two members of an IEC 60063 series that come nearest to a computed value when they are joined: `series` where values add
 * (resistors or inductors in series, capacitors in parallel), `parallel` where their reciprocals do. Each part has the tolerance of the
 * given at `tolerance` and is drawn on its own, so that the pair spreads less than one part.
 */
export function selectPair<D extends Dim>(
  session: Session,
  of: Quantity<D>,
  series: Series,
  joined: Arrangement,
  tolerance: string,
  { rule = "nearest" }: SelectOptions = {},
): SelectedPair<D> {
  const wanted = wantedBy(session, of, series, rule);
  const [larger, smaller] = (["larger", "smaller"] as const).map((part) =>
    definePart(session, wanted, `${wanted.id}.${part}`, `${wanted.symbol}_${part}`, tolerance, { joined, part }),
  ) as [NodeId, NodeId];
  const id = session.define({
    ...(joined === "series" ? sum : product),
    arguments: { a: larger, b: smaller },
    kind: "formula",
    id: wanted.id,
    dimension: wanted.node.dimension,
    unit: wanted.node.unit,
    symbol: wanted.symbol,
    meaning: `${wanted.meaning}, two parts`,
  });
  session.show({ type: "select", node: id, of: wanted.source, parts: [larger, smaller] });
  const quantityOf = (node: NodeId) => session.quantity(node) as Quantity<D>;
  return { larger: quantityOf(larger), smaller: quantityOf(smaller), together: quantityOf(id) };
}

const [a, b] = [{ symbol: "a" }, { symbol: "b" }];
const sum = { text: "a + b", expression: { call: "add", of: [a, b] } } as const;
const product = {
  text: "a*b/(a + b)",
  expression: { call: "divide", of: [{ call: "multiply", of: [a, b] }, sum.expression] },
} as const;

/** What a selection is for, and how it is called. */
function wantedBy(session: Session, of: AnyQuantity, series: Series, rule: SelectionRule) {
  const source = session.enter(of);
  const node = session.node(source);
  const symbol = node.symbol ?? "x";
  const ruleWords = rule === "nearest" ? "" : `, ${rule} it`;
  return {
    source,
    node,
    series,
    rule,
    id: `${source}.${series}`,
    symbol: `${symbol}_${series}`,
    meaning: `${node.meaning ?? symbol}: preferred value of ${series}${ruleWords}`,
  };
}

function definePart(
  session: Session,
  { source, node, series, rule, meaning }: ReturnType<typeof wantedBy>,
  id: NodeId,
  symbol: string,
  tolerance: string,
  pair?: SelectNode["pair"],
): NodeId {
  return session.define({
    kind: "select",
    id,
    dimension: node.dimension,
    unit: node.unit,
    symbol,
    meaning: pair === undefined ? meaning : `${meaning}, the ${pair.part} of two in ${pair.joined}`,
    of: source,
    series,
    rule,
    ...(pair && { pair }),
    deviation: deviationOf(session, tolerance, id),
  });
}

/**
 * One more part of a kind that the design file states once: the same value and tolerance, drawn independently of
 * other parts of that kind. `name` tells the parts of one kind apart.
 */
export function part<D extends Dim>(session: Session, name: string, path: string, unit: Unit<D>): Quantity<D> {
  const given = gainAsAsked(session.design.given(path), unit.dimension);
  const place = given.provenance.place ?? path;
  if (given.kind !== "given") throw session.error("dimension", `${place}: ${path} is a table; a part needs a single quantity`);
  expectGiven(session, given, given.dimension, unit);
  session.name(`part of ${path}`, session.idOf(name));
  return session.quantity(session.add(partOf(given, session.idOf(name))), unit) as Quantity<D>;
}

/** The relative deviation of a selected part, drawn from the tolerance at `path`. */
function deviationOf(session: Session, path: string, owner: string): string {
  const given = session.design.given(path);
  if (given.kind !== "given" || dimension(given.dimension) !== dimensionless || given.nominal !== 0) {
    throw session.error("dimension", `${given.provenance.place ?? path}: ${path} should be the tolerance of a part, as in "±1 %"`);
  }
  return session.add(partOf(given, owner));
}
