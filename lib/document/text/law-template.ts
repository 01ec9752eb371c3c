/** Numbers in the places of a typeset law. The law was typeset when the book was published; the page only writes the numbers. */
import type { SubstitutedLaw } from "../../sheet/block";
import { type Html, html, trusted } from "./html";
import { type Shown, shownAttributes } from "./show";

/** Each place becomes an `mn` that holds the text of its value. (An `mtext` would count as space, and the operator beside it lose its own.) */
export function filledLaw(template: string, values: SubstitutedLaw["values"], text: (shown: Shown) => string): Html {
  return trusted(
    template.replace(/(<mo[^>]*>[+−⋅·-]<\/mo>)?<mtext>@(\d+)@<\/mtext>/g, (whole, sign: string | undefined, index) => {
      const value = values[Number(index)];
      if (!value) return whole;
      const shown: Shown = { node: value.node, show: sign === undefined ? "nominal" : "operand", unit: value.unit };
      return `${sign ?? ""}${html`<mn ${shownAttributes(shown)}>${text(shown)}</mn>`.text}`;
    }),
  );
}
