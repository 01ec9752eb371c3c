/** A bare dB of the design file, read as the unit asks: 6 dB is a gain of voltages (2.0) or, of a noise figure or a path, of powers (4.0). */
import type { GivenNode, GraphNode } from "../graph/node";
import type { Dimension } from "../quantity/dimension";
import { parseQuantity } from "../quantity/parse";

/** The given itself, or where a power gain is asked of one in plain dB, the given read so. */
export function gainAsAsked<N extends GraphNode>(node: N, asked: Dimension): N | GivenNode {
  if (node.kind !== "given" || node.dimension !== "1|field gain" || node.unit !== "dB" || asked.key !== "1|power gain") return node;
  const { si, spread, unit, dimension } = parseQuantity(node.text, { dimension: asked });
  return { ...node, nominal: si, spread, unit: unit.symbol, dimension: dimension.key };
}
