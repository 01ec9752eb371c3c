/** Helpers for the elements of the page. */

/** A new element with attributes and children. */
export function make<K extends keyof HTMLElementTagNameMap>(
  tag: K,
  attributes: Readonly<Record<string, string>> = {},
  ...children: readonly (Node | string)[]
): HTMLElementTagNameMap[K] {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
  element.append(...children);
  return element;
}

/** Every element that a selector finds, of a known class. */
export function all<E extends Element>(selector: string, root: ParentNode = document): E[] {
  return [...root.querySelectorAll<E>(selector)];
}

export function byId(id: string): HTMLElement {
  const element = document.getElementById(id);
  if (!element) throw new Error(`the page has no #${id}`);
  return element;
}

/**
 * Fills an element anew; opened details inside stay open. Markup comes from the document's own rendering functions; `ready` may add to
 * it before they are opened again.
 */
export function fill(element: Element, markup: string, ready?: () => void): void {
  const open = new Set([...detailsByKey(element)].flatMap(([key, details]) => (details.open ? [key] : [])));
  element.innerHTML = markup;
  ready?.();
  for (const [key, details] of detailsByKey(element)) if (open.has(key)) details.open = true;
}

/** Details by the element that they stand in, their kind and their number among those alike. */
function detailsByKey(element: Element): ReadonlyMap<string, HTMLDetailsElement> {
  const found = new Map<string, HTMLDetailsElement>();
  for (const details of all<HTMLDetailsElement>("details", element)) {
    const key = `${details.closest("[id]")?.id} ${details.className}`;
    let number = 0;
    while (found.has(`${key} ${number}`)) number++;
    found.set(`${key} ${number}`, details);
  }
  return found;
}

/** Opens every folded section around an element, and scrolls to it. */
export function reveal(id: string): void {
  const element = document.getElementById(id);
  const folds: HTMLDetailsElement[] = [];
  for (let fold = element?.closest("details"); fold; fold = fold.parentElement?.closest("details")) folds.push(fold);
  if (folds.every(({ open }) => open)) return;
  for (const fold of folds) fold.open = true;
  element?.scrollIntoView();
}

const flashing = new Set<Element>();

/** Marks an element as just changed; a style rule fades the mark. All marks of one frame are set together. */
export function flash(element: Element): void {
  element.classList.remove("moved");
  if (flashing.size === 0)
    requestAnimationFrame(() => {
      for (const moved of flashing) moved.classList.add("moved");
      flashing.clear();
    });
  flashing.add(element);
}
