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

/** Gives the elements of the document, which say by a number what they show, the attributes that the page reads. */
export function nameShown(shown: readonly Shown[]): void {
  for (const element of all<HTMLElement>("[data-shown]")) {
    const one = shown[Number(element.dataset.shown)];
    if (one === undefined) throw new Error(`the document shows nothing by the number ${element.dataset.shown}`);
    for (const [name, value] of Object.entries(one)) element.setAttribute(`data-${name}`, value);
    element.removeAttribute("data-shown");
  }
}

/** All texts of the page by what they show. */
export function liveTexts(): LiveText[] {
  const texts = new Map<string, LiveText>();
  for (const element of all<HTMLElement>("[data-show]")) {
    const { node, show, unit } = dataset(element);
    const key = keyOf(element);
    const text = element.textContent ?? "";
    const entry = texts.get(key) ?? { shown: { node, show: show as Show, unit }, before: text, text, elements: [] };
    entry.elements.push(element);
    texts.set(key, entry);
  }
  return [...texts.values()];
}

function dataset(element: Element): Record<keyof Shown, string> {
  const of = (name: keyof Shown) => element.getAttribute(`data-${name}`) ?? "";
  return { node: of("node"), show: of("show"), unit: of("unit") };
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

/**
 * Fills a part anew; what the reader has unfolded in it stays so, and the texts inside take the place of those that went. What they say,
 * all elements of the same text say then.
 */
export function setPart(entry: LivePart, markup: string, texts: ReadonlyMap<string, LiveText>, ready: (element: Element) => void): void {
  for (const element of entry.elements) {
    const gone = groups(all("[data-show]", element));
    fill(element, markup, () => ready(element));
    const arrived = groups(all("[data-show]", element));
    for (const key of new Set([...gone.keys(), ...arrived.keys()])) {
      const text = texts.get(key);
      if (text !== undefined) exchange(text, gone.get(key) ?? [], arrived.get(key) ?? []);
    }
  }
}

function exchange(text: LiveText, gone: readonly Element[], arrived: readonly Element[]): void {
  text.elements = text.elements.filter((element) => !gone.includes(element));
  if (arrived.length === 0) return;
  setText(text, arrived[0]?.textContent ?? "");
  text.elements.push(...arrived);
  for (const element of arrived) element.classList.toggle("differs", text.text !== text.before);
}

/** Texts by the key of their elements. */
export function byKey(texts: readonly LiveText[]): ReadonlyMap<string, LiveText> {
  return new Map(texts.map((text) => [keyOfShown(text.shown), text]));
}

/** Elements with one key show the same text. */
export function keyOf(element: Element): string {
  return keyOfShown(dataset(element));
}

function keyOfShown({ node, show, unit }: Readonly<Record<keyof Shown, string>>): string {
  return `${node}\n${show}\n${unit}`;
}

function groups(elements: readonly Element[]): Map<string, Element[]> {
  const found = new Map<string, Element[]>();
  for (const element of elements) {
    const key = keyOf(element);
    found.set(key, [...(found.get(key) ?? []), element]);
  }
  return found;
}
