/**
 * Cross-section of a case with what lies in it: parts under the board, the board, a pouch cell new and swollen, and
 * the upper wall as it yields under a thumb. Case, stack and deflection are to one scale. The yielding wall is drawn as
 * a parabola between the side walls; the parts under the board are drawn at their height and at no particular place.
 */
import { WorkingsError } from "../../quantity/error";
import { mm } from "../../units";
import { type Callout, callouts } from "./callouts";
import { defineDrawing } from "./define";
import { horizontalDimension, scaleBar, verticalDimension } from "./dimension-line";
import {
  arrowLength,
  heightGap,
  type Layout,
  layout,
  leftOver,
  margin,
  metres,
  type Rectangle,
  row,
  type Sizes,
  width,
} from "./enclosure-section-layout";
import { hatch } from "./hatch";
import { type Attributes, type DrawingStyle, drawing, element, line, path, point, text } from "./svg";

/** ISO 128-2: outlines are about twice as wide as dimension and hatch lines. */
const outline = { "stroke-width": 1.5 };

/** A case of some tens of millimetres and the stack in it. A stack too high for the case is drawn as it would collide. */
export const enclosureSection = defineDrawing({
  name: "enclosure.section",
  meaning: "cross-section of a case with board and cell, the upper wall yielding under a thumb",
  arguments: {
    width: mm,
    height: mm,
    radius: mm,
    wall: mm,
    lower: mm,
    parts: mm,
    board: mm,
    cell: mm,
    growth: mm,
    boardWidth: mm,
    cellWidth: mm,
    deflection: mm,
  },
  draw: (sizes, style) => {
    check(sizes);
    const at = layout(sizes);
    const bottom = at.outer.y + at.outer.height;
    const body = [
      wall(at),
      stack(at, style),
      yielding(at, sizes, style),
      dimensions(at, sizes, style),
      callouts(parts(at, sizes), bottom + 30, bottom + 64, margin, width - margin, style),
      scaleBar(margin, bottom + 92, at.scale, metres, style),
    ].join("");
    return drawing(width, bottom + 108, "Section through the enclosure", description(sizes), style, body);
  },
});

function check({ width: wide, height, radius, wall: thick, lower, boardWidth, cellWidth }: Sizes): void {
  const inside = wide - 2 * thick;
  const reason =
    2 * thick >= Math.min(wide, height)
      ? `walls of ${metres(thick)} leave nothing inside ${metres(wide)} by ${metres(height)}`
      : 2 * radius > Math.min(wide, height)
        ? `the radius ${metres(radius)} is more than half of the shorter side`
        : lower >= height
          ? `the lower half (${metres(lower)}) is as high as the whole case`
          : Math.max(boardWidth, cellWidth) > inside
            ? `board and cell do not fit between the side walls, ${metres(inside)} apart`
            : undefined;
  if (reason !== undefined) throw new WorkingsError("drawing", `drawing enclosure.section: ${reason}`);
}

function rectangle({ x, y, width: wide, height }: Rectangle, attributes: Attributes): string {
  return element("rect", { x, y, width: wide, height, ...attributes });
}

function wall({ outer, inner, radius, innerRadius, parting }: Layout): string {
  const thick = inner.x - outer.x;
  const strip = { "stroke-opacity": 0.5 };
  const [lid, floor] = [outer.y, inner.y + inner.height];
  const right = inner.x + inner.width;
  return (
    [lid, floor].map((y) => hatch(outer.x + radius, y, outer.width - 2 * radius, thick, strip)).join("") +
    [outer.x, right].map((x) => hatch(x, outer.y + radius, thick, outer.height - 2 * radius, strip)).join("") +
    rectangle(outer, { rx: radius, ...outline }) +
    rectangle(inner, { rx: innerRadius, ...outline }) +
    line(outer.x, parting, inner.x, parting, outline) +
    line(right, parting, outer.x + outer.width, parting, outline)
  );
}

function stack({ parts: under, board, cell, growth }: Layout, style: DrawingStyle): string {
  const part = (from: number, wide: number, high: number): string =>
    rectangle(
      { x: under.x + from * under.width, y: under.y, width: wide * under.width, height: high * under.height },
      { fill: style.ink, "fill-opacity": 0.08 },
    );
  return (
    [part(0.04, 0.12, 1), part(0.2, 0.2, 0.55), part(0.46, 0.1, 0.8), part(0.62, 0.24, 0.6)].join("") +
    rectangle(board, { fill: style.ink, "fill-opacity": 0.2, ...outline }) +
    rectangle(cell, { fill: style.accent, "fill-opacity": 0.22, ...outline }) +
    rectangle(growth, { fill: style.accent, "fill-opacity": 0.5, stroke: style.accent, "stroke-dasharray": "4 2" })
  );
}

/** The upper wall's two faces under the thumb, and the thumb's force; a quadratic curve with its pole at 2·sag is a parabola of that sag. */
function yielding({ outer, inner, sag, middle }: Layout, { deflection }: Sizes, style: DrawingStyle): string {
  const face = (y: number): string =>
    element("path", {
      d: `M${point(inner.x, y)} Q${point(middle, y + 2 * sag)} ${point(inner.x + inner.width, y)}`,
      stroke: style.accent,
      "stroke-width": 1.5,
      "stroke-dasharray": "6 3",
    });
  const [tip, tail] = [outer.y + sag, outer.y - arrowLength];
  return (
    face(outer.y) +
    face(inner.y) +
    line(middle, tail, middle, tip - 8, { stroke: style.accent, "stroke-width": 2.5 }) +
    path([point(middle, tip), point(middle - 5, tip - 11), point(middle + 5, tip - 11)], true, { fill: style.accent, stroke: "none" }) +
    text(middle + 12, outer.y - 12, `thumb: ${metres(deflection)}`, "start", style)
  );
}

function dimensions({ outer, inner, middle }: Layout, sizes: Sizes, style: DrawingStyle): string {
  const right = outer.x + outer.width;
  const bottom = outer.y + outer.height;
  const half = outer.y + outer.height / 2;
  return (
    horizontalDimension(
      { from: outer.x, to: inner.x, y: outer.y - 14, fromOutline: half, toOutline: outer.y, value: metres(sizes.wall), side: "left" },
      style,
    ) +
    horizontalDimension(
      {
        from: outer.x,
        to: right,
        y: outer.y - 14 - 2 * row,
        fromOutline: half,
        toOutline: half,
        value: metres(sizes.width),
        side: "right",
      },
      style,
    ) +
    verticalDimension(
      { from: outer.y, to: bottom, x: right + heightGap, outline: middle, value: metres(sizes.height), labelY: bottom + 18 },
      style,
    )
  );
}

function parts({ parts: under, board, cell, growth, inner, sag, middle }: Layout, sizes: Sizes): Callout[] {
  const centre = ({ y, height }: Rectangle): number => y + height / 2;
  return [
    { label: `parts ${metres(sizes.parts)}`, x: under.x + 0.1 * under.width, y: centre(under) },
    { label: `board ${metres(sizes.board)}`, x: board.x + 0.18 * board.width, y: centre(board) },
    { label: `cell ${metres(sizes.cell)}`, x: cell.x + 0.3 * cell.width, y: centre(cell) },
    { label: `left over ${metres(leftOver(sizes))}`, x: middle, y: (inner.y + sag + growth.y) / 2 },
    { label: `swelling ${metres(sizes.growth)}`, x: cell.x + 0.75 * cell.width, y: centre(growth) },
  ];
}

function description(sizes: Sizes): string {
  const { width: wide, height, wall: thick, parts: under, board, cell, growth, deflection } = sizes;
  return (
    `To scale: a case ${metres(wide)} wide and ${metres(height)} high with walls ${metres(thick)} thick. In it, from below, ` +
    `parts ${metres(under)} high, a board of ${metres(board)}, a cell of ${metres(cell)} that has swollen by ${metres(growth)}. ` +
    `A thumb bends the upper wall down by ${metres(deflection)}; ${metres(leftOver(sizes))} are left over between wall and cell.`
  );
}
