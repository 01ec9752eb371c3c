/**
 * A board from above, to scale: where the two strong currents of the ground plane run, and which points the amplifier measures
 * from. Pulses run between converter and cell; the load current of both ears runs from the sleeve of the jack to the converter.
 * Vias that tie the planes stand along the edge at their pitch.
 */
import { WorkingsError } from "../../quantity/error";
import { formatNumber } from "../../quantity/format";
import { mm } from "../../units";
import { type Callout, callouts } from "./callouts";
import { defineDrawing } from "./define";
import { scaleBar } from "./dimension-line";
import { type DrawingStyle, drawing, element, path, point } from "./svg";

const width = 660;
const [margin, top] = [60, 20];

/** Sides of the board, places from its lower left corner, and the pitch of the vias; m. */
export const boardReturn = defineDrawing({
  name: "board.return",
  meaning: "board from above: return currents of the load and of the converter, and the points from which the amplifier measures",
  arguments: {
    length: mm,
    width: mm,
    pitch: mm,
    x_s: mm,
    y_s: mm,
    x_i: mm,
    y_i: mm,
    x_a: mm,
    y_a: mm,
    x_c: mm,
    y_c: mm,
    x_b: mm,
    y_b: mm,
    x_n: mm,
    y_n: mm,
  },
  draw: (sizes, style) => {
    const { length, width: wide, pitch, x_s, y_s, x_i, y_i, x_a, y_a, x_c, y_c, x_b, y_b, x_n, y_n } = sizes;
    const scale = (width - 2 * margin) / length;
    const places = {
      sleeve: [x_s, y_s],
      input: [x_i, y_i],
      amplifier: [x_a, y_a],
      converter: [x_c, y_c],
      cell: [x_b, y_b],
      near: [x_n, y_n],
    };
    for (const [name, [x, y]] of Object.entries(places) as [string, [number, number]][])
      if (x >= length || y >= wide) throw new WorkingsError("drawing", `drawing board.return: the ${name} stands beside the board`);
    const px = ([x = 0, y = 0]: readonly number[]): Px => ({ x: margin + x * scale, y: top + (wide - y) * scale });
    const at = {
      sleeve: px(places.sleeve),
      input: px(places.input),
      amplifier: px(places.amplifier),
      converter: px(places.converter),
      cell: px(places.cell),
      near: px(places.near),
    };
    const bottom = top + wide * scale;
    const body = [
      element("rect", {
        x: margin,
        y: top,
        width: length * scale,
        height: wide * scale,
        fill: style.ink,
        "fill-opacity": 0.06,
        "stroke-width": 1.5,
      }),
      stitches(length, wide, pitch, scale, style),
      flow(at.converter, at.cell, { stroke: style.accent, "stroke-width": 5, "stroke-opacity": 0.8 }, style.accent),
      flow(at.near, at.cell, { stroke: style.accent, "stroke-width": 1.5, "stroke-dasharray": "5 4" }, style.accent),
      flow(at.sleeve, at.amplifier, { "stroke-width": 2.5 }, style.ink),
      flow(at.amplifier, at.converter, { "stroke-width": 2.5 }, style.ink),
      ...Object.entries(at).map(([name, { x, y }]) =>
        element("circle", { cx: x, cy: y, r: 6, fill: name === "near" ? "none" : style.ink, stroke: style.ink, "stroke-width": 1.5 }),
      ),
      callouts(names(at), bottom + 16, bottom + 48, 10, width - 10, style),
      scaleBar(margin, bottom + 74, scale, (value) => formatNumber(value, mm, 3), style),
    ].join("");
    return drawing(width, bottom + 90, "Return currents in the plane", description(sizes), style, body);
  },
});

interface Px {
  readonly x: number;
  readonly y: number;
}

function description({ x_s, x_a, x_c, x_b, pitch }: Readonly<Record<"x_s" | "x_a" | "x_c" | "x_b" | "pitch", number>>): string {
  const shown = (value: number): string => formatNumber(value, mm, 3);
  return `To scale, from above. The load current runs in the plane from the sleeve, ${shown(x_s)} from the left edge, past the amplifier at ${shown(x_a)} to the converter at ${shown(x_c)}; the pulses run between the converter and the cell at ${shown(x_b)}, away from the points from which the amplifier measures. Vias tie the planes every ${shown(pitch)} along the edge.`;
}

function names(at: Readonly<Record<"sleeve" | "input" | "amplifier" | "converter" | "cell" | "near", Px>>): Callout[] {
  return [
    { label: "input", ...at.input },
    { label: "sleeve", ...at.sleeve },
    { label: "amplifier, joint", ...at.amplifier },
    { label: "converter, near", ...at.near },
    { label: "converter", ...at.converter },
    { label: "cell", ...at.cell },
  ];
}

/** A line with an arrowhead in its middle. */
function flow(from: Px, to: Px, attributes: Readonly<Record<string, string | number>>, fill: string): string {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const long = Math.sqrt(dx * dx + dy * dy);
  if (long === 0) return "";
  const [ux, uy] = [dx / long, dy / long];
  const [x, y] = [(from.x + to.x) / 2 + 6 * ux, (from.y + to.y) / 2 + 6 * uy];
  const back = (side: number): string => point(x - 13 * ux - side * uy, y - 13 * uy + side * ux);
  return (
    path([point(from.x, from.y), point(to.x, to.y)], false, attributes) +
    path([point(x, y), back(6), back(-6)], true, { fill, stroke: "none" })
  );
}

/** Vias along the edge, as many as the pitch leaves room for on each side. */
function stitches(length: number, wide: number, pitch: number, scale: number, style: DrawingStyle): string {
  const inset = 0.8e-3;
  const along = (size: number): number[] => {
    const count = Math.max(1, Math.ceil((size - 2 * inset) / pitch));
    return Array.from({ length: count + 1 }, (_, k) => inset + (k * (size - 2 * inset)) / count);
  };
  const dot = (x: number, y: number): string =>
    element("circle", { cx: margin + x * scale, cy: top + y * scale, r: 2, fill: style.ink, "fill-opacity": 0.5, stroke: "none" });
  return (
    along(length)
      .map((x) => dot(x, inset) + dot(x, wide - inset))
      .join("") +
    along(wide)
      .slice(1, -1)
      .map((y) => dot(inset, y) + dot(length - inset, y))
      .join("")
  );
}
