/**
 * SVG as plain strings: elements, escaped text, numbers with two decimals. Only presentation attributes are written,
 * never `style`, and no ids, so that a drawing passes a strict content-security-policy and two may share a page.
 */

export type Attributes = Readonly<Record<string, string | number | undefined>>;

/** Colours of a drawing, as SVG paint values. */
export interface DrawingStyle {
  /** Lines and text. */
  readonly ink: string;
  /** The subject: light, current, heat. */
  readonly accent: string;
  /** Behind the drawing; absent leaves it transparent. */
  readonly paper?: string;
}

/** For a drawing inside a page: follows the text colour, so it is right in a dark page too. */
export const pageStyle: DrawingStyle = { ink: "currentColor", accent: "var(--drawing-accent, #1a936f)" };

/** For a drawing that stands alone (an image file, a notebook's output): ink on white paper. */
export const paperStyle: DrawingStyle = { ink: "#1f2933", accent: "#1a936f", paper: "#ffffff" };

/** px: one size for all text of a drawing. */
export const fontSize = 12;

/** `<name …>children</name>`; children are markup already. */
export function element(name: string, attributes: Attributes, ...children: readonly string[]): string {
  const written = Object.entries(attributes)
    .filter(([, value]) => value !== undefined)
    .map(([key, value]) => ` ${key}="${typeof value === "number" ? number(value) : escaped(String(value))}"`)
    .join("");
  const inside = children.join("");
  return inside === "" ? `<${name}${written}/>` : `<${name}${written}>${inside}</${name}>`;
}

/** A line of text; y is its baseline. */
export function text(x: number, y: number, content: string, anchor: "start" | "middle" | "end", style: DrawingStyle): string {
  return element("text", { x, y, "text-anchor": anchor, fill: style.ink, stroke: "none" }, escaped(content));
}

export function line(x1: number, y1: number, x2: number, y2: number, attributes: Attributes = {}): string {
  return element("line", { x1, y1, x2, y2, ...attributes });
}

/** A corner of a path. */
export function point(x: number, y: number): string {
  return `${number(x)} ${number(y)}`;
}

/** A closed or open path through corners. */
export function path(corners: readonly string[], closed: boolean, attributes: Attributes = {}): string {
  return element("path", { d: `M${corners.join(" L")}${closed ? " Z" : ""}`, ...attributes });
}

/** A whole drawing with its name and description for those who do not see it. */
export function drawing(width: number, height: number, title: string, description: string, style: DrawingStyle, body: string): string {
  const paper = style.paper === undefined ? "" : element("rect", { width, height, fill: style.paper });
  return element(
    "svg",
    {
      xmlns: "http://www.w3.org/2000/svg",
      viewBox: `0 0 ${number(width)} ${number(height)}`,
      width,
      height,
      role: "img",
      "aria-label": title,
      "font-size": fontSize,
      "font-family": "system-ui, sans-serif",
      fill: "none",
      stroke: style.ink,
      "stroke-width": 0.75,
    },
    element("title", {}, escaped(title)),
    element("desc", {}, escaped(description)),
    paper,
    body.replace(marks, "\n$&"),
  );
}

/** One a line, so that a diff of a notebook shows what has changed. */
const marks = /<(?:g|text|path|line|rect|circle)\b/g;

/** Width of a line of text in px, estimated on the wide side for a sans-serif face: layout must not depend on fonts. */
export function textWidth(content: string): number {
  return [...content].length * fontSize * 0.58;
}

/** Two decimals at most, no negative zero: the same text on every machine. */
export function number(x: number): string {
  return String(Math.round(x * 100) / 100 + 0);
}

/** Text with the five characters that mean something to SVG replaced. */
function escaped(content: string): string {
  return content
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;")
    .replaceAll("'", "&#39;");
}
