/**
 * Section through a board of four layers, along and across to one scale: copper, dielectric, a trace with the return current that
 * gathers below it, and a via that ties the two planes. The return current is drawn as its density below the trace,
 * 1/(1 + (x/h)²) (H. Johnson and M. Graham), and not to the scale of the lengths.
 */
import { WorkingsError } from "../../quantity/error";
import { formatNumber } from "../../quantity/format";
import { mm, um } from "../../units";
import { defineDrawing } from "./define";
import { hatch } from "./hatch";
import { type DrawingStyle, drawing, element, line, path, point, text } from "./svg";

const width = 660;
/** px: ends of the section, its top, and its height. */
const [left, right, top, high] = [20, 470, 64, 210];
/** px: where the labels stand, and their least distance. */
const [labels, pitch] = [516, 18];
/** px: height of the drawn current density. */
const lobe = 22;

interface Layer {
  readonly name: string;
  readonly thickness: number;
  readonly copper: boolean;
}

/** Four layers of copper and three of dielectric between; m. */
export const boardStack = defineDrawing({
  name: "board.stack",
  meaning: "section through a board of four layers with a trace, its return current and a via",
  arguments: { outer: um, prepreg: mm, inner: um, core: mm, trace: mm, drill: mm, plating: um },
  draw: ({ outer, prepreg, inner, core, trace, drill, plating }, style) => {
    if (2 * plating >= drill) throw new WorkingsError("drawing", `drawing board.stack: a plating of ${shown(plating, um)} fills the hole`);
    const layers: readonly Layer[] = [
      { name: "signals, parts", thickness: outer, copper: true },
      { name: "prepreg", thickness: prepreg, copper: false },
      { name: "plane", thickness: inner, copper: true },
      { name: "core", thickness: core, copper: false },
      { name: "plane", thickness: inner, copper: true },
      { name: "prepreg", thickness: prepreg, copper: false },
      { name: "signals, rails", thickness: outer, copper: true },
    ];
    const total = layers.reduce((sum, { thickness }) => sum + thickness, 0);
    const scale = high / total;
    const tops = layers.map((_, i) => top + scale * layers.slice(0, i).reduce((sum, { thickness }) => sum + thickness, 0));
    const body =
      layers.map((layer, i) => drawn(layer, i, tops[i] as number, scale, style)).join("") +
      signal(trace, outer, prepreg, scale, style) +
      via(drill, plating, scale, style) +
      named(layers, tops, scale, style);
    return drawing(width, top + high + 34, "Section through the board", description({ outer, prepreg, inner, core }), style, body);
  },
});

type Sizes = Readonly<Record<"outer" | "prepreg" | "inner" | "core", number>>;

function description({ outer, prepreg, inner, core }: Sizes): string {
  return `To scale, from above: copper of ${shown(outer, um)}, prepreg of ${shown(prepreg, mm)}, a plane of ${shown(inner, um)}, a core of ${shown(core, mm)}, and the same again in reverse. Below a trace on top its return current gathers in the upper plane; a via ties the two planes.`;
}

function shown(value: number, unit: typeof mm | typeof um): string {
  return formatNumber(value, unit, 3);
}

/** px: middle of the trace, and of the via. */
const [traceAt, viaAt] = [170, 360];

/** A dielectric as an outline with section lines; a plane as a filled strip; an outer layer has copper only where it is drawn elsewhere. */
function drawn({ thickness, copper }: Layer, index: number, y: number, scale: number, style: DrawingStyle): string {
  const [w, h] = [right - left, thickness * scale];
  if (!copper) return hatch(left, y, w, h, { "stroke-opacity": 0.25 }) + element("rect", { x: left, y, width: w, height: h });
  const isOuter = index === 0 || index === 6;
  return isOuter ? "" : element("rect", { x: left, y, width: w, height: h, fill: style.ink, "fill-opacity": 0.75 });
}

function signal(trace: number, outer: number, prepreg: number, scale: number, style: DrawingStyle): string {
  const [w, h] = [Math.min(trace * scale, 180), outer * scale];
  const plane = top + (outer + prepreg) * scale;
  const density = Array.from({ length: 81 }, (_, i) => (i - 40) * 3).map((x) => {
    const ratio = x / (prepreg * scale);
    return point(traceAt + x, plane - lobe / (1 + ratio * ratio));
  });
  return (
    element("rect", { x: traceAt - w / 2, y: top, width: w, height: h, fill: style.accent, stroke: "none" }) +
    path([point(traceAt - 120, plane), ...density, point(traceAt + 120, plane)], true, {
      fill: style.accent,
      "fill-opacity": 0.3,
      stroke: style.accent,
    }) +
    text(traceAt, top - 10, `trace ${shown(trace, mm)}`, "middle", style) +
    text(traceAt, top + high + 22, "return current below the trace", "middle", style) +
    line(traceAt, plane - lobe / 2, traceAt, top + high + 8, { "stroke-dasharray": "3 2" })
  );
}

function via(drill: number, plating: number, scale: number, style: DrawingStyle): string {
  const [w, p] = [drill * scale, Math.max(plating * scale, 1)];
  const barrel = (x: number) => element("rect", { x, y: top, width: p, height: high, fill: style.ink, stroke: "none" });
  return (
    element("rect", { x: viaAt - w / 2, y: top, width: w, height: high, fill: style.paper ?? "var(--paper, #fff)", stroke: "none" }) +
    barrel(viaAt - w / 2) +
    barrel(viaAt + w / 2 - p) +
    text(viaAt, top - 26, `via ${shown(drill, mm)},`, "middle", style) +
    text(viaAt, top - 10, `plated ${shown(plating, um)}`, "middle", style)
  );
}

/** Names at the right, a leader to each layer; thin layers would write over one another, so names keep their distance. */
function named(layers: readonly Layer[], tops: readonly number[], scale: number, style: DrawingStyle): string {
  const middles = layers.map(({ thickness }, i) => (tops[i] as number) + (thickness * scale) / 2);
  const at: number[] = [];
  for (const y of middles) at.push(Math.max(y, (at.at(-1) ?? Number.NEGATIVE_INFINITY) + pitch));
  const over = Math.max(0, (at.at(-1) as number) - (top + high));
  return layers
    .map(({ name, thickness, copper }, i) => {
      const y = (at[i] as number) - over;
      const size = copper ? shown(thickness, um) : shown(thickness, mm);
      return (
        path([point(right, middles[i] as number), point(right + 22, y), point(labels - 6, y)], false) +
        text(labels, y + 4, `${name} ${size}`, "start", style)
      );
    })
    .join("");
}
