/** Links to results in the Markdown of a sheet, as the document shows them. */
import type { NodeId } from "../../graph/node";
import { isNumber, linkedEnd, linkedResult } from "../../prose/links";
import { isEndName } from "../../sheet/ends";
import { nodeLink, nodeOf, type View } from "../model/book-data";
import type { LinkResolver } from "./markdown";
import { live } from "./show";

/** A link whose text is a number shows the computed value; one in words keeps its words. */
export function resolver(sheet: string, view: View, published: ReadonlyMap<string, NodeId>): LinkResolver {
  return (target, text) => {
    const id = linkedResult(target, sheet, { has: (node) => view.evaluation.graph.has(node), published });
    if (id === undefined) return undefined;
    const { unit } = nodeOf(view, id);
    const end = linkedEnd(target);
    const show = end !== undefined && isEndName(end) ? end : "result";
    const shown = isNumber(text) ? live({ node: id, show, unit }, view.evaluation) : text;
    return nodeLink(id, shown, view, "computed");
  };
}
