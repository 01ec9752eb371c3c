/**
 * The pages of the document, of which one is shown at a time. The others stay in the document and are not laid out; where the browser
 * can (`hidden="until-found"`), its own search and its links reach into them. It opens the page that it has found and closes none, so
 * that is done here. All are printed, and shown where no program runs.
 */
import { isStateLink } from "../../prose/links";
import { addressOf, addressWith } from "./address";
import { all } from "./dom";
import { shownView } from "./views";

/** Shows one page from now on: that of the address, or the one that the browser has found something in, else the first. */
export function openPages(): void {
  const found = document.querySelector(".page ~ .page:not([hidden])");
  show(found ?? document.querySelector(".page"));
  if (found !== null && addressOf(location.hash).place === "") nameFound(found);
  reveal(addressOf(location.hash).place);
  document.addEventListener("beforematch", ({ target }) => {
    if (target instanceof Element && show(target.closest(".page"))) nameFound(target);
  });
  keepPlaces();
  const y = placeIn(history.state);
  if (y !== undefined) scrollTo(0, y);
}

/** Puts what the browser has found into the address, where that names nothing else. */
function nameFound({ id }: Element): void {
  if (!isStateLink(location.hash)) history.replaceState(history.state, "", addressWith(id, shownView()));
}

/** Opens the page of an element, and every fold around it, and scrolls to it. */
export function reveal(id: string): void {
  const element = document.getElementById(id);
  const turned = show(element?.closest(".page"));
  const folds: HTMLDetailsElement[] = [];
  for (let fold = element?.closest("details"); fold; fold = fold.parentElement?.closest("details")) if (!fold.open) folds.push(fold);
  const own = element?.querySelector<HTMLDetailsElement>(":scope > details.worked:not([open])");
  if (own) folds.push(own);
  for (const fold of folds) fold.open = true;
  if (turned && element?.classList.contains("page")) scrollTo(0, 0);
  else if (turned || folds.length > 0) element?.scrollIntoView();
}

/** Shows a page and none beside it; false where it is shown already. */
export function show(page: Element | null | undefined): boolean {
  if (!page) return false;
  const isFindable = "onbeforematch" in HTMLElement.prototype;
  const shown = all(".page:not([hidden])");
  if (shown.length === 1 && shown[0] === page) return false;
  for (const other of all<HTMLElement>(".page")) {
    if (other === page) other.removeAttribute("hidden");
    else other.setAttribute("hidden", isFindable ? "until-found" : "");
  }
  for (const listener of listeners) listener(page);
  return true;
}

const listeners: ((page: Element) => void)[] = [];

/** Calls `listener` with the page that is shown, now and whenever it is another one. */
export function pageTurned(listener: (page: Element) => void): void {
  listeners.push(listener);
  const page = document.querySelector(".page:not([hidden])");
  if (page) listener(page);
}

/** The pages differ in height, so the browser cannot tell by itself where a reader was before a step back. */
function keepPlaces(): void {
  history.scrollRestoration = "manual";
  let waiting: ReturnType<typeof setTimeout> | undefined;
  addEventListener("scroll", () => {
    clearTimeout(waiting);
    waiting = setTimeout(keepPlace, 120);
  });
}

/** To be called before the address changes. */
export function keepPlace(): void {
  history.replaceState({ y: scrollY }, "");
}

/** Where a reader was, as the history says. */
export function placeIn(state: unknown): number | undefined {
  return typeof state === "object" && state !== null && "y" in state && typeof state.y === "number" ? state.y : undefined;
}
