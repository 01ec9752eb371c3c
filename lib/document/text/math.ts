/**
 * Laws as MathML: a tenth of the size of positioned HTML, no fonts, no inline style, and readable by a screen reader.
 * A value inside a law is an element bound to its node, so that the page can write the value anew. The LaTeX stays beside it for
 * readers of Markdown; `withoutSources` takes it out of a page.
 */
import katex from "katex";
import type { SubstitutedLaw } from "../../sheet/block";
import { escapeText, type Html, html, trusted } from "./html";
import { filledLaw } from "./law-template";
import { sanitiseMarkup } from "./sanitise-svg";
import type { Shown } from "./show";

/** MathML of a LaTeX text. What KaTeX cannot read is shown as its text. */
export function mathml(latex: string, display: boolean): Html {
  return trusted(typesetMath(latex, display));
}

/** The law with numbers: each `⟦i⟧` becomes the text of `values[i]`. */
export function substitutedMath(law: SubstitutedLaw, text: (shown: Shown) => string): Html {
  return filledLaw(lawTemplate(law.latex), law.values, text);
}

/** MathML of a law, with places for its numbers where it has some. */
export function lawTemplate(latex: string): string {
  // KaTeX reads ⟦ as a command, so the place is marked by two plain characters instead.
  return typesetMath(latex.replace(/⟦(\d+)⟧/g, "@$1@"), true);
}

/** KaTeX counts each `\,` between factors as an expansion of a macro: the longest law, of 400 operators, has 1600. */
const settings = { output: "mathml", throwOnError: true, trust: false, strict: false, maxExpand: 5_000 } as const;

function typesetMath(latex: string, display: boolean): string {
  try {
    const markup = katex.renderToString(latex, { ...settings, displayMode: display });
    const source = `<annotation encoding="application/x-tex">${escapeText(latex)}</annotation></math>`;
    return withoutNamespace(sanitiseMarkup(markup, "math")).replace("</math>", () => source);
  } catch {
    return html`<code>${latex}</code>`.text;
  }
}

/** Markup without the LaTeX of its laws. */
export function withoutSources(markup: string): string {
  return markup.replace(/<annotation encoding="application\/x-tex">[^<]*<\/annotation>/g, "");
}

function withoutNamespace(markup: string): string {
  return markup.replace(/ xmlns="[^"]*"/, "");
}
