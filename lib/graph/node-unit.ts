/** The display unit of a node as an object: text such as `°C` or `dB` is read with the node's dimension. */
import { dimension } from "../quantity/dimension";
import type { Unit } from "../quantity/quantity";
import { unitOf } from "../quantity/unit";

export interface Measured {
  readonly dimension: string;
  readonly unit: string;
}

/** The unit in which values of the node are shown. */
export function unitOfNode(node: Measured): Unit<any> {
  return unitOf(node.unit, dimension(node.dimension));
}
