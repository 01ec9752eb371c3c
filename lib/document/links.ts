/**
 * Links to results in Markdown: `[270 Ω](#R)` in a sheet, `[12 h](battery.ipynb#runtime)` from anywhere. Sheets are
 * found by name, whatever number stands before it in the file's name.
 */
import type { Graph } from "../graph/graph";
import type { NodeId } from "../graph/node";
import { nodeLink, nodeOf, type View } from "./book-data";
import type { LinkResolver } from "./markdown";
import { live } from "./show";

/** The result that a link target names, or undefined. `published` holds names a sheet gave its results. */
export function linkedResult(
  target: string,
  sheet: string,
  nodes: Pick<Graph, "has">,
  published: ReadonlyMap<string, NodeId>,
): NodeId | undefined {
  const parts = /^(?:.*?([^/]+)\.ipynb)?#(.+)$/.exec(decoded(target));
  if (!parts) return undefined;
  const owner = parts[1]?.replace(/^\d+-/, "") ?? sheet;
  const name = parts[2] ?? "";
  const id = published.get(`${owner}.${name}`) ?? `${owner}.${name}`;
  return nodes.has(id) ? id : undefined;
}

/** A link whose text is a number shows the computed value; one in words keeps its words. */
export function resolver(sheet: string, view: View, published: ReadonlyMap<string, NodeId>): LinkResolver {
  return (target, text) => {
    const id = linkedResult(target, sheet, view.evaluation.graph, published);
    if (id === undefined) return undefined;
    const { unit } = nodeOf(view, id);
    const numeric = /^[\s≈~<>≤≥+−-]*\d/.test(text);
    const shown = numeric ? live({ node: id, show: "result", unit }, view.evaluation) : text;
    return nodeLink(id, shown, view, "computed");
  };
}

function decoded(target: string): string {
  try {
    return decodeURIComponent(target);
  } catch {
    return target;
  }
}
