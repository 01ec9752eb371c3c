/**
 * Dimension lines as ISO 129-1:2018 draws them: thin lines, filled arrowheads, extension lines that leave a small gap
 * at the outline and pass the dimension line a little, the value above the line. Where the space is too narrow the
 * arrows stand outside and the value on the prolonged line.
 */
import { type DrawingStyle, fontSize, line, path, point, text, textWidth } from "./svg";

/** px: arrowhead length and half-width, overshoot and gap of extension lines, clearance about a value. */
const arrow = 9;
const halfArrow = 2;
const overshoot = 4;
const outlineGap = 2;
const clearance = 6;
/** px: a line that carries outside arrows reaches this far beyond the extension line. */
const tail = 20;

export interface HorizontalDimension {
  /** px, from < to: where the extension lines stand. */
  readonly from: number;
  readonly to: number;
  /** px: of the dimension line, above what it measures. */
  readonly y: number;
  /** px: where the outline lies that each extension line comes from. */
  readonly fromOutline: number;
  readonly toOutline: number;
  readonly value: string;
  /** Side on which the value stands where it does not fit between. */
  readonly side: "left" | "right";
}

/** A dimension above the object, measuring along x. */
export function horizontalDimension(d: HorizontalDimension, style: DrawingStyle): string {
  const width = textWidth(d.value);
  const extensions =
    line(d.from, d.fromOutline - outlineGap, d.from, d.y - overshoot) + line(d.to, d.toOutline - outlineGap, d.to, d.y - overshoot);
  if (d.to - d.from >= width + 2 * (arrow + 2)) {
    return (
      extensions +
      line(d.from, d.y, d.to, d.y) +
      arrowhead(d.from, d.y, -1, 0, style) +
      arrowhead(d.to, d.y, 1, 0, style) +
      text((d.from + d.to) / 2, d.y - 4, d.value, "middle", style)
    );
  }
  const reach = tail + clearance + width;
  const [left, right] = d.side === "left" ? [reach, tail] : [tail, reach];
  const label =
    d.side === "left" ? text(d.from - tail, d.y - 4, d.value, "end", style) : text(d.to + tail, d.y - 4, d.value, "start", style);
  return (
    extensions +
    line(d.from - left, d.y, d.to + right, d.y) +
    arrowhead(d.from, d.y, 1, 0, style) +
    arrowhead(d.to, d.y, -1, 0, style) +
    label
  );
}

/** Room that a horizontal dimension takes beside its extension lines when its value does not fit between, px. */
export function outsideReach(value: string): number {
  return tail + clearance + textWidth(value);
}

export interface VerticalDimension {
  /** px, from < to: top and bottom of what is measured. */
  readonly from: number;
  readonly to: number;
  /** px: of the dimension line, right of what it measures. */
  readonly x: number;
  readonly outline: number;
  readonly value: string;
  /** px: baseline of the value, below `to`: the line is prolonged to it and the value stands on its shelf. */
  readonly labelY: number;
}

/** A dimension right of the object, measuring along y, its value on a shelf below so that it reads upright. */
export function verticalDimension(d: VerticalDimension, style: DrawingStyle): string {
  const shelf = d.labelY + 4;
  const inside = d.to - d.from >= 3 * arrow;
  const direction = inside ? -1 : 1;
  return (
    line(d.outline + outlineGap, d.from, d.x + overshoot, d.from) +
    line(d.outline + outlineGap, d.to, d.x + overshoot, d.to) +
    path([point(d.x, inside ? d.from : d.from - tail), point(d.x, shelf), point(d.x + 2 * clearance + textWidth(d.value), shelf)], false) +
    arrowhead(d.x, d.from, 0, direction, style) +
    arrowhead(d.x, d.to, 0, -direction, style) +
    text(d.x + clearance, d.labelY, d.value, "start", style)
  );
}

/** A bar of a round length (1, 2 or 5 times a power of ten) that takes 50 to 130 px, with its value. */
export function scaleBar(x: number, y: number, pxPerMetre: number, format: (metres: number) => string, style: DrawingStyle): string {
  const length = roundLength(50 / pxPerMetre);
  const end = x + length * pxPerMetre;
  const middle = (x + end) / 2;
  return (
    path([point(x, y - 3), point(x, y + 3), point(middle, y + 3), point(middle, y - 3)], true, { fill: style.ink }) +
    path([point(middle, y - 3), point(middle, y + 3), point(end, y + 3), point(end, y - 3)], true) +
    text(end + clearance, y + fontSize / 3, format(length), "start", style)
  );
}

/** The smallest of 1, 2, 5, 10 … × 10ⁿ metres that is not below `least`; found by counting in steps, exactly. */
function roundLength(least: number): number {
  for (let exponent = -9; exponent < 3; exponent++) {
    for (const digit of [1, 2, 5]) {
      const length = Number(`${digit}e${exponent}`);
      if (length >= least) return length;
    }
  }
  return 1000;
}

/** A filled arrowhead with its tip at (x, y) that points along (dx, dy), one of the four axes. */
function arrowhead(x: number, y: number, dx: number, dy: number, style: DrawingStyle): string {
  const backX = x - dx * arrow;
  const backY = y - dy * arrow;
  return path(
    [point(x, y), point(backX + dy * halfArrow, backY + dx * halfArrow), point(backX - dy * halfArrow, backY - dx * halfArrow)],
    true,
    { fill: style.ink, stroke: "none" },
  );
}
