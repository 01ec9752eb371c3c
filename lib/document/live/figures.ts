/** The live parts of plots and drawings: the picture itself. */
import type { DrawingBlock, PlotBlock } from "../../sheet/block";
import { drawPowerStates } from "../../sheet/drawings/power-states";
import { drawingNamed } from "../../sheet/drawings/registry";
import { pageStyle } from "../../sheet/drawings/svg";
import { omittedWords, plotData } from "../../sheet/plot/data";
import { keyWords } from "../../sheet/plot/key-words";
import type { View } from "../model/book-data";
import { computed } from "../text/computed";
import { type Html, html, nothing, trusted } from "../text/html";
import { plotWords } from "../text/plot-words";
import { sanitiseMarkup } from "../text/sanitise-svg";

/** The prefix of every id within a figure. */
export function figurePrefix(ref: string): string {
  return `figure-${ref.replace(/[^A-Za-z0-9]+/g, "-")}`;
}

/** A plot in its present state, what its curves' laws warn of, and its facts in words; a plot that cannot be drawn says why. */
export function renderPlotPicture(block: PlotBlock, ref: string, view: View): Html {
  return html`${picture(ref, () => view.plot(ref))}${key(block, view)}${warnings(block, view)}${words(block, view)}`;
}

function key(block: PlotBlock, { evaluation }: View): Html {
  const words = computed(() => keyWords(block, plotData(block, evaluation))).value;
  return words === undefined ? nothing : html`<p class="key-words">${words}</p>`;
}

function warnings(block: PlotBlock, view: View): Html {
  const { series } = block;
  const said = new Set([
    ...series.flatMap(({ curve }) => (curve === undefined ? [] : curveWarnings(curve, view))),
    ...(computed(() => omittedWords(block, view.evaluation)).value ?? []),
  ]);
  return said.size === 0 ? nothing : html`<ul class="warnings">${[...said].map((text) => html`<li>${text}</li>`)}</ul>`;
}

function curveWarnings(curve: string, { evaluation }: View): readonly string[] {
  // A curve without values says so in place of the picture.
  return computed(() => evaluation.validity(curve)).value ?? [];
}

/** Nothing where the picture has said already that it cannot be drawn. */
function words(block: PlotBlock, { evaluation }: View): Html {
  return computed(() => plotWords(block, plotData(block, evaluation))).value ?? nothing;
}

/** A drawing of the present quantities. */
export function renderDrawingPicture(block: DrawingBlock, ref: string, view: View): Html {
  return picture(ref, () => {
    const values = Object.entries(block.arguments).map(([name, id]) => [name, view.evaluation.nominal(id)] as const);
    const numbers = Object.fromEntries(values);
    if (block.states !== undefined) return drawPowerStates(block.states, numbers, pageStyle);
    return drawingNamed(block.drawing).draw(numbers, pageStyle);
  });
}

function picture(ref: string, draw: () => string): Html {
  const { value, why } = computed(() => sanitiseMarkup(draw(), figurePrefix(ref)));
  return value === undefined ? html`<p class="warnings">It cannot be drawn with these values: ${why}</p>` : trusted(value);
}
