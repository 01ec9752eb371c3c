/** How nodes are called in the document. */

import type { GraphNode } from "../../graph/node";
import { greekLetters, symbolHtml, symbolText } from "../../sheet/symbol-html";
import { type Html, html } from "../text/html";

export { symbolHtml, symbolText } from "../../sheet/symbol-html";

const symbolInWords = new RegExp(`\\b([A-Za-z]{1,8}_[A-Za-z0-9]{1,8}|${Object.keys(greekLetters).join("|")})\\b`);

/** Words in which symbols such as `V_f` and `sigma` are set as variables, and names between grave accents as code. */
export function wordsHtml(text: string): Html {
  return between(text, /`([^`]+)`/, (name) => html`<code>${name}</code>`, variables);
}

function variables(text: string): Html {
  return between(text, symbolInWords, symbolHtml, (words) => html`${words}`);
}

/** A text in pieces: what the pattern's one group finds, and the rest. */
export function between(text: string, pattern: RegExp, found: (part: string) => Html, rest: (part: string) => Html): Html {
  return html`${text.split(pattern).map((part, index) => (index % 2 === 1 ? found(part) : rest(part)))}`;
}

/** Words that begin with a capital. */
export function sentence(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1);
}

/** What a node is, in words: its meaning, else its symbol, else its id. */
export function nodeWords(node: GraphNode): string {
  return node.meaning ?? (node.symbol ? symbolText(node.symbol) : node.id);
}

/** What follows the first dot: the name of a result within its sheet, the path of a given. */
export function nameOf(id: string): string {
  return id.slice(id.indexOf(".") + 1);
}

/** Whether its nominal value is one that somebody has chosen, which has all its digits. */
export function isChosen({ kind }: GraphNode): boolean {
  return kind === "select" || kind === "set-once";
}
