/** The stamp on every page of a document that was published from sheets whose outputs do not stand. */
import { type Html, html, nothing } from "../text/html";

/** By sheet, why its outputs do not stand. */
export type Stale = readonly (readonly [sheet: string, reasons: readonly string[]])[];

/** `stale: indicators, battery (its cells have changed)`. */
export function staleLine(stale: Stale): string {
  const why = stale.map(([, reasons]) => reasons.join("; "));
  const sheets = (reason: string) => stale.flatMap(([sheet], index) => (why[index] === reason ? [sheet] : []));
  return `stale: ${[...new Set(why)].map((reason) => `${sheets(reason).join(", ")} (${reason})`).join(", ")}`;
}

/** Stays in sight while the page is read. */
export function staleBanner(stale: Stale): Html {
  if (stale.length === 0) return nothing;
  return html`<p class="stale" role="alert"><strong>Not of the present design and cells</strong> · ${staleLine(stale)}</p>`;
}
