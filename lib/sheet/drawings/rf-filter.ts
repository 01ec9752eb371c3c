/**
 * Circuit of a filter at a jack: clamp, choke and capacitor, each with the elements that no data sheet's headline names. Symbols of
 * IEC 60617: a rectangle is a resistance, a filled one an inductance, two bars a capacitance. What a part is sold for is drawn in
 * ink, what comes with it in the accent colour and with a broken outline, so that the two differ without colour as well.
 */
import { formatNumber } from "../../quantity/format";
import { nH, ohm, pF, uH } from "../../units";
import { defineDrawing } from "./define";
import { type Attributes, type DrawingStyle, drawing, element, line, text } from "./svg";

type Kind = "resistance" | "inductance" | "capacitance";

/** An element of a branch: what it is, its value in words, and whether it comes with the part unasked. */
interface Element {
  readonly kind: Kind;
  readonly label: string;
  readonly unasked: boolean;
}

const width = 660;
const height = 306;
/** px: the line that carries the signal, and the plane. */
const [signal, plane] = [92, 262];
/** px: half of a symbol's length and width. */
const [half, thick] = [15, 6];
/** px: where jack, clamp, choke, capacitor and amplifier stand. */
const [jack, clampAt, chokeAt, capacitorAt, amplifier] = [40, 130, 312, 500, 620];

/** Clamp, choke and capacitor between jack and amplifier, with their values: F, Ω, H. */
export const rfFilter = defineDrawing({
  name: "rf.filter",
  meaning: "circuit of clamp, choke and capacitor with their parasitic elements",
  arguments: { C_1: pF, ESR_1: ohm, ESL_1: nH, L: uH, R_dc: ohm, R_p: ohm, C_p: pF, C_2: pF, ESR_2: ohm, ESL_2: nH },
  draw: ({ C_1, ESR_1, ESL_1, L, R_dc, R_p, C_p, C_2, ESR_2, ESL_2 }, style) => {
    const clamp = shunt(clampAt, "clamp", shuntElements(C_1, ESR_1, ESL_1), style);
    const capacitor = shunt(capacitorAt, "capacitor", shuntElements(C_2, ESR_2, ESL_2), style);
    const choke = series(
      { kind: "resistance", label: formatNumber(R_dc, ohm, 3), unasked: true },
      [
        { kind: "inductance", label: formatNumber(L, uH, 3), unasked: false },
        { kind: "resistance", label: formatNumber(R_p, ohm, 3), unasked: false },
        { kind: "capacitance", label: formatNumber(C_p, pF, 3), unasked: true },
      ],
      style,
    );
    const description = `From the jack: a clamp to the plane, a choke in the line, a capacitor to the plane, the amplifier. ${spoken("clamp", C_1, ESL_1)}; ${spoken("capacitor", C_2, ESL_2)}; across the choke ${formatNumber(C_p, pF, 3)}.`;
    return drawing(width, height, "Circuit of the filter", description, style, wires(style) + clamp + choke + capacitor);
  },
});

function spoken(name: string, C: number, L: number): string {
  return `the ${name} is ${formatNumber(C, pF, 3)} with ${formatNumber(L, nH, 3)}`;
}

function shuntElements(C: number, R: number, L: number): Element[] {
  return [
    { kind: "capacitance", label: formatNumber(C, pF, 3), unasked: false },
    { kind: "resistance", label: formatNumber(R, ohm, 3), unasked: true },
    { kind: "inductance", label: formatNumber(L, nH, 3), unasked: true },
  ];
}

function wires(style: DrawingStyle): string {
  const dot = (x: number): string => element("circle", { cx: x, cy: signal, r: 2.5, fill: style.ink, stroke: "none" });
  return [
    element("circle", { cx: jack, cy: signal, r: 4 }),
    text(jack, signal - 14, "jack", "middle", style),
    line(jack + 4, signal, chokeAt - 112, signal),
    line(chokeAt + 78, signal, amplifier - 14, signal),
    element("path", { d: `M${amplifier - 14} ${signal - 18} L${amplifier + 18} ${signal} L${amplifier - 14} ${signal + 18} Z` }),
    text(amplifier, signal - 26, "amplifier", "middle", style),
    line(jack, plane, amplifier + 18, plane, { "stroke-width": 2.5 }),
    text(amplifier + 18, plane + 18, "plane", "end", style),
    dot(clampAt),
    dot(capacitorAt),
  ].join("");
}

/** A branch from the line down to the plane, its elements spread evenly. */
function shunt(x: number, name: string, elements: readonly Element[], style: DrawingStyle): string {
  const pitch = (plane - signal) / elements.length;
  const drawn = elements.map((one, k) => {
    const y = signal + pitch * (k + 0.5);
    return (
      line(x, signal + pitch * k, x, y - reach(one.kind)) +
      symbol(one, x, y, true, style) +
      line(x, y + reach(one.kind), x, signal + pitch * (k + 1)) +
      text(x + 18, y + 4, one.label, "start", style)
    );
  });
  return drawn.join("") + text(x, plane + 18, name, "middle", style);
}

/** The choke: its wire's resistance, then what lies side by side. */
function series(wire: Element, beside: readonly Element[], style: DrawingStyle): string {
  const [x, left, right] = [chokeAt - 82, chokeAt - 40, chokeAt + 78];
  const rows = beside.map((one, k) => {
    const y = signal + (k - 1) * 44;
    const centre = (left + right) / 2;
    return (
      line(left, y, centre - reach(one.kind), y) +
      symbol(one, centre, y, false, style) +
      line(centre + reach(one.kind), y, right, y) +
      text(centre, y - (one.kind === "capacitance" ? 16 : 11), one.label, "middle", style)
    );
  });
  const rails = [left, right].map((at) => line(at, signal - 44, at, signal + 44)).join("");
  return (
    line(chokeAt - 112, signal, x - half, signal) +
    symbol(wire, x, signal, false, style) +
    line(x + half, signal, left, signal) +
    text(x, signal - 11, wire.label, "middle", style) +
    rails +
    rows.join("") +
    text(chokeAt + 19, signal + 76, "choke", "middle", style)
  );
}

function reach(kind: Kind): number {
  return kind === "capacitance" ? 3 : half;
}

function symbol({ kind, unasked }: Element, x: number, y: number, upright: boolean, style: DrawingStyle): string {
  const stroke: Attributes = unasked ? { stroke: style.accent, "stroke-width": 1.5, "stroke-dasharray": "3 2" } : { "stroke-width": 1.5 };
  if (kind === "capacitance") return bars(x, y, upright, { ...stroke, "stroke-width": 2 });
  const [w, h] = upright ? [thick, half] : [half, thick];
  const fill = kind === "inductance" ? { fill: unasked ? style.accent : style.ink, "fill-opacity": unasked ? 0.35 : 0.8 } : {};
  return element("rect", { x: x - w, y: y - h, width: 2 * w, height: 2 * h, ...fill, ...stroke });
}

function bars(x: number, y: number, upright: boolean, attributes: Attributes): string {
  const ends = [-3, 3] as const;
  return ends
    .map((d) => (upright ? line(x - 11, y + d, x + 11, y + d, attributes) : line(x + d, y - 11, x + d, y + 11, attributes)))
    .join("");
}
