/** The live parts of plots and drawings: the picture itself. */
import type { DrawingBlock, PlotBlock } from "../sheet/block";
import { drawingNamed } from "../sheet/drawings/registry";
import { pageStyle } from "../sheet/drawings/svg";
import type { View } from "./book-data";
import { type Html, html, trusted } from "./html";
import { sanitiseMarkup } from "./sanitise-svg";

/** The prefix of every id within a figure. */
export function figurePrefix(ref: string): string {
  return `figure-${ref.replace(/[^A-Za-z0-9]+/g, "-")}`;
}

/** A plot in its present state; a plot that cannot be drawn says why. */
export function renderPlotPicture(_block: PlotBlock, ref: string, view: View): Html {
  return picture(ref, () => view.plot(ref));
}

/** A drawing of the present quantities. */
export function renderDrawingPicture(block: DrawingBlock, ref: string, view: View): Html {
  return picture(ref, () => {
    const values = Object.entries(block.arguments).map(([name, id]) => [name, view.evaluation.nominal(id)] as const);
    return drawingNamed(block.drawing).draw(Object.fromEntries(values), pageStyle);
  });
}

function picture(ref: string, draw: () => string): Html {
  try {
    return trusted(sanitiseMarkup(draw(), figurePrefix(ref)));
  } catch (error) {
    return html`<p class="warnings">It cannot be drawn with these values: ${error instanceof Error ? error.message : "unknown reason"}</p>`;
  }
}
