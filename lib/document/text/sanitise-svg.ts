/**
 * SVG and MathML from outside this floor, reduced to what draws: elements and attributes of a list, ids made
 * unique for their figure, `style` turned into presentation attributes (a strict policy refuses inline style).
 * A small scanner, because the worker of the page has no document to parse with.
 */
import { entryOf } from "../../quantity/entry-of";
import { escapeText } from "./html";

const elements = new Set([
  "svg",
  "g",
  "path",
  "line",
  "rect",
  "circle",
  "ellipse",
  "polyline",
  "polygon",
  "text",
  "tspan",
  "title",
  "desc",
  "defs",
  "clipPath",
  "marker",
  "pattern",
  "linearGradient",
  "radialGradient",
  "stop",
  "symbol",
  "use",
  "mask",
  "math",
  "mrow",
  "mi",
  "mo",
  "mn",
  "mtext",
  "mspace",
  "mfrac",
  "msqrt",
  "mroot",
  "msub",
  "msup",
  "msubsup",
  "mover",
  "munder",
  "munderover",
  "mtable",
  "mtr",
  "mtd",
  "mstyle",
  "mpadded",
  "mphantom",
  "menclose",
  "mprescripts",
]);

/** Elements that vanish with all they hold. Anything else unknown loses its tags and keeps its text. */
const removed = new Set([
  "script",
  "style",
  "foreignobject",
  "annotation",
  "iframe",
  "object",
  "embed",
  "image",
  "audio",
  "video",
  "template",
]);

const presentation =
  "fill|fill-opacity|fill-rule|stroke|stroke-width|stroke-opacity|stroke-dasharray|stroke-dashoffset|stroke-linecap|" +
  "stroke-linejoin|stroke-miterlimit|opacity|font-family|font-size|font-style|font-weight|text-anchor|" +
  "dominant-baseline|clip-path|clip-rule|marker-start|marker-mid|marker-end|mask|stop-color|stop-opacity|vector-effect";
const geometry =
  "x|y|x1|x2|y1|y2|cx|cy|r|rx|ry|dx|dy|d|points|width|height|viewBox|transform|preserveAspectRatio|offset|rotate|" +
  "gradientUnits|gradientTransform|patternUnits|patternTransform|clipPathUnits|maskUnits|markerWidth|markerHeight|" +
  "markerUnits|refX|refY|orient|textLength|lengthAdjust|xmlns|version";
const mathematics =
  "display|mathvariant|stretchy|fence|form|lspace|rspace|minsize|maxsize|linethickness|scriptlevel|displaystyle|" +
  "accent|accentunder|columnalign|columnspacing|rowspacing|notation|separator|mathsize|depth|voffset|largeop|movablelimits";
const description = "class|role|id|aria-label|aria-hidden|aria-roledescription|aria-labelledby|href";
const attributes = new Set(`${presentation}|${geometry}|${mathematics}|${description}`.split("|"));
const presentationNames = new Set(presentation.split("|"));

const token =
  /<!--[\s\S]*?-->|<!\[CDATA\[[\s\S]*?\]\]>|<[!?][^>]*>|<\/\s*([\w:-]+)[^>]*>|<([\w:-]+)((?:[^>"']|"[^"]*"|'[^']*')*)>|[^<]+|</g;

/** Safe markup from SVG or MathML text; `prefix` is put before every id, and before every reference to one. */
export function sanitiseMarkup(markup: string, prefix: string): string {
  let out = "";
  let skipped = "";
  let depth = 0;
  for (const match of markup.matchAll(token)) {
    const closing = match[1];
    const opening = match[2];
    if (skipped) {
      const name = (closing ?? opening ?? "").toLowerCase();
      if (name === skipped) depth += closing ? -1 : selfClosing(match[3]) ? 0 : 1;
      if (depth === 0) skipped = "";
    } else if (closing) {
      if (elements.has(closing)) out += `</${closing}>`;
    } else if (opening && removed.has(opening.toLowerCase())) {
      if (!selfClosing(match[3])) {
        skipped = opening.toLowerCase();
        depth = 1;
      }
    } else if (opening) {
      if (elements.has(opening)) out += `<${opening}${keptAttributes(match[3] ?? "", prefix)}${selfClosing(match[3]) ? "/" : ""}>`;
    } else if (!match[0].startsWith("<")) {
      out += escapeText(decode(match[0]));
    } else if (match[0] === "<") {
      out += "&lt;";
    }
  }
  return out;
}

function selfClosing(rest: string | undefined): boolean {
  return rest?.trimEnd().endsWith("/") ?? false;
}

function keptAttributes(source: string, prefix: string): string {
  const kept = new Map<string, string>();
  for (const [, name = "", double, single] of source.matchAll(/([\w:-]+)\s*=\s*(?:"([^"]*)"|'([^']*)')/g)) {
    const value = decode(double ?? single ?? "");
    if (name === "style") for (const [key, text] of declarations(value)) kept.set(key, text);
    else if (attributes.has(name) && harmless(name, value)) kept.set(name, value);
  }
  return [...kept].map(([name, value]) => ` ${name}="${escapeText(prefixed(name, value, prefix))}"`).join("");
}

function declarations(style: string): [string, string][] {
  return style.split(";").flatMap((declaration) => {
    const colon = declaration.indexOf(":");
    const name = declaration.slice(0, colon).trim();
    const value = declaration.slice(colon + 1).trim();
    return colon > 0 && presentationNames.has(name) && harmless(name, value) ? [[name, value] as [string, string]] : [];
  });
}

/** A reference may only point into the same figure. */
function harmless(name: string, value: string): boolean {
  if (name === "href") return /^#[\w.-]+$/.test(value);
  return !/url\s*\(/i.test(value) || /^url\(\s*['"]?#[\w.-]+['"]?\s*\)$/.test(value);
}

function prefixed(name: string, value: string, prefix: string): string {
  if (name === "id") return `${prefix}-${value}`;
  if (name === "href") return `#${prefix}-${value.slice(1)}`;
  if (name === "aria-labelledby")
    return value
      .split(/\s+/)
      .map((id) => `${prefix}-${id}`)
      .join(" ");
  return value.replace(/^url\(\s*['"]?#([\w.-]+)['"]?\s*\)$/, `url(#${prefix}-$1)`);
}

const named: Readonly<Record<string, string>> = { amp: "&", lt: "<", gt: ">", quot: '"', apos: "'", nbsp: "\u00a0" };

function decode(text: string): string {
  return text.replace(/&(?:#x([\da-f]+)|#(\d+)|(\w+));/gi, (whole, hex, decimal, name) => {
    if (name) return entryOf(named, name) ?? whole;
    const code = hex ? Number.parseInt(hex, 16) : Number(decimal);
    return code > 0 && code <= 0x10ffff ? String.fromCodePoint(code) : whole;
  });
}
