/** What to call the result of a choice, when the alternatives call theirs by different words. */

/** The words that all share, where they are most of them: `mass of the small cell` and `… large cell` are `mass of the cell`. Else undefined. */
export function sharedMeaning(meanings: readonly (string | undefined)[]): string | undefined {
  if (new Set(meanings).size === 1) return meanings[0];
  const [first = [], ...others] = meanings.map((meaning) => meaning?.split(" ") ?? []);
  const shared = withoutDangling(others.reduce(commonWords, first), first);
  const longest = Math.max(first.length, ...others.map((words) => words.length));
  return shared.length >= 3 && shared.length > longest / 2 ? shared.join(" ") : undefined;
}

/** The words with which all begin, to the last that can end a phrase: `width of the trace from …` and `… to …` are `width of the trace`. */
export function sharedBeginning(meanings: readonly (string | undefined)[]): string | undefined {
  if (new Set(meanings).size === 1) return meanings[0];
  const [first = [], ...others] = meanings.map((meaning) => meaning?.split(" ") ?? []);
  let count = 0;
  while (count < first.length && others.every((words) => words[count] === first[count])) count++;
  while (count > 0 && (prepositions.has(first[count - 1] as string) || articles.has(first[count - 1] as string))) count--;
  return count === 0 ? undefined : first.slice(0, count).join(" ");
}

const articles = new Set(["a", "an", "the", "its", "and", "or"]);
const prepositions = new Set(["as", "at", "by", "for", "from", "in", "of", "on", "to", "with"]);

/** `ripple of each rail in [burst mode,] peak to peak`: the preposition goes with what is left out. */
function withoutDangling(shared: readonly string[], whole: readonly string[]): readonly string[] {
  let at = -1;
  return shared.filter((word, index) => {
    at = whole.indexOf(word, at + 1);
    return whole[at + 1] === shared[index + 1] || !prepositions.has(word);
  });
}

/** Longest common subsequence. */
function commonWords(a: readonly string[], b: readonly string[]): readonly string[] {
  const [x, ...rest] = a;
  if (x === undefined || b.length === 0) return [];
  const at = b.indexOf(x);
  const without = commonWords(rest, b);
  if (at < 0) return without;
  const withIt = [x, ...commonWords(rest, b.slice(at + 1))];
  return withIt.length >= without.length ? withIt : without;
}
