import { hashDigits } from "./hash";
import type { GraphNode, NodeId } from "./node";
import { canonicalText } from "./serialise";

type WithoutId<N> = N extends GraphNode ? Omit<N, "id"> : never;
/** A node that has no name yet. */
export type UnnamedNode = WithoutId<GraphNode>;

/** `~` and the hash of the node's content: the same intermediate has the same id in every sheet and order. */
export function contentId(node: UnnamedNode): NodeId {
  return `~${hashDigits(canonicalText(node))}`;
}

/** True for an intermediate that its content names. */
export function isUnnamed(id: NodeId): boolean {
  return id.startsWith("~");
}
