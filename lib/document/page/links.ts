/** Links to a state of the book: followed where they are clicked or stand in the address, and made for passing on. */
import type { GraphNode } from "../../graph/node";
import { isStateLink } from "../../prose/links";
import { readStateLink } from "../live/state-link";
import { addressOf, addressWith } from "./address";
import { byId } from "./dom";
import { keepPlace, placeIn, reveal } from "./pages";
import type { Store } from "./store";
import { setView, shownView } from "./views";

/** Follows links to states from now on. Returns what follows one that is given. */
export function openStateLinks(nodes: readonly GraphNode[], store: Store): (target: string) => void {
  const follow = (target: string) => {
    const { place, show } = addressOf(target);
    if (show !== undefined) setView(show);
    if (!isStateLink(target)) {
      reveal(place || "front");
      return;
    }
    reveal(place);
    const { changes, problems } = readStateLink(target, nodes);
    store.replace(changes);
    if (problems.length > 0) say(`This link names inputs or values that the book does not have. ${problems.join("; ")}`);
  };
  document.addEventListener("click", (event) => {
    const anchor = event.target instanceof Element ? event.target.closest("a") : null;
    const target = anchor?.getAttribute("href") ?? "";
    if (isStateLink(target)) event.preventDefault();
    else if (target.startsWith("#")) keepPlace();
    if (target.startsWith("#")) follow(target);
  });
  store.listen(() => {
    byId("notice").hidden = true;
  });
  window.addEventListener("hashchange", () => {
    follow(location.hash);
    keepView();
  });
  window.addEventListener("popstate", ({ state }) => {
    const y = placeIn(state);
    if (!isStateLink(location.hash)) follow(location.hash);
    if (y !== undefined) scrollTo(0, y);
  });
  return follow;
}

/** Links within the document name places alone: the address goes on to say what is shown there. */
export function keepView(): void {
  const { place, show } = addressOf(location.hash);
  const view = shownView();
  if (!isStateLink(location.hash) && (show ?? "story") !== view)
    history.replaceState(history.state, "", addressWith(place || "front", view));
}

/** Puts the link into the address bar and, where the browser allows it, onto the clipboard. */
export function showLink(target: string): void {
  history.replaceState(null, "", target);
  say("The address of this page now leads to this state.");
  void navigator.clipboard?.writeText(location.href).then(
    () => say("The link to this state is copied, and stands in the address of this page."),
    () => undefined,
  );
}

function say(words: string): void {
  byId("said").textContent = words;
  const note = byId("notice");
  note.textContent = words;
  note.hidden = false;
}
