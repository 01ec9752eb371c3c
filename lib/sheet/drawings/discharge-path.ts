/**
 * The way of a discharge from the generator to the plane: nearly all of it through the clamp, in the accent colour and thick; what is
 * left over through choke and resistor into the pin, in ink and thin. Each block shows its figures.
 */
import { formatNumber } from "../../quantity/format";
import { ampere, kV, nH, ohm, uH, uJ, volt } from "../../units";
import { defineDrawing } from "./define";
import { type DrawingStyle, drawing, element, line, text } from "./svg";

interface Box {
  /** px: middle and top. */
  readonly x: number;
  readonly y: number;
  /** The first is its name. */
  readonly lines: readonly string[];
}

const [width, height] = [720, 268];
/** px: the line of the signal, the plane, a box and a line of text in it. */
const [signal, plane, boxWidth, pitch] = [76, 238, 122, 16];
/** px: middles of generator, connector, choke, resistor and pin. */
const [sourceAt, jackAt, chokeAt, resistorAt, pinAt] = [74, 226, 374, 516, 646] as const;
const thick = 4;

/** Generator, clamp, choke, resistor and pin with what each of them carries and holds: V, A, H, Ω, J. */
export const dischargePath = defineDrawing({
  name: "esd.path",
  meaning: "the way of a discharge through clamp, choke and resistor, with figures",
  arguments: {
    U: kV,
    I_p: ampere,
    V_j: volt,
    L_st: nH,
    V_br: volt,
    R_dyn: ohm,
    E_cl: uJ,
    L: uH,
    L_sat: nH,
    R: ohm,
    E_R: uJ,
    I_pin: ampere,
    I_max: ampere,
  },
  draw: ({ U, I_p, V_j, L_st, V_br, R_dyn, E_cl, L, L_sat, R, E_R, I_pin, I_max }, style) => {
    const boxes: Box[] = [
      { x: sourceAt, y: signal - 30, lines: ["generator", formatNumber(U, kV, 3), `${formatNumber(I_p, ampere, 2)} at its peak`] },
      {
        x: jackAt,
        y: 124,
        lines: [
          "clamp",
          `${formatNumber(V_br, volt, 3)} + ${formatNumber(R_dyn, ohm, 3)}`,
          `stub ${formatNumber(L_st, nH, 3)}`,
          `takes ${formatNumber(E_cl, uJ, 2)}`,
        ],
      },
      { x: chokeAt, y: signal - 30, lines: ["choke", formatNumber(L, uH, 3), `${formatNumber(L_sat, nH, 3)} saturated`] },
      { x: resistorAt, y: signal - 30, lines: ["resistor", formatNumber(R, ohm, 3), `takes ${formatNumber(E_R, uJ, 2)}`] },
      { x: pinAt, y: signal - 30, lines: ["pin", formatNumber(I_pin, ampere, 3), `may ${formatNumber(I_max, ampere, 3)}`] },
    ];
    const peak = `${formatNumber(V_j, volt, 2)} at the peak`;
    const description = `Of ${formatNumber(I_p, ampere, 2)} from the generator the clamp takes nearly all; ${formatNumber(I_pin, ampere, 3)} go through choke and resistor into the pin, which may carry ${formatNumber(I_max, ampere, 3)}.`;
    const body = ways(style) + boxes.map((box) => drawn(box, style)).join("") + text(jackAt, signal - 14, peak, "middle", style);
    return drawing(width, height, "The way of a discharge", description, style, body);
  },
});

function ways(style: DrawingStyle): string {
  const strong = { stroke: style.accent, "stroke-width": thick };
  const thin = { "stroke-width": 1.5 };
  const edge = boxWidth / 2;
  const [bottom, pinBottom] = [124 + 4 * pitch + 12, signal - 30 + 3 * pitch + 12];
  return [
    line(sourceAt + edge, signal, jackAt + thick / 2, signal, strong),
    line(jackAt, signal, jackAt, 124, strong),
    line(jackAt, bottom, jackAt, plane, strong),
    line(jackAt, plane, sourceAt, plane, strong),
    line(sourceAt, plane, sourceAt, pinBottom, strong),
    line(jackAt, signal, chokeAt - edge, signal, thin),
    line(chokeAt + edge, signal, resistorAt - edge, signal, thin),
    line(resistorAt + edge, signal, pinAt - edge, signal, thin),
    line(pinAt, pinBottom, pinAt, plane, thin),
    line(jackAt, plane, pinAt, plane, thin),
    element("circle", { cx: jackAt, cy: signal, r: 4, fill: style.ink, stroke: "none" }),
    text(pinAt - 8, plane - 44, "through the rail's capacitors", "end", style),
    text(pinAt, plane + 18, "plane", "end", style),
    text(jackAt + 10, signal + 18, "jack", "start", style),
  ].join("");
}

function drawn({ x, y, lines }: Box, style: DrawingStyle): string {
  const words = lines.map((one, k) => text(x, y + 16 + pitch * k, one, "middle", style)).join("");
  const fill = style.paper ?? "none";
  return (
    element("rect", { x: x - boxWidth / 2, y, width: boxWidth, height: pitch * lines.length + 12, rx: 4, fill, "stroke-width": 1 }) + words
  );
}
