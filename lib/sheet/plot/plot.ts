/** Plots of a worksheet: data, specification, and, through the separate Vega bundle, the drawn SVG. */
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import type { Spec } from "vega";
import type { Evaluation } from "../../analysis/evaluation";
import type { PlotBlock } from "../block";
import { plotData } from "./data";
import { vegaLite } from "./spec";

export { type PlotData, plotData } from "./data";
export { vegaLite } from "./spec";

type VegaBundle = typeof import("./vega");

let loaded: VegaBundle | undefined;

/** Loads dist/vega.js of the package on first use. */
function vegaBundle(): VegaBundle {
  if (loaded === undefined) {
    const require = createRequire(import.meta.url);
    loaded = require(join(dirname(require.resolve("workings/package.json")), "dist/vega.js")) as VegaBundle;
  }
  return loaded;
}

/** The Vega specification of a plot with its data. */
export function compilePlot(block: PlotBlock, evaluation: Evaluation): Spec {
  return compileLite(vegaLite(block, plotData(block, evaluation)));
}

/** The plot as SVG text; ids in it begin with `idPrefix`. */
export function renderPlot(block: PlotBlock, evaluation: Evaluation, idPrefix: string): string {
  return drawSpec(compilePlot(block, evaluation), idPrefix);
}

/** The Vega specification of a Vega-Lite one. */
export function compileLite(lite: ReturnType<typeof vegaLite>): Spec {
  return vegaBundle().compileSpec(lite);
}

/** A Vega specification as SVG text; ids in it begin with `idPrefix`. */
export function drawSpec(spec: Spec, idPrefix: string): string {
  return vegaBundle().renderSpec(spec, idPrefix);
}
