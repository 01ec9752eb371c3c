/**
 * A sheet in two columns: text at the left, beside it what follows it, the results, figures and requirements. The style floats both, each
 * below what stands in its own column already, and none above the text that it follows. Where there is no room for two columns, and where
 * the workings are shown, everything stands one below another in the same order.
 */
import { type Html, html, trusted } from "../text/html";

export interface Item {
  /**
   * What is `below` stands under a text (a line that opens to a table), what is `beside` may stand in the other column, what is `wide`
   * takes both.
   */
  readonly place: "text" | "below" | "beside" | "wide";
  readonly markup: Html;
  /** About how many lines of text it is high. */
  readonly lines: number;
  /** What needs half the width: figures and tables. */
  readonly isBroad?: boolean;
  /** A table: where it would be much longer than the text beside it, it takes both columns. */
  readonly mayBeWide?: boolean;
}

interface Group {
  readonly told: Item[];
  readonly beside: Item[];
}

/** Where the columns end, and where the last of each began; in lines from the top. */
interface Ends {
  readonly left: number;
  readonly right: number;
  readonly leftTop: number;
  readonly rightTop: number;
}

export function inRows(items: readonly Item[]): Html[] {
  const shown: Html[] = [];
  let groups: Group[] = [];
  let ends: Ends = { left: 0, right: 0, leftTop: 0, rightTop: 0 };
  const close = () => {
    if (groups.length > 0) shown.push(rowOf(groups));
    groups = [];
    ends = { left: 0, right: 0, leftTop: 0, rightTop: 0 };
  };
  for (let index = 0; index < items.length; ) {
    const end = endOfGroup(items, index);
    const group = items.slice(index, end);
    const told = group.filter(({ place }) => place === "text" || place === "below");
    const beside = group.slice(told.length);
    const upTo = beside.findIndex(
      (item) => item.place === "wide" || (item.mayBeWide === true && !fits(told, beside, item, items, end, ends)),
    );
    const own = upTo < 0 ? beside : beside.slice(0, upTo);
    if (told.length + own.length > 0) {
      // What would stand beside nothing begins anew, in the widths that suit it.
      if (ends.right <= ends.left) close();
      const placed = balanced(told, own, ends);
      groups.push(placed.group);
      ends = placed.ends;
    }
    if (upTo < 0) index = end;
    else {
      close();
      shown.push((beside[upTo] as Item).markup);
      index += told.length + upTo + 1;
    }
  }
  close();
  return shown;
}

/** A text with the lines below it, and all that stands beside both. */
function endOfGroup(items: readonly Item[], start: number): number {
  let end = start;
  if (items[end]?.place === "text") end++;
  while (items[end]?.place === "below") end++;
  while (items[end] !== undefined && items[end]?.place !== "text" && items[end]?.place !== "below") end++;
  return end;
}

/** Whether the text goes on beside a table for about as long as the table is. */
function fits(told: readonly Item[], beside: readonly Item[], table: Item, items: readonly Item[], end: number, ends: Ends): boolean {
  const before = beside.slice(0, beside.indexOf(table) + 1);
  if (before.length === 1 && told.length === 0 && ends.left === 0) return false;
  const later = items.slice(end);
  const next = later.findIndex(({ place }) => place === "beside" || place === "wide");
  const text = linesOf(next < 0 ? later : later.slice(0, next));
  const top = Math.max(ends.left, ends.rightTop);
  return Math.max(ends.right, top) + linesOf(before) <= top + linesOf(told) + text + 5;
}

/** So many of the first of what may stand beside the text stand below it that the columns become about as high. */
function balanced(told: readonly Item[], beside: readonly Item[], ends: Ends): { readonly group: Group; readonly ends: Ends } {
  const options = Array.from({ length: Math.max(1, beside.length) }, (_, count) => {
    const group = { told: [...told, ...beside.slice(0, count)], beside: beside.slice(count) };
    return { group, ends: after(group, ends), count };
  });
  const height = ({ ends: { left, right }, count, group }: (typeof options)[number]) =>
    Math.max(left, right) + 0.3 * count + (group.told.some(({ isBroad }) => isBroad === true) ? 4 : 0);
  return options.reduce((best, option) => (height(option) < height(best) ? option : best));
}

function after({ told, beside }: Group, { left, right, leftTop, rightTop }: Ends): Ends {
  const top = told.length > 0 ? Math.max(left, rightTop) : leftTop;
  const own = Math.max(right, top);
  return {
    left: told.length > 0 ? top + linesOf(told) : left,
    leftTop: top,
    right: beside.length > 0 ? own + linesOf(beside) : right,
    rightTop: beside.length > 0 ? own : rightTop,
  };
}

function rowOf(groups: readonly Group[]): Html {
  const isBroad = groups.some(({ told, beside }) => [...told, ...beside].some((item) => item.isBroad === true));
  const isPlain = groups.every(({ beside }) => beside.length === 0);
  const columns = groups.map(({ told, beside }) => html`${column("told", told)}${column("beside", beside)}`);
  return html`<div class="row${isPlain ? " plain" : isBroad && " broad"}">${columns}</div>`;
}

function column(name: "told" | "beside", items: readonly Item[]): Html | false {
  return items.length > 0 && html`<div class="${name}">${items.map(({ markup }) => markup)}</div>`;
}

function linesOf(items: readonly Item[]): number {
  return items.reduce((sum, { lines }) => sum + lines, 0);
}

/** A text section by section, each of which begins with its heading; the title of the sheet takes both columns. */
export function sectionsOf({ text }: Html): Item[] {
  return text
    .split(/(?=<h[2-6][ >])|(?<=<\/h2>)/)
    .filter((part) => part.trim() !== "")
    .map((part) => ({ place: part.startsWith("<h2") ? "wide" : "text", markup: trusted(part), lines: textLines(part) }));
}

/** About how many lines of the left column a text takes, with its headings and the space between paragraphs. */
function textLines(text: string): number {
  const blocks = text.match(/<(?:p|li|h[2-6])[ >][\s\S]*?<\/(?:p|li|h[2-6])>/g) ?? [];
  const letters = (markup: string) => markup.replace(/<annotation[\s\S]*?<\/annotation>|<[^>]*>/g, "").length;
  return blocks.reduce((sum, block) => sum + Math.ceil(letters(block) / 68) + (/^<h[2-6]/.test(block) ? 2 : 0.6), 0);
}
