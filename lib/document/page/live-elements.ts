/** The elements of the page that show computed things, grouped so that each text is computed once. */
import type { PartKind } from "../model/parts";
import type { Show, Shown } from "../text/show";
import { all, fill, flash } from "./dom";
import type { PartKey } from "./messages";

export interface LiveText {
  readonly shown: Shown;
  /** As published. */
  readonly before: string;
  text: string;
  elements: Element[];
}

export interface LivePart {
  readonly key: PartKey;
  readonly elements: Element[];
}

/** All texts of the page by what they show. */
export function liveTexts(): LiveText[] {
  const texts = new Map<string, LiveText>();
  for (const element of all<HTMLElement>("[data-show]")) {
    const { node = "", show = "", unit = "" } = dataset(element);
    const key = keyOf(element);
    const text = element.textContent ?? "";
    const entry = texts.get(key) ?? { shown: { node, show: show as Show, unit }, before: text, text, elements: [] };
    entry.elements.push(element);
    texts.set(key, entry);
  }
  return [...texts.values()];
}

function dataset(element: Element): Record<string, string> {
  return Object.fromEntries(["node", "show", "unit"].map((name) => [name, element.getAttribute(`data-${name}`) ?? ""]));
}

export function liveParts(): LivePart[] {
  const parts = new Map<string, LivePart>();
  for (const element of all<HTMLElement>("[data-part]")) {
    const { part = "", ref = "" } = element.dataset;
    const entry = parts.get(`${part} ${ref}`) ?? { key: { kind: part as PartKind, ref }, elements: [] };
    entry.elements.push(element);
    parts.set(`${part} ${ref}`, entry);
  }
  return [...parts.values()];
}

export function setText(entry: LiveText, text: string): void {
  if (entry.text === text) return;
  entry.text = text;
  for (const element of entry.elements) {
    element.textContent = text;
    element.classList.toggle("differs", text !== entry.before);
    flash(element);
  }
}

/** Fills a part anew; what the reader has unfolded in it stays so, and the texts inside take the place of those that went. */
export function setPart(entry: LivePart, markup: string, texts: readonly LiveText[], ready: (element: Element) => void): void {
  for (const element of entry.elements) {
    const gone = new Set<Element>(all("[data-show]", element));
    fill(element, markup, () => ready(element));
    const arrived = groups(all("[data-show]", element));
    if (gone.size === 0 && arrived.size === 0) continue;
    for (const text of texts) {
      const own = arrived.get(`${text.shown.node}\n${text.shown.show}\n${text.shown.unit}`) ?? [];
      text.elements = text.elements.filter((old) => !gone.has(old)).concat(own);
      for (const fresh of own) {
        text.text = fresh.textContent ?? "";
        fresh.classList.toggle("differs", text.text !== text.before);
      }
    }
  }
}

function keyOf(element: Element): string {
  const { node, show, unit } = dataset(element);
  return `${node}\n${show}\n${unit}`;
}

function groups(elements: readonly Element[]): Map<string, Element[]> {
  const found = new Map<string, Element[]>();
  for (const element of elements) found.set(keyOf(element), [...(found.get(keyOf(element)) ?? []), element]);
  return found;
}
