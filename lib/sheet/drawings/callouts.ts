/**
 * Names of parts in one row below a drawing, each with a leader to its part (ISO 128-2: a leader that ends inside an
 * outline ends in a dot). Leaders leave their parts straight down to a common level and then go to their names; names
 * keep the order of their parts, so leaders never cross and names never overlap.
 */
import { type DrawingStyle, element, path, point, text, textWidth } from "./svg";

export interface Callout {
  readonly label: string;
  /** px: the point inside the part. */
  readonly x: number;
  readonly y: number;
}

/** px between names. */
const space = 14;

/** Callouts with their names on baseline `y` and leaders bent at `level`, between x = `left` and `right`. */
export function callouts(items: readonly Callout[], level: number, y: number, left: number, right: number, style: DrawingStyle): string {
  const ordered = [...items].sort((a, b) => a.x - b.x);
  const centres = apart(
    ordered.map(({ x, label }) => ({ x, width: textWidth(label) + space })),
    left,
    right,
  );
  return ordered.map((item, i) => callout(item, centres[i] ?? item.x, level, y, style)).join("");
}

function callout({ label, x, y }: Callout, centre: number, level: number, baseline: number, style: DrawingStyle): string {
  return (
    element("circle", { cx: x, cy: y, r: 1.8, fill: style.ink, stroke: "none" }) +
    path([point(x, y), point(x, level), point(centre, baseline - 13)], false) +
    text(centre, baseline, label, "middle", style)
  );
}

interface Group {
  /** px: left end and width of the names set side by side. */
  readonly left: number;
  readonly width: number;
  readonly members: readonly { readonly x: number; readonly width: number }[];
}

/**
 * Centres that keep the widths apart with the least sum of squared moves, in order (pooling of neighbours that
 * collide: isotonic regression), then kept inside left and right where they fit.
 */
function apart(items: readonly { readonly x: number; readonly width: number }[], left: number, right: number): number[] {
  let groups: Group[] = [];
  for (const item of items) {
    let group = pooled([item], left, right);
    for (let before = groups.at(-1); before !== undefined && before.left + before.width > group.left; before = groups.at(-1)) {
      groups = groups.slice(0, -1);
      group = pooled([...before.members, ...group.members], left, right);
    }
    groups.push(group);
  }
  return groups.flatMap(centres);
}

function pooled(members: Group["members"], left: number, right: number): Group {
  let width = 0;
  let sum = 0;
  for (const member of members) {
    sum += member.x - member.width / 2 - width;
    width += member.width;
  }
  const wanted = sum / members.length;
  return { left: Math.max(left, Math.min(wanted, right - width)), width, members };
}

function centres(group: Group): number[] {
  let edge = group.left;
  return group.members.map(({ width }) => {
    edge += width;
    return edge - width / 2;
  });
}
