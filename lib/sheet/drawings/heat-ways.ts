/**
 * A case that hangs on a jacket, in section, with what warms it and how it sheds its heat: parts inside, the covered side hatched, the free
 * one with convection and radiation, and the temperatures of cell, surface and air. Not to scale.
 */
import { formatNumber } from "../../quantity/format";
import { celsius, mW } from "../../units";
import { defineDrawing } from "./define";
import { hatch } from "./hatch";
import { type DrawingStyle, drawing, element, line, path, point, text } from "./svg";

const [width, height] = [660, 290];
/** px: the case, its wall, and the jacket to its left. */
const outer = { x: 176, y: 40, width: 210, height: 200 };
const wall = 12;
const jacket = 30;
/** px: board and cell inside, and the charger on the board's outer side. */
const board = { x: 298, y: 62, width: 10, height: 156 };
const cell = { x: 208, y: 72, width: 84, height: 136 };
const charger = { x: 308, y: 84, width: 34, height: 30 };
/** px: where what leaves is written. */
const [face, words] = [outer.x + outer.width, 470];

/** T_a air, T_m mean surface, T_t its warmest place, T_c cell: K; P_c of the charger, P_i in the cell, P_w of play, P_v convected, P_r radiated: W. */
export const heatWays = defineDrawing({
  name: "heat.ways",
  meaning: "what warms a case on a jacket, and how it sheds its heat",
  arguments: { T_a: celsius, T_m: celsius, T_t: celsius, T_c: celsius, P_c: mW, P_i: mW, P_w: mW, P_v: mW, P_r: mW },
  draw: ({ T_a, T_m, T_t, T_c, P_c, P_i, P_w, P_v, P_r }, style) => {
    const degrees = (T: number): string => formatNumber(T, celsius, 3);
    const heat = (P: number): string => formatNumber(P, mW, 3);
    const description = `The charger makes ${heat(P_c)}, the current in the cell ${heat(P_i)} and play ${heat(P_w)}. The cell is at ${degrees(T_c)}, the surface at ${degrees(T_m)} in the mean and ${degrees(T_t)} opposite the charger. ${heat(P_v)} leave by convection and ${heat(P_r)} by radiation into air of ${degrees(T_a)}; the side on the jacket sheds nothing.`;
    const body =
      section(style) +
      text(cell.x + cell.width / 2, 128, "cell", "middle", style) +
      text(cell.x + cell.width / 2, 144, degrees(T_c), "middle", style) +
      text(cell.x + cell.width / 2, 160, heat(P_i), "middle", style) +
      text(outer.x - jacket - 10, 144, "jacket", "end", style) +
      leader(charger.x + charger.width / 2, charger.y, 325, 26) +
      text(325, 18, `charger ${heat(P_c)}`, "middle", style) +
      leader(board.x + board.width / 2, board.y + board.height - 8, board.x + 5, 262) +
      text(board.x + 5, 276, `play, on the board ${heat(P_w)}`, "middle", style) +
      away(99, `warmest place ${degrees(T_t)}`, "dot", style) +
      away(139, `radiation ${heat(P_r)}`, "wave", style) +
      away(179, `convection ${heat(P_v)}`, "arrow", style) +
      away(219, `mean surface ${degrees(T_m)}`, "none", style) +
      text(words, 262, `air ${degrees(T_a)}`, "start", style);
    return drawing(width, height, "Ways of the heat", description, style, body);
  },
});

function section({ ink, accent }: DrawingStyle): string {
  const inner = { x: outer.x + wall, y: outer.y + wall, width: outer.width - 2 * wall, height: outer.height - 2 * wall };
  return (
    hatch(outer.x - jacket, outer.y - 10, jacket, outer.height + 20, { "stroke-opacity": 0.5 }) +
    element("rect", { ...outer, rx: 18, fill: ink, "fill-opacity": 0.12, "stroke-width": 1.5 }) +
    element("rect", { ...inner, rx: 8, fill: "none" }) +
    element("rect", { ...cell, rx: 4, fill: accent, "fill-opacity": 0.18 }) +
    element("rect", { ...board, fill: ink, "fill-opacity": 0.5 }) +
    element("rect", { ...charger, fill: accent, stroke: "none" })
  );
}

function leader(x1: number, y1: number, x2: number, y2: number): string {
  return line(x1, y1, x2, y2);
}

/** What is told of the free side: a dot on it, an arrow of the air or a wave of radiation, and its words. */
function away(y: number, said: string, kind: "dot" | "wave" | "arrow" | "none", style: DrawingStyle): string {
  const mark = { stroke: style.accent, "stroke-width": 1.5 };
  const end = words - 12;
  const head = path([point(end - 8, y - 4), point(end, y), point(end - 8, y + 4)], false, mark);
  const drawn = {
    dot: element("circle", { cx: face, cy: y, r: 5, fill: style.accent, stroke: "none" }) + line(face + 5, y, end, y),
    wave: element("path", { d: `M${face + 6} ${y} q8 -8 16 0 t16 0 t16 0 L${end} ${y}`, ...mark }) + head,
    arrow: line(face + 6, y, end, y, mark) + head,
    none: line(face, y, end, y),
  }[kind];
  return drawn + text(words, y + 4, said, "start", style);
}
