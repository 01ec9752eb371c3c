/** What the bands, bars and lines of a plot mean: how units differ in production told from what is not known. */
import type { PlotBlock } from "../block";
import { isDoubted, type PlotData } from "./data";

/** A sentence or two; undefined for a plot of bare curves. */
export function keyWords(block: PlotBlock, data: PlotData): string | undefined {
  const parts = block.spreads === undefined ? curveParts(block, data) : barParts(data);
  return parts.length === 0 ? undefined : `${parts.join("; ")}.`;
}

const units = "95 % of units, which differ in production";
const doubt = "doubt, what the middle unit could be by what is not known";

function barParts(data: PlotData): string[] {
  const known = ["Tick: nominal", `thick bar: ${units}`, "thin bar: worst case"];
  return isDoubted(data) ? [...known, `dotted frame: ${doubt}`] : known;
}

function curveParts(block: PlotBlock, data: PlotData): string[] {
  const banded = block.series.filter(({ band }) => band === true).length;
  const edges = data.lines.some(({ edgeLow, edgeHigh }) => edgeLow !== undefined || edgeHigh !== undefined);
  return [
    ...(banded === 0 ? [] : banded === 1 ? [`Dark band: ${units}`, "light band: worst case"] : [`Bands: ${units}`]),
    ...(isDoubted(data) ? [`dotted: ${doubt}`] : []),
    ...(edges ? [`dashed: ${judgedWords(block)}, held against the limit`] : []),
    ...(data.windows.length === 0 ? [] : ["shaded: where every limit is kept"]),
  ];
}

function judgedWords({ series }: PlotBlock): string {
  const words = series.flatMap(({ within }) =>
    within === undefined || within.judged === "typical"
      ? []
      : [within.judged === "worst case" ? "worst case" : "95 % of units with the doubt"],
  );
  return [...new Set(words)].join(", or ");
}
