/**
 * Markup that is safe by construction: `html` escapes whatever is put into it, unless that is itself markup made
 * by `html`, by the sanitiser or by the typesetter. No other file joins strings into tags.
 */

/** Markup that may be put into a page as it stands. */
export class Html {
  constructor(readonly text: string) {}
  toString(): string {
    return this.text;
  }
}

/** What a template takes: text is escaped, markup is kept, nothing (undefined, false) vanishes. */
export type Part = Html | string | number | undefined | null | false | readonly Part[];

const replacements: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

/** Text as it must be written inside an element or a quoted attribute. */
export function escapeText(text: string): string {
  return text.replace(/[&<>"']/g, (character) => replacements[character] ?? character);
}

/** Markup from a template; every interpolated text is escaped. Attributes must be quoted in the template. */
export function html(strings: TemplateStringsArray, ...parts: readonly Part[]): Html {
  let text = strings[0] ?? "";
  parts.forEach((part, index) => {
    text += write(part) + (strings[index + 1] ?? "");
  });
  return new Html(text);
}

function write(part: Part): string {
  if (part === undefined || part === null || part === false) return "";
  if (part instanceof Html) return part.text;
  if (Array.isArray(part)) return part.map(write).join("");
  return escapeText(String(part));
}
