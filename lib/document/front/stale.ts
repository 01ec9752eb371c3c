/** The stamp on every page of a document that was published from sheets whose outputs do not stand. */
import { type Html, html, nothing } from "../text/html";

/** By sheet, why its outputs do not stand. */
export type Stale = readonly (readonly [sheet: string, reasons: readonly string[]])[];

/** `stale: indicators (its cells have changed)`. */
export function staleLine(stale: Stale): string {
  return `stale: ${stale.map(([sheet, reasons]) => `${sheet} (${reasons.join("; ")})`).join(", ")}`;
}

/** Stays in sight while the page is read. */
export function staleBanner(stale: Stale): Html {
  if (stale.length === 0) return nothing;
  return html`<p class="stale" role="alert"><strong>Stale.</strong> The numbers here are not those of the present design and cells: ${staleLine(stale)}. Run the sheets and publish again.</p>`;
}
