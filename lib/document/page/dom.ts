/** The few things the page asks of the document object model. */

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

/** Fills an element anew; opened details inside stay open. Markup comes from the document's own rendering functions. */
export function fill(element: Element, markup: string): void {
  const open = all<HTMLDetailsElement>("details", element).map((details) => details.open);
  element.innerHTML = markup;
  for (const [index, details] of all<HTMLDetailsElement>("details", element).entries()) details.open = open[index] ?? false;
}

/** Marks an element as just changed, for the eye; the mark wears off by a style rule. */
export function flash(element: Element): void {
  element.classList.remove("moved");
  requestAnimationFrame(() => element.classList.add("moved"));
}
