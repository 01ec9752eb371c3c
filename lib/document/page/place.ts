/** Where a reader is in a document, so that a newer one can be shown at the same place: scroll, opened details, the field in use. */
import { all, byKey } from "./dom";
import { show } from "./pages";

export interface Place {
  readonly x: number;
  readonly y: number;
  /** The id of the page that is shown. */
  readonly page: string;
  /** Elements near the top of the window, nearest first: id, and distance from the top, CSS pixels. */
  readonly near: readonly { readonly id: string; readonly top: number }[];
  readonly open: readonly string[];
  readonly focus?: string;
}

const focusable = "a[href], button, input, select, summary, [tabindex]";

export function placeOf(document: Document): Place {
  const shown = document.querySelector(".page:not([hidden])");
  const near = all("[id]", shown ?? document)
    .filter(isLaidOut)
    .map((element) => ({ id: element.id, top: element.getBoundingClientRect().top }));
  const focus = [...byKey(focusable, document)].find(([, element]) => element === document.activeElement)?.[0];
  return {
    x: scrollX,
    y: scrollY,
    page: shown?.id ?? "",
    near: near.sort((a, b) => Math.abs(a.top) - Math.abs(b.top)).slice(0, 8),
    open: [...byKey<HTMLDetailsElement>("details", document)].flatMap(([key, { open }]) => (open ? [key] : [])),
    ...(focus !== undefined && { focus }),
  };
}

/** What the new document does not have is passed over. Can be called again while the document still grows. */
export function restore({ x, y, page, near, open, focus }: Place, document: Document): void {
  show(document.getElementById(page));
  const details = byKey<HTMLDetailsElement>("details", document);
  for (const key of open) {
    const element = details.get(key);
    if (element !== undefined && !element.open) element.open = true;
  }
  const field = focus === undefined ? undefined : byKey<HTMLElement>(focusable, document).get(focus);
  if (field !== undefined && field !== document.activeElement) field.focus({ preventScroll: true });
  const anchor = near.find(({ id }) => isLaidOut(document.getElementById(id)));
  const top = anchor === undefined ? undefined : document.getElementById(anchor.id)?.getBoundingClientRect().top;
  scrollTo({ left: x, top: anchor === undefined || top === undefined ? y : scrollY + top - anchor.top, behavior: "instant" });
}

/** What is not laid out says that its top is 0, and holds no place. */
function isLaidOut(element: Element | null): boolean {
  return element !== null && element.getClientRects().length > 0;
}
