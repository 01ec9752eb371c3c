/** Which texts and parts of the page are on the reader's screen; what is folded away is not. */
import { all } from "./dom";
import { byKey, keyOf, type LivePart, type LiveText } from "./live-elements";
import type { Items } from "./messages";

/** Calls `look` now and whenever it changes. */
export function watchView(texts: readonly LiveText[], parts: readonly LivePart[], look: (seen: Items) => void): void {
  const textIndex = new Map([...byKey(texts).keys()].map((key, index) => [key, index]));
  const partIndex = new Map(parts.flatMap(({ elements }, index) => elements.map((element) => [element, index] as const)));
  const visible = new Set<Element>();
  const observer = new IntersectionObserver((entries) => {
    for (const { target, isIntersecting } of entries) visible[isIntersecting ? "add" : "delete"](target);
    const seenParts = [...visible].flatMap((element) => partIndex.get(element) ?? []);
    const seenTexts = [...visible].flatMap((element) => (partIndex.has(element) ? all("[data-show]", element) : [element]));
    look({ texts: indices(seenTexts.flatMap((element) => textIndex.get(keyOf(element)) ?? [])), parts: indices(seenParts) });
  });
  // The marks in the contents rest on every verdict: they follow with the other numbers.
  for (const [element, index] of partIndex) if (parts[index]?.key.kind !== "mark") observer.observe(element);
  // A text within a part is seen with it.
  for (const { elements } of texts) for (const element of elements) if (!element.closest("[data-part]")) observer.observe(element);
}

function indices(found: readonly number[]): number[] {
  return [...new Set(found)];
}
