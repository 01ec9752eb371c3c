/** What a reader may ask of a result: the page makes its folds when the document opens, and fills them when they are unfolded. */
import type { NodeId } from "../../graph/node";
import { nodeOf, type View } from "../model/book-data";
import { computed } from "../text/computed";
import { type Html, html } from "../text/html";
import { hasShares } from "./contributions";

/** One place, since the tables themselves would be a seventh of the document. */
export function askedPlace(id: NodeId, view: View): Html {
  // A preferred value has the shares of what it was chosen for.
  const isSpread = nodeOf(view, id).kind !== "select" && hasShares(computed(() => view.evaluation.analysis(id)).value?.contributions ?? []);
  return html`<div class="asked" data-of="${id}"${isSpread && html` data-spread`}></div>`;
}
