/**
 * Vega's SVG in fewer words, the same picture: without what is the default or draws nothing, hundredths of a pixel at most, what all
 * marks of a group have alike at the group, and rules of a grid as one path. A group a line, so that a diff of a notebook can be read.
 */

export function shortSvg(svg: string): string {
  const font = /<text[^>]*( font-family="[^"]*")/.exec(svg)?.[1] ?? "";
  const bare = svg
    .replace(/ (?:opacity|stroke-width)="1"| pointer-events="none"| role="graphics-object"| aria-roledescription="[^"]*"/g, "")
    .replace(/<path class="(?:foreground|background)"[^>]* d="(?:M0,0h0v0h0Z)?"[^>]*\/>/g, "")
    // The numbers behind a mark, at twelve digits: the figure's words tell them.
    .replace(/<(?:path|text|line)\b[^>]*>/g, (mark) => mark.replace(/ (?:role|aria-label)="[^"]*"/g, ""))
    .replace(/ (?:d|transform|x|y|x1|x2|y1|y2|width|height)="[^"]*"/g, (attribute) =>
      attribute.replace(/-?\d*\.\d{3,}(?:e-?\d+)?/g, hundredths),
    )
    .replace(/<g class="mark-(?:rule|rect|text|line|symbol|area)[^>]*>(?:<(path|line)[^>]*\/>|<text[^>]*>[^<]*<\/text>){2,}<\/g>/g, inGroup)
    .replace(/ class="mark-\w+ role-(?!mark)[^"]*"/g, "")
    .replace(/ xmlns:xlink="[^"]*"/, "")
    .replace(/<g/g, "\n<g");
  return font === "" ? bare : bare.replaceAll(font, "").replace(/^<svg\b/, `<svg${font}`);
}

const hundredths = (number: string) => String(Math.round(Number(number) * 100) / 100 + 0);

/** Attributes that a group hands on to its marks. */
const inherited = / (?:fill|stroke|stroke-width|stroke-dasharray|font-size|font-weight|text-anchor)="[^"]*"/g;

function inGroup(group: string): string {
  const [open] = /^<g[^>]*>/.exec(group) ?? [""];
  const marks = group.slice(open.length, -"</g>".length).match(/<(?:path|line)[^>]*\/>|<text[^>]*>[^<]*<\/text>/g) ?? [];
  const attributes = (mark: string): readonly string[] => mark.slice(0, mark.indexOf(">")).match(inherited) ?? [];
  const alike = attributes(marks[0] ?? "").filter(
    (one) => marks.every((mark) => attributes(mark).includes(one)) && !open.includes(one.split("=")[0] as string),
  );
  const short = marks.map((mark) => alike.reduce((text, one) => text.replace(one, ""), mark)).join("");
  return `${open.slice(0, -1)}${alike.join("")}>${inOnePath(short)}</g>`;
}

const rule = /<line transform="translate\(([^,)]+),([^,)]+)\)" x2="([^"]+)" y2="([^"]+)"\/>/g;

/** Straight lines that differ in their places alone, as one path. */
function inOnePath(marks: string): string {
  const rules = [...marks.matchAll(rule)];
  if (rules.length < 2 || rules.map(([text]) => text).join("") !== marks) return marks;
  return `<path d="${rules.map(([, x, y, dx, dy]) => `M${x},${y}${dx === "0" ? `v${dy}` : dy === "0" ? `h${dx}` : `l${dx},${dy}`}`).join("")}"/>`;
}
