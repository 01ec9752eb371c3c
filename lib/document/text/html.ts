/** Markup of the document: the templates of the sheets' floor, and what only a page needs. */
import { Html } from "../../sheet/html";

export { escapeText, Html, html, type Part } from "../../sheet/html";

/** Markup that another safe producer made: the sanitiser, the typesetter, the Markdown pipeline. */
export function trusted(markup: string): Html {
  return new Html(markup);
}

export const nothing = new Html("");

/** An HTML id from a graph id: letters, digits, `.`, `-` and `_` stay, anything else becomes its code point. */
export function anchor(prefix: string, id: string): string {
  return `${prefix}-${id.replace(/[^A-Za-z0-9._-]/gu, (character) => `-${(character.codePointAt(0) ?? 0).toString(16)}-`)}`;
}

/** The text that escaped markup stands for. */
export function unescaped(markup: string): string {
  return markup.replace(
    /&(amp|lt|gt|quot|#39);/g,
    (_, name: string) => ({ amp: "&", lt: "<", gt: ">", quot: '"', "#39": "'" })[name] ?? "",
  );
}
