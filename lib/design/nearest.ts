/**
 * Nearest names, for errors that offer the way out: restricted Damerau–Levenshtein distance (insert, delete,
 * substitute, swap neighbours), a dotted path compared whole. Names further away than a third of the
 * longer word are not offered: a wild guess misleads more than silence.
 */

/** Up to `count` of the candidates that are nearest to the word, nearest first; ties in alphabetical order. */
export function nearest(word: string, candidates: Iterable<string>, count = 3): readonly string[] {
  return [...new Set(candidates)]
    .map((name) => ({ name, steps: distance(word.toLowerCase(), name.toLowerCase()) }))
    .filter(({ name, steps }) => steps <= Math.max(1, Math.floor(Math.max(word.length, name.length) / 3)))
    .sort((a, b) => a.steps - b.steps || (a.name < b.name ? -1 : 1))
    .slice(0, count)
    .map(({ name }) => name);
}

/** How many single edits lead from a to b. */
export function distance(a: string, b: string): number {
  let before: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, j) => j);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) row.push(cheapest(a, b, i, j, before, last, row));
    before = last;
    last = row;
  }
  return last[b.length] ?? 0;
}

function cheapest(a: string, b: string, i: number, j: number, before: number[], last: number[], row: number[]): number {
  const same = a[i - 1] === b[j - 1];
  const single = Math.min(step(last, j) + 1, step(row, j - 1) + 1, step(last, j - 1) + (same ? 0 : 1));
  const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1];
  return swapped ? Math.min(single, step(before, j - 2) + 1) : single;
}

function step(row: readonly number[], j: number): number {
  return row[j] ?? Number.POSITIVE_INFINITY;
}

/** `did you mean 'forward' or 'current'?`, or the fallback where nothing is near. */
export function suggestion(names: readonly string[], otherwise: string): string {
  return names.length > 0 ? `did you mean ${list(names, "or")}?` : otherwise;
}

/** `'a', 'b' or 'c'`. */
export function list(names: readonly string[], conjunction: "and" | "or"): string {
  const quoted = names.map((name) => `'${name}'`);
  const last = quoted.pop() ?? "nothing";
  return quoted.length > 0 ? `${quoted.join(", ")} ${conjunction} ${last}` : last;
}
