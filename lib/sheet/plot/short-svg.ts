/**
 * Vega's SVG in fewer words, the same picture: without what is the default or draws nothing, hundredths of a pixel at most, what all
 * marks of a group have alike at the group, and rules of a grid as one path. A group a line, so that a diff of a notebook can be read.
 */

export function shortSvg(svg: string): string {
  const font = /<text[^>]*( font-family="[^"]*")/.exec(svg)?.[1] ?? "";
  const bare = svg
    .replace(/ (?:opacity|stroke-width)="1"| pointer-events="none"| role="graphics-object"| aria-roledescription="[^"]*"/g, "")
    .replace(/<text\b[^>]*(?:\/>|><\/text>)/g, "")
    .replace(/<path class="(?:foreground|background)"[^>]* d="(?:M0,0h0v0h0Z)?"[^>]*\/>/g, "")
    // The numbers behind a mark, at twelve digits: the figure's words tell them.
    .replace(/<(?:path|text|line)\b[^>]*>/g, (mark) => mark.replace(/ (?:role|aria-label)="[^"]*"/g, ""))
    .replace(/ (?:d|transform|x|y|x1|x2|y1|y2|width|height)="[^"]*"/g, (attribute) =>
      attribute.replace(/-?\d*\.\d{3,}(?:e-?\d+)?/g, hundredths),
    )
    .replace(/ d="(M[-\d.,L]+(?:M[-\d.,L]+)*)(Z?)"/g, (_, points: string, end: string) => ` d="${shortPath(points)}${end}"`)
    .replace(/<g class="mark-(?:rule|rect|text|line|symbol|area)[^>]*>(?:<(path|line)[^>]*\/>|<text[^>]*>[^<]*<\/text>){2,}<\/g>/g, inGroup)
    .replace(/ class="mark-\w+ role-(?!mark)[^"]*"/g, "")
    .replace(/ xmlns:xlink="[^"]*"/, "")
    .replace(/<g/g, "\n<g");
  return font === "" ? bare : bare.replaceAll(font, "").replace(/^<svg\b/, `<svg${font}`);
}

/** A line of straight pieces in tenths of a pixel, each step from where the last one ended; what lies on a straight line goes. */
function shortPath(path: string): string {
  return path.replace(/M([^M]+)/g, (_, piece: string) => {
    const points = onlyCorners(piece.split("L").map((point) => point.split(",").map((at) => Math.round(Number(at) * 10))));
    const steps = points.slice(1).map(([x = 0, y = 0], index) => step(x - (points[index]?.[0] ?? 0), y - (points[index]?.[1] ?? 0)));
    return `M${(points[0] ?? []).map(tenths).join(",")}${steps.length > 0 ? "l" : ""}${steps.join(" ").replaceAll(" -", "-")}`;
  });
}

const tenths = (number: number) => String(number / 10);
const step = (x: number, y: number) => `${tenths(x)}${y < 0 ? "" : ","}${tenths(y)}`;

/** Corners of a line, to a twentieth of a pixel (Ramer, Douglas and Peucker). */
function onlyCorners(points: readonly (readonly number[])[]): readonly (readonly number[])[] {
  const kept = new Set([0, points.length - 1]);
  const open: (readonly [number, number])[] = [[0, points.length - 1]];
  for (let piece = open.pop(); piece !== undefined; piece = open.pop()) {
    const [first, last] = piece;
    const [far, at] = farthest(points, first, last);
    if (far <= 0.5) continue;
    kept.add(at);
    open.push([first, at], [at, last]);
  }
  return points.filter((_, index) => kept.has(index));
}

/** How far the farthest point between two stands from the piece that joins them, and which one it is. */
function farthest(points: readonly (readonly number[])[], first: number, last: number): readonly [number, number] {
  const [x_1 = 0, y_1 = 0] = points[first] ?? [];
  const [x_2 = 0, y_2 = 0] = points[last] ?? [];
  const [dx, dy] = [x_2 - x_1, y_2 - y_1];
  const length = dx * dx + dy * dy;
  let found: readonly [far: number, at: number] = [0, first];
  for (let index = first + 1; index < last; index++) {
    const [x = 0, y = 0] = points[index] ?? [];
    const along = length === 0 ? 0 : Math.min(1, Math.max(0, ((x - x_1) * dx + (y - y_1) * dy) / length));
    const far = Math.hypot(x - x_1 - along * dx, y - y_1 - along * dy);
    if (far > found[0]) found = [far, index];
  }
  return found;
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
