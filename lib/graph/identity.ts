import { hashDigits } from "./hash";
import type { GivenNode, GraphNode, NodeId } from "./node";
import { canonicalText } from "./serialise";

type WithoutId<N> = N extends GraphNode ? Omit<N, "id"> : never;
/** A node that has no name yet. */
export type UnnamedNode = WithoutId<GraphNode>;

/** `~` and the hash of the node's content: the same intermediate has the same id in every sheet and order. */
export function contentId(node: UnnamedNode): NodeId {
  return `~${hashDigits(canonicalText(node))}`;
}

/** Id of the given at a path of the design file: apart from that of a result, which is `sheet.name`. */
export function givenId(path: string): NodeId {
  return `${givens}${path}`;
}

/** One more part of the kind that a given states: the same value and tolerance, drawn on its own. */
export function partOf<N extends GivenNode>(given: N, owner: string): N {
  return { ...given, id: `${given.id}#${owner}` };
}

/** Of a given or a further part of its kind, the id of the given. */
export function wholeId(id: NodeId): NodeId {
  const at = id.indexOf("#");
  return at < 0 ? id : id.slice(0, at);
}

/** False for the given itself, true for a further part of its kind. */
export function isFurtherPart({ id }: GivenNode): boolean {
  return id.includes("#");
}

/** A given as the design file spells it, `rails.positive#indicators.R` for a further part; every other node by its id. */
export function spelledName(id: NodeId): string {
  return id.startsWith(givens) ? id.slice(givens.length) : id;
}

const givens = "givens.";

/** How ids of other things than results begin: no sheet and no group of givens may have such a name. */
export const reservedNames: readonly string[] = ["givens", "decisions", "reference", "sheets", "readings"];

/** True for an intermediate that its content names. */
export function isUnnamed(id: NodeId): boolean {
  return id.startsWith("~");
}
