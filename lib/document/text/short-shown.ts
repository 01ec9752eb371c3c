/**
 * What the elements of the document show, each once: node, kind of figure and unit of an element are said by a number there, and the
 * page's program puts the attributes back (page/live-elements.ts).
 */
import { unescaped } from "./html";
import type { Shown } from "./show";

export interface ShortShown {
  readonly markup: string;
  /** By the number that stands in `data-shown`. */
  readonly shown: readonly Shown[];
}

export function shortShown(markup: string): ShortShown {
  const numbers = new Map<string, number>();
  const short = markup.replace(/data-node="[^"]*" data-show="[^"]*" data-unit="[^"]*"/g, (attributes) => {
    const number = numbers.get(attributes) ?? numbers.size;
    numbers.set(attributes, number);
    return `data-shown="${number}"`;
  });
  return { markup: short, shown: [...numbers.keys()].map(shownOf) };
}

function shownOf(attributes: string): Shown {
  const [node = "", show = "", unit = ""] = [...attributes.matchAll(/="([^"]*)"/g)].map(([, value = ""]) => unescaped(value));
  return { node, show: show as Shown["show"], unit };
}
