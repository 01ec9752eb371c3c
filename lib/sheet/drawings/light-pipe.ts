/**
 * Section through an indicator: a light-emitting diode on the board, a round pipe of clear plastic that starts a gap
 * above it and ends flush with the outside of the case. The cone accepted at the pipe's entrance has the full angle
 * 2·atan(d/(2·gap)) about a small emitter (geometry); a straight polished pipe of refractive index √2 or more would let
 * it out at the same angle, a rough or lensed end at another, so the viewing cone is an argument of its own.
 * Diode and board are drawn at a usual size for orientation and carry no dimensions.
 */
import { WorkingsError } from "../../quantity/error";
import { deg, mm } from "../../units";
import { type Callout, callouts } from "./callouts";
import { defineDrawing } from "./define";
import { horizontalDimension, scaleBar, verticalDimension } from "./dimension-line";
import { hatch } from "./hatch";
import { coneRadius, degrees, eyeWidth, type Layout, layout, margin, metres, row, type Sizes, width } from "./light-pipe-layout";
import { type DrawingStyle, drawing, element, line, number, path, point, text } from "./svg";

/** ISO 128-2: outlines are about twice as wide as dimension and hatch lines. */
const outline = { "stroke-width": 1.5 };

/**
 * Light from a diode on the board through the case to the viewer, to scale. Lengths up to some tens of millimetres;
 * `viewing` is the full angle of the cone that leaves, up to 180°.
 */
export const lightPipe = defineDrawing({
  name: "light.pipe",
  meaning: "section through a light pipe from a diode on the board to the outside of the case",
  arguments: { length: mm, diameter: mm, wall: mm, gap: mm, viewing: deg },
  draw: (sizes, style) => {
    check(sizes);
    const at = layout(sizes);
    const bottom = at.axis + at.halfHeight;
    const body = [
      light(at, style),
      board(at, style),
      wall(at),
      pipe(at, style),
      axis(at),
      viewer(at, style),
      dimensions(at, sizes, style),
      callouts(parts(at), bottom + 12, bottom + 46, margin, width - margin, style),
      scaleBar(margin, bottom + 78, at.scale, metres, style),
    ].join("");
    return drawing(width, bottom + 94, "Light pipe in section", description(sizes, at), style, body);
  },
});

function check({ length, gap, wall, viewing }: Sizes): void {
  const reason =
    wall > length + gap
      ? `the wall is thicker than pipe and gap together (${metres(wall)}), so the LED would stand in it`
      : viewing > Math.PI
        ? `light cannot leave in a cone of ${degrees(viewing)}; viewing is at most 180°`
        : undefined;
  if (reason !== undefined) throw new WorkingsError("drawing", `drawing light.pipe: ${reason}`);
}

/** The light outside the pipe: from the emitter to the entrance, and from the exit to the viewer. */
function light({ emitter, entrance, exit, axis, radius, viewing }: Layout, style: DrawingStyle): string {
  const x = coneRadius * Math.cos(viewing / 2);
  const y = coneRadius * Math.sin(viewing / 2);
  const cone = `M${number(exit)} ${number(axis)} l${number(x)} ${number(-y)} A${coneRadius} ${coneRadius} 0 0 1 ${number(exit + x)} ${number(axis + y)} Z`;
  const tint = { fill: style.accent, stroke: "none" };
  const ray = { stroke: style.accent, "stroke-width": 1 };
  return (
    path([point(emitter, axis), point(entrance, axis - radius), point(entrance, axis + radius)], true, { ...tint, "fill-opacity": 0.35 }) +
    element("path", { d: cone, ...tint, "fill-opacity": 0.18 }) +
    path([point(entrance, axis - radius), point(emitter, axis), point(entrance, axis + radius)], false, ray) +
    path([point(exit + x, axis - y), point(exit, axis), point(exit + x, axis + y)], false, ray)
  );
}

function board({ board: x, diode, emitter, axis, halfHeight, diodeHalf }: Layout, style: DrawingStyle): string {
  const [top, bottom] = [axis - halfHeight + 8, axis + halfHeight - 8];
  return (
    element("rect", { x, y: top, width: diode - x, height: bottom - top, fill: style.ink, "fill-opacity": 0.12, stroke: "none" }) +
    line(x, top, x, bottom, outline) +
    line(diode, top, diode, bottom, outline) +
    breakLine(x, diode, top) +
    breakLine(x, diode, bottom) +
    element("rect", {
      x: diode,
      y: axis - diodeHalf,
      width: emitter - diode,
      height: 2 * diodeHalf,
      fill: style.accent,
      "fill-opacity": 0.6,
      ...outline,
    })
  );
}

/** The wall above and below the pipe's hole; it goes on beyond the drawing. */
function wall({ wall: x, exit, axis, halfHeight, radius }: Layout): string {
  const height = halfHeight - radius;
  return [-1, 1]
    .map((side) => {
      const [hole, end] = [axis + side * radius, axis + side * halfHeight];
      return (
        hatch(x, Math.min(hole, end), exit - x, height, { "stroke-opacity": 0.55 }) +
        path([point(x, end), point(x, hole), point(exit, hole), point(exit, end)], false, outline) +
        breakLine(x, exit, end)
      );
    })
    .join("");
}

/** Freehand thin line where a part is broken off (ISO 128-2, line type 01.1). */
function breakLine(from: number, to: number, y: number): string {
  const half = number((to - from) / 2);
  return element("path", { d: `M${number(from)} ${number(y)} q${number((to - from) / 4)} -5 ${half} 0 t${half} 0` });
}

function pipe({ entrance, exit, axis, radius }: Layout, style: DrawingStyle): string {
  return element("rect", {
    x: entrance,
    y: axis - radius,
    width: exit - entrance,
    height: 2 * radius,
    fill: style.accent,
    "fill-opacity": 0.22,
    ...outline,
  });
}

function axis({ board, exit, axis: y }: Layout): string {
  return line(board - 8, y, exit + coneRadius, y, { "stroke-dasharray": "14 3 3 3", "stroke-opacity": 0.7 });
}

/** An eye that looks at the pipe, and the cone's full angle beside its arc. */
function viewer({ exit, axis: y, viewing, eye: x }: Layout, style: DrawingStyle): string {
  const lids = `M${number(x)} ${number(y)} q${eyeWidth / 2} -14 ${eyeWidth} 0 q-${eyeWidth / 2} 14 -${eyeWidth} 0 Z`;
  return (
    text(exit + coneRadius + 8, y + 4, degrees(viewing), "start", style) +
    element("path", { d: lids, ...outline }) +
    element("circle", { cx: x + eyeWidth / 2 - 3, cy: y, r: 4.5, fill: style.ink, stroke: "none" })
  );
}

/** The shortest nearest to the object: gap, wall, length, each in its own row so that no value meets another. */
function dimensions(at: Layout, sizes: Sizes, style: DrawingStyle): string {
  const top = at.axis - at.halfHeight;
  const edge = at.axis - at.radius;
  const diodeEdge = at.axis - at.diodeHalf;
  const above = (n: number): number => top - 14 - n * row;
  return (
    horizontalDimension(
      { from: at.emitter, to: at.entrance, y: above(0), fromOutline: diodeEdge, toOutline: edge, value: metres(sizes.gap), side: "left" },
      style,
    ) +
    horizontalDimension(
      { from: at.wall, to: at.exit, y: above(1), fromOutline: top, toOutline: top, value: metres(sizes.wall), side: "right" },
      style,
    ) +
    horizontalDimension(
      { from: at.entrance, to: at.exit, y: above(2), fromOutline: edge, toOutline: top, value: metres(sizes.length), side: "right" },
      style,
    ) +
    verticalDimension(
      {
        from: edge,
        to: at.axis + at.radius,
        x: at.exit + 18,
        outline: at.exit,
        value: `⌀ ${metres(sizes.diameter)}`,
        labelY: at.axis + Math.max(at.radius + 22, coneRadius * Math.sin(at.viewing / 2) + 14),
      },
      style,
    )
  );
}

function parts(at: Layout): Callout[] {
  const inside = at.wall - at.entrance;
  const pipeX = inside > 16 ? at.entrance + inside / 2 : at.exit - 0.75 * (at.exit - Math.max(at.wall, at.entrance));
  return [
    { label: "board", x: (at.board + at.diode) / 2, y: at.axis + at.halfHeight - 20 },
    { label: "LED", x: (at.diode + at.emitter) / 2, y: at.axis + at.diodeHalf / 2 },
    { label: `accepted cone ${degrees(at.acceptance)}`, x: at.emitter + 0.75 * (at.entrance - at.emitter), y: at.axis + at.radius / 4 },
    { label: "light pipe", x: pipeX, y: at.axis + at.radius / 2 },
    { label: "case wall", x: at.exit - (at.exit - at.wall) / 4, y: at.axis + at.halfHeight - 12 },
    { label: "viewer", x: at.eye + eyeWidth / 2, y: at.axis + 16 },
  ];
}

function description({ length, diameter, wall, gap, viewing }: Sizes, at: Layout): string {
  return (
    `To scale: a light pipe ${metres(length)} long and ${metres(diameter)} in diameter starts ${metres(gap)} above a ` +
    `light-emitting diode on the board and ends flush with the outside of a case wall ${metres(wall)} thick. ` +
    `Light enters in a cone of ${degrees(at.acceptance)} full angle and leaves in one of ${degrees(viewing)}. Diode and board are drawn for orientation.`
  );
}
