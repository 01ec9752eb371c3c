/**
 * Where the power goes while a product charges and plays: source, charger, cell and product, with what flows between
 * them and the heat that the charger makes. Not to scale; the arrows point the way of the power.
 */
import { formatNumber } from "../../quantity/format";
import { mA, mW, volt } from "../../units";
import { defineDrawing } from "./define";
import { type DrawingStyle, drawing, element, line, path, point, text } from "./svg";

const width = 660;
const height = 250;
/** px: size of a block. */
const [wide, high] = [120, 58];
/** px: centre of source, charger, product and cell. */
const source = { x: 76, y: 76 };
const charger = { x: 318, y: 76 };
const product = { x: 574, y: 76 };
const cell = { x: 318, y: 196 };

/** V_in and I_s at the jack, I and V_cv into the cell, P_h heat in the charger, P power for the product. */
export const chargingPath = defineDrawing({
  name: "charging.path",
  meaning: "what flows from the source through the charger to cell and product",
  arguments: { V_in: volt, I_s: mA, I: mA, V_cv: volt, P_h: mW, P: mW },
  draw: ({ V_in, I_s, I, V_cv, P_h, P }, style) => {
    const [drawn, charged, heat] = [formatNumber(I_s, mA, 3), formatNumber(I, mA, 3), formatNumber(P_h, mW, 3)];
    const [voltage, full, played] = [formatNumber(V_in, volt, 3), formatNumber(V_cv, volt, 3), formatNumber(P, mW, 3)];
    const description = `The source gives ${drawn} at ${voltage} to the charger. It passes ${charged} on to the cell, up to ${full}, and ${played} to the product at full output, and makes ${heat} of heat while it fills the cell.`;
    const blocks =
      block(source, ["source", voltage], style) + block(charger, ["charger"], style) + block(cell, ["cell", `up to ${full}`], style);
    const flows =
      across(source, charger, drawn, style) +
      across(charger, product, played, style) +
      down(charger, cell, charged, style) +
      warmth(charger, `heat ${heat}`, style);
    const body = blocks + block(product, ["product", "at full output"], style) + flows;
    return drawing(width, height, "Charging while playing", description, style, body);
  },
});

interface Centre {
  readonly x: number;
  readonly y: number;
}

function block({ x, y }: Centre, lines: readonly string[], style: DrawingStyle): string {
  const first = y + 4 - 8 * (lines.length - 1);
  return (
    element("rect", { x: x - wide / 2, y: y - high / 2, width: wide, height: high, "stroke-width": 1.5 }) +
    lines.map((words, i) => text(x, first + 16 * i, words, "middle", style)).join("")
  );
}

function across(from: Centre, to: Centre, value: string, style: DrawingStyle): string {
  const [start, end] = [from.x + wide / 2, to.x - wide / 2];
  return arrow(start, from.y, end, from.y) + text((start + end) / 2, from.y - 10, value, "middle", style);
}

function down(from: Centre, to: Centre, value: string, style: DrawingStyle): string {
  const [start, end] = [from.y + high / 2, to.y - high / 2];
  return arrow(from.x, start, from.x, end) + text(from.x + 12, (start + end) / 2 + 4, value, "start", style);
}

function arrow(x1: number, y1: number, x2: number, y2: number): string {
  const [dx, dy] = [Math.sign(x2 - x1), Math.sign(y2 - y1)];
  const head = [point(x2 - 8 * dx + 4 * dy, y2 - 8 * dy + 4 * dx), point(x2, y2), point(x2 - 8 * dx - 4 * dy, y2 - 8 * dy - 4 * dx)];
  return line(x1, y1, x2, y2, { "stroke-width": 1.5 }) + path(head, false, { "stroke-width": 1.5 });
}

/** Wavy lines above a block: heat, in the accent colour, and said in words. */
function warmth({ x, y }: Centre, words: string, style: DrawingStyle): string {
  const top = y - high / 2;
  const waves = [-40, -28, -16]
    .map((dx) => element("path", { d: `M${x + dx} ${top - 4} q-5 -5 0 -10 t0 -10`, stroke: style.accent, "stroke-width": 1.5 }))
    .join("");
  return waves + text(x - 4, top - 12, words, "start", style);
}
