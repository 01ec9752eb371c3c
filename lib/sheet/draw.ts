/** Drawings to scale, from quantities. */
import type { NodeId } from "../graph/node";
import type { DrawingBlock } from "./block";
import { drawingNamed } from "./drawings/registry";
import { paperStyle } from "./drawings/svg";
import { expectFits } from "./fits";
import type { AnyQuantity, Session } from "./session";

export interface DrawOptions {
  readonly name: string;
  readonly caption: string;
  readonly arguments: Readonly<Record<string, AnyQuantity>>;
}

/** Shows a registered drawing. Throws where the drawing is unknown or a size is missing, of another dimension or not positive. */
export function draw(session: Session, drawing: string, { name, caption, arguments: sizes }: DrawOptions): void {
  const drawn = drawingNamed(drawing);
  const nodes: Record<string, NodeId> = {};
  for (const [argument, unit] of Object.entries(drawn.arguments)) {
    const size = sizes[argument];
    if (size === undefined) throw session.error("worksheet", `${drawing} needs ${argument} (in ${unit.symbol})`);
    expectFits(session, `${drawing}: ${argument}`, unit.dimension, size);
    nodes[argument] = session.enter(size);
  }
  session.name("drawing", name);
  const block: DrawingBlock = { type: "drawing", name, caption, drawing, arguments: nodes };
  const values = Object.fromEntries(Object.entries(nodes).map(([argument, id]) => [argument, session.evaluation.nominal(id)]));
  session.show(block, [], [], { svg: drawn.draw(values, paperStyle) });
}
