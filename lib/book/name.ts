/** What a name stands for that a person writes: a result as `sheet.name`, a given by its path, a decision or a reference row by its id. */
import { nearest } from "../design/nearest";
import type { Graph } from "../graph/graph";
import { givenId, isUnnamed, spelledName } from "../graph/identity";
import type { NodeId } from "../graph/node";
import { WorkingsError } from "../quantity/error";

/** What names are looked up in. */
export interface Named {
  readonly graph: Graph;
  /** `sheet.name` of every published result. */
  readonly published: ReadonlyMap<string, NodeId>;
}

/** Begins the name of a result where a given has the same one; `givens.` that of the given. */
const sheets = "sheets.";

/** Every node that a name fits, with the spelling that fits it alone. */
export function candidates({ graph, published }: Named, name: string): { readonly id: NodeId; readonly spelling: string }[] {
  const result = name.startsWith(sheets) ? name.slice(sheets.length) : name;
  const found = [published.get(result) ?? result, ...(name === result ? [givenId(name)] : [])].filter((id) => graph.has(id));
  return [...new Set(found)].map((id) => ({ id, spelling: id === givenId(name) ? id : `${sheets}${result}` }));
}

/** The node that a name fits. Throws WorkingsError "usage": with both candidates where it fits a given and a result, with the nearest names where it fits nothing. */
export function nodeNamed(book: Named, name: string): NodeId {
  const [first, second] = candidates(book, name);
  if (first !== undefined && second !== undefined)
    throw new WorkingsError("usage", `"${name}" is a result and a given; say which: ${first.spelling} or ${second.spelling}`);
  if (first !== undefined) return first.id;
  const known = [...book.published.keys(), ...book.graph.nodes().flatMap(({ id }) => (isUnnamed(id) ? [] : [spelledName(id)]))];
  const near = nearest(name, [...new Set(known)]);
  throw new WorkingsError(
    "usage",
    `no sheet computes or takes "${name}"; ${near.length > 0 ? `did you mean ${near.join(" or ")}?` : `published are ${[...book.published.keys()].join(", ")}`}`,
  );
}
