/** What a node is computed from. */
import type { GraphNode, NodeId } from "./node";

/** Direct inputs of a node in a fixed order; a switch names its choice and every case. */
export function inputsOf(node: GraphNode): readonly NodeId[] {
  switch (node.kind) {
    case "given":
    case "table":
    case "choice":
    case "constant":
      return [];
    case "frozen":
      return node.reads;
    case "formula":
    case "model":
      return Object.values(node.arguments);
    case "select":
      return node.deviation === undefined ? [node.of] : [node.of, node.deviation];
    case "switch":
      return [node.choice, ...Object.values(node.cases)];
    case "reading":
    case "set-once":
      return [node.of];
    case "sweep":
      return [node.of, node.over];
    case "curve-operation":
      return node.argument === undefined ? [node.of] : [node.of, node.argument];
  }
}
