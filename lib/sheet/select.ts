/** Preferred values: the part that one buys instead of the value that was computed. */
import type { GivenNode } from "../graph/node";
import type { Series } from "../graph/preferred";
import { assignable, dimension, dimensionless } from "../quantity/dimension";
import type { Dim } from "../quantity/dimension-types";
import type { Quantity, Unit } from "../quantity/quantity";
import type { Session } from "./session";

export interface SelectOptions {
  /** Nearest by least relative error unless stated. */
  readonly rule?: "nearest" | "not below" | "not above";
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
  const source = session.enter(of);
  const node = session.node(source);
  const symbol = node.symbol ?? "x";
  const id = `${source}.${series}`;
  const deviation = deviationOf(session, tolerance, id);
  session.define({
    kind: "select",
    id,
    dimension: node.dimension,
    unit: node.unit,
    symbol: `${symbol}_${series}`,
    meaning: `${node.meaning ?? symbol}: preferred value of ${series}${rule === "nearest" ? "" : `, ${rule} it`}`,
    of: source,
    series,
    rule,
    deviation,
  });
  session.show({ type: "select", node: id, of: source });
  return session.quantity(id) as Quantity<D>;
}

/**
 * One more part of a kind that the design file states once: the same value and tolerance, drawn independently of
 * other parts of that kind. `name` tells the parts of one kind apart.
 */
export function part<D extends Dim>(session: Session, name: string, path: string, unit: Unit<D>): Quantity<D> {
  const given = session.design.given(path);
  const place = given.provenance.place ?? path;
  if (given.kind !== "given") throw session.error("dimension", `${place}: ${path} is a table; a part needs a single quantity`);
  if (!assignable(dimension(given.dimension), unit.dimension)) {
    throw session.error(
      "dimension",
      `${place}: ${path} is ${dimension(given.dimension).label}; the worksheet asks for ${unit.dimension.label} (in ${unit.symbol})`,
    );
  }
  return session.quantity(session.add({ ...given, id: `${path}#${session.idOf(name)}` }), unit) as Quantity<D>;
}

/** The relative deviation of a selected part, drawn from the tolerance at `path`. */
function deviationOf(session: Session, path: string, owner: string): string {
  const given = session.design.given(path);
  if (given.kind !== "given" || dimension(given.dimension) !== dimensionless || given.nominal !== 0) {
    throw session.error("dimension", `${given.provenance.place ?? path}: ${path} should be the tolerance of a part, as in "±1 %"`);
  }
  const node: GivenNode = { ...given, id: `${path}#${owner}` };
  return session.add(node);
}
