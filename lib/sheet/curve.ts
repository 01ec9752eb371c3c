/** A curve of a worksheet: a quantity as a function of one other, from a table, a sweep or a model. */

import { contentId } from "../graph/identity";
import { modelNamed } from "../graph/model";
import type { NodeId } from "../graph/node";
import { coherentUnit } from "../quantity/coherent-unit";
import { dimension, multiply } from "../quantity/dimension";
import type { Dim, Mul } from "../quantity/dimension-types";
import type { Quantity } from "../quantity/quantity";
import { expectFits, type FitsQuantity } from "./fits";
import type { AnyQuantity, Session } from "./session";

type Operation = "at" | "maximum" | "minimum" | "crossing" | "integral";

export class Curve<in out X extends Dim, in out Y extends Dim> {
  /** Keeps X and Y apart for the compiler; never set. */
  declare readonly abscissa: X;
  declare readonly ordinate: Y;

  /** @internal */
  constructor(
    /** @internal */ readonly session: Session,
    /** @internal */ readonly id: NodeId,
  ) {}

  /** The ordinate at x, interpolated by the curve's own rule. Outside its range is an error. */
  at<Q extends AnyQuantity>(x: FitsQuantity<X, Q, "the abscissa">): Quantity<Y>;
  at(x: AnyQuantity): Quantity<Y> {
    expectFits(this.session, "the abscissa", dimension(curveUnits(this.session, this.id).x.dimension), x);
    return this.scalar("at", "y", this.session.enter(x));
  }

  /** The largest ordinate. */
  maximum(): Quantity<Y> {
    return this.scalar("maximum", "y");
  }

  /** The smallest ordinate. */
  minimum(): Quantity<Y> {
    return this.scalar("minimum", "y");
  }

  /** The first abscissa at which the curve passes y. An error where it never does. */
  crossing<Q extends AnyQuantity>(y: FitsQuantity<Y, Q, "the ordinate">): Quantity<X>;
  crossing(y: AnyQuantity): Quantity<X> {
    expectFits(this.session, "the ordinate", dimension(curveUnits(this.session, this.id).y.dimension), y);
    return this.scalar("crossing", "x", this.session.enter(y));
  }

  /** The area under the curve, by trapezoids between its points. */
  integral(): Quantity<Mul<X, Y>> {
    return this.scalar("integral", "xy");
  }

  private scalar<D extends Dim>(operation: Operation, axis: "x" | "y" | "xy", argument?: NodeId): Quantity<D> {
    const { x, y } = curveUnits(this.session, this.id);
    const content = {
      kind: "curve-operation" as const,
      operation,
      of: this.id,
      ...(argument === undefined ? {} : { argument }),
      ...(axis === "xy" ? product(x, y) : axis === "x" ? x : y),
    };
    const id = this.session.add({ id: contentId(content), ...content });
    return this.session.quantity(id) as Quantity<D>;
  }
}

interface Measure {
  readonly dimension: string;
  readonly unit: string;
}

/** Dimension and unit of both axes of a curve node. */
export function curveUnits(session: Session, id: NodeId): { x: Measure; y: Measure } {
  const node = session.node(id);
  const y = { dimension: node.dimension, unit: node.unit };
  if (node.kind === "table" || node.kind === "sweep") return { x: { dimension: node.xDimension, unit: node.xUnit }, y };
  const slot = node.kind === "model" ? modelNamed(node.model).outputs[node.output] : undefined;
  if (slot !== undefined && "shape" in slot) return { x: { dimension: slot.x.dimension.key, unit: slot.x.symbol }, y };
  throw session.error("worksheet", `${id} is a single value, not a curve`);
}

function product(x: Measure, y: Measure): Measure {
  const made = multiply(dimension(x.dimension), dimension(y.dimension));
  return { dimension: made.key, unit: coherentUnit(made).symbol };
}
