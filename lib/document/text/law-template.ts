/** Numbers in the places of a typeset law. The law was typeset when the book was published; the page only writes the numbers. */
import type { SubstitutedLaw } from "../../sheet/block";
import { escapeText, type Html, html, trusted } from "./html";
import { type Shown, shownAttributes } from "./show";

/**
 * Each place becomes an `mn` that holds the text of its value; in the LaTeX beside it, where that is kept, the text alone. (An `mtext`
 * would count as space, and the operator beside it lose its own.)
 */
export function filledLaw(template: string, values: SubstitutedLaw["values"], text: (shown: Shown) => string): Html {
  const filled = (write: (shown: Shown) => string) => (whole: string, sign: string | undefined, index: string) => {
    const value = values[Number(index)];
    if (!value) return whole;
    return `${sign ?? ""}${write({ node: value.node, show: sign === undefined ? "nominal" : "operand", unit: value.unit })}`;
  };
  const element = (shown: Shown) => html`<mn ${shownAttributes(shown)}>${text(shown)}</mn>`.text;
  const latex = (shown: Shown) => `\\text{${escapeText(text(shown).replace(/[%&#$_{}]/g, "\\$&"))}}`;
  return trusted(
    template
      .replace(/(<mo[^>]*>[+−⋅·-]<\/mo>)?<mtext>@(\d+)@<\/mtext>/g, filled(element))
      .replace(/((?:[+-]|\\cdot) *)?\\text\{@(\d+)@\}/g, filled(latex)),
  );
}
