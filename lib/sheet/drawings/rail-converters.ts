/**
 * From the cell to both rails: a boost and an inverting converter, each with its rate, then capacitors, the inductor of a
 * filter with its damping capacitor, and the amplifier. Not to scale; the power flows from left to right.
 */
import { formatNumber } from "../../quantity/format";
import { kHz, mA, uF, uH, volt } from "../../units";
import { defineDrawing } from "./define";
import { type DrawingStyle, drawing, element, line, path, point, text } from "./svg";

const width = 660;
const height = 270;
/** px: heights of the two rails. */
const [up, down] = [70, 188];
const middle = (up + down) / 2;
/** px: centres of cell, converters, first capacitors, filter, second capacitors, damping and amplifier. */
const at = { cell: 60, converter: 200, near: 298, coil: 366, far: 436, damper: 508, amplifier: 606 };

/** V_in of the cell, V_p and V_m of the rails, L of the converters, f_b and f_i their rates, C of the capacitors at each place, L_f and C_d of the filter, I_s the load. */
export const railConverters = defineDrawing({
  name: "rails.converters",
  meaning: "the two converters of a split supply with their rates, capacitors and filters",
  arguments: { V_in: volt, V_p: volt, V_m: volt, L: uH, f_b: kHz, f_i: kHz, C: uF, L_f: uH, C_d: uF, I_s: mA },
  draw: ({ V_in, V_p, V_m, L, f_b, f_i, C, L_f, C_d, I_s }, style) => {
    const [cell, plus, minus] = [formatNumber(V_in, volt, 3), formatNumber(V_p, volt, 3), formatNumber(V_m, volt, 3)];
    const [boost, inverting, load] = [formatNumber(f_b, kHz, 3), formatNumber(f_i, kHz, 3), formatNumber(I_s, mA, 3)];
    const parts = { C: formatNumber(C, uF, 3), L_f: formatNumber(L_f, uH, 3), C_d: formatNumber(C_d, uF, 3) };
    const description = `The cell of ${cell} feeds two converters of ${formatNumber(L, uH, 3)}. The boost converter makes +${plus} and feeds its rail at ${boost}, the inverting one −${minus} at ${inverting}. In each rail ${parts.C} stand at the converter, an inductor of ${parts.L_f}, then ${parts.C} and ${parts.C_d} with a series resistance, at the amplifier, which takes ${load}.`;
    const body =
      block(at.cell, middle, 76, 52, ["cell", cell], style) +
      feeds() +
      block(at.converter, up, 112, 56, ["boost", `at ${boost}`], style) +
      block(at.converter, down, 112, 56, ["inverting", `at ${inverting}`], style) +
      rail(up, `+${plus}`, parts, style) +
      rail(down, `−${minus}`, parts, style) +
      block(at.amplifier, middle, 84, 170, ["amplifier", load, "silent"], style) +
      text(at.converter, middle + 4, `${formatNumber(L, uH, 3)} each`, "middle", style);
    return drawing(width, height, "From the cell to both rails", description, style, body);
  },
});

function block(x: number, y: number, wide: number, high: number, lines: readonly string[], style: DrawingStyle): string {
  const first = y + 4 - 8 * (lines.length - 1);
  return (
    element("rect", { x: x - wide / 2, y: y - high / 2, width: wide, height: high, "stroke-width": 1.5 }) +
    lines.map((words, i) => text(x, first + 16 * i, words, "middle", style)).join("")
  );
}

/** From the cell to both converters. */
function feeds(): string {
  const [start, turn, end] = [at.cell + 38, at.cell + 58, at.converter - 56];
  return [up, down].map((y) => path([point(start, middle), point(turn, middle), point(turn, y), point(end, y)], false)).join("");
}

interface Parts {
  readonly C: string;
  readonly L_f: string;
  readonly C_d: string;
}

function rail(y: number, voltage: string, { C, L_f, C_d }: Parts, style: DrawingStyle): string {
  return [
    line(at.converter + 56, y, at.coil - 22, y),
    element("rect", { x: at.coil - 22, y: y - 6, width: 44, height: 12, fill: style.ink }),
    line(at.coil + 22, y, at.amplifier - 42, y),
    text(at.coil, y - 14, L_f, "middle", style),
    text(at.amplifier - 48, y - 8, voltage, "end", style),
    capacitor(at.near, y, C, style),
    capacitor(at.far, y, C, style),
    capacitor(at.damper, y, C_d, style, true),
  ].join("");
}

/** To ground; the damping one with its resistance, in the accent colour. */
function capacitor(x: number, y: number, label: string, style: DrawingStyle, damps = false): string {
  const stroke = damps ? style.accent : style.ink;
  const plate = y + (damps ? 34 : 22);
  return [
    line(x, y, x, plate, { stroke }),
    damps ? element("rect", { x: x - 4, y: y + 10, width: 8, height: 18, stroke, fill: "none" }) : "",
    line(x - 11, plate, x + 11, plate, { stroke, "stroke-width": 2 }),
    line(x - 11, plate + 5, x + 11, plate + 5, { stroke, "stroke-width": 2 }),
    line(x, plate + 5, x, plate + 12, { stroke }),
    line(x - 7, plate + 12, x + 7, plate + 12, { stroke, "stroke-width": 2 }),
    text(x, plate + 26, label, "middle", style),
  ].join("");
}
