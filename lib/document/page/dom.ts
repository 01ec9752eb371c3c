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
  const open = new Set([...byKey<HTMLDetailsElement>("details", element)].flatMap(([key, details]) => (details.open ? [key] : [])));
  element.innerHTML = markup;
  ready?.();
  for (const [key, details] of byKey<HTMLDetailsElement>("details", element)) if (open.has(key)) details.open = true;
}

/** Elements by the one with an id that they stand in, their kind and their number among those alike. */
export function byKey<E extends Element>(selector: string, root: ParentNode): ReadonlyMap<string, E> {
  const found = new Map<string, E>();
  const count = new Map<string, number>();
  for (const element of all<E>(selector, root)) {
    const key = `${element.closest("[id]")?.id} ${element.tagName} ${element.getAttribute("class") ?? ""}`;
    const number = count.get(key) ?? 0;
    count.set(key, number + 1);
    found.set(`${key} ${number}`, element);
  }
  return found;
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
