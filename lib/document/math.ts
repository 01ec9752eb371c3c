/**
 * Laws as MathML: a tenth of the size of positioned HTML, no fonts, no inline style, and readable by a screen reader.
 * A value inside a law is an element bound to its node, so that the page can write the value anew.
 */
import katex from "katex";
import type { SubstitutedLaw } from "../sheet/block";
import { type Html, html, trusted } from "./html";
import { sanitiseMarkup } from "./sanitise-svg";
import { type Shown, shownAttributes } from "./show";

/** MathML of a LaTeX text. What KaTeX cannot read is shown as its text. */
export function mathml(latex: string, display: boolean): Html {
  return trusted(typesetMath(latex, display));
}

/** The law with numbers: each `⟦i⟧` becomes an `mn` that holds the text of `values[i]`. (An `mtext`
 * would count as space, and the operator beside it lose its own.) */
export function substitutedMath(law: SubstitutedLaw, text: (shown: Shown) => string): Html {
  // KaTeX reads ⟦ as a command, so the place is marked by two plain characters instead.
  const markup = typesetMath(law.latex.replace(/⟦(\d+)⟧/g, "@$1@"), true);
  return trusted(
    markup.replace(/<mtext>@(\d+)@<\/mtext>/g, (whole, index) => {
      const value = law.values[Number(index)];
      if (!value) return whole;
      const shown: Shown = { node: value.node, show: "nominal", unit: value.unit };
      return html`<mn ${shownAttributes(shown)}>${text(shown)}</mn>`.text;
    }),
  );
}

function typesetMath(latex: string, display: boolean): string {
  try {
    const markup = katex.renderToString(latex, { output: "mathml", displayMode: display, throwOnError: true, trust: false, strict: false });
    return withoutWrapper(sanitiseMarkup(markup, "math"));
  } catch {
    return html`<code>${latex}</code>`.text;
  }
}

/** One row around everything says nothing. */
function withoutWrapper(markup: string): string {
  return markup.replace(/ xmlns="[^"]*"/, "");
}
