/** Tables of givens that differ in one thing only (eight materials, three colours), seen as one matrix. */

/** One table of givens: the symbol and the words of each of its rows. */
export interface GivenList {
  readonly rows: readonly { readonly symbol: string; readonly words: string }[];
}

/** Several lists of the same symbols side by side. */
export interface Matrix {
  /** What each list is about: "green", "red", "amber". */
  readonly labels: readonly string[];
  /** What each quantity is, the label left out: "forward voltage of the … LED". */
  readonly quantities: readonly string[];
}

/** The matrix of neighbouring lists; undefined where they are not lists of the same symbols, or no words tell them apart. */
export function matrixOf(lists: readonly GivenList[]): Matrix | undefined {
  const [first] = lists;
  if (!first || lists.length < 2 || lists.some((list) => !sameSymbols(list, first))) return undefined;
  const rows = first.rows.map((_, row) => lists.map((list) => list.rows[row]?.words ?? ""));
  const labels = commonest(rows.map(differing));
  return labels && { labels, quantities: rows.map((words) => quantityOf(words, labels)) };
}

/** How many of the lists from `start` on make one matrix: the longest run of the same symbols that has one; else 1. */
export function matrixLength(lists: readonly GivenList[], start: number): number {
  const first = lists[start];
  let end = start;
  while (first && lists[end] && sameSymbols(lists[end] as GivenList, first)) end++;
  return matrixOf(lists.slice(start, end)) ? end - start : 1;
}

function sameSymbols(a: GivenList, b: GivenList): boolean {
  return a.rows.length === b.rows.length && a.rows.every(({ symbol }, row) => symbol === b.rows[row]?.symbol);
}

/** The words in which texts differ, between those with which all begin and all end. */
function differing(texts: readonly string[]): readonly string[] | undefined {
  const words = texts.map((text) => text.split(" "));
  const shortest = Math.min(...words.map(({ length }) => length));
  const alike = (at: (own: readonly string[]) => string | undefined) => new Set(words.map(at)).size === 1;
  let head = 0;
  while (head < shortest && alike((own) => own[head])) head++;
  let tail = 0;
  while (tail < shortest - head && alike((own) => own.at(-1 - tail))) tail++;
  const middles = words.map((own) => own.slice(head, own.length - tail).join(" "));
  return head + tail > 0 && middles.every(Boolean) && new Set(middles).size === texts.length ? middles : undefined;
}

/** The labels on which more than half of the rows agree. */
function commonest(found: readonly (readonly string[] | undefined)[]): readonly string[] | undefined {
  const same = (a: readonly string[] | undefined, b: readonly string[] | undefined) => a?.join("\n") === b?.join("\n");
  return found.find((labels) => labels !== undefined && found.filter((other) => same(labels, other)).length * 2 > found.length);
}

function quantityOf(texts: readonly string[], labels: readonly string[]): string {
  const stems = texts.map((text, index) => {
    const label = labels[index] ?? "";
    return text.includes(label) ? text.replace(label, "…").replace(/ of …$/, "") : text;
  });
  return [...new Set(stems)].join(", or ");
}
