/** Names with the ids of nodes in one line, `V_s givens.supply, I .I`. */
import { sameContent } from "../graph/serialise";

type Fields = Readonly<Record<string, unknown>>;

/** The pairs in a line, where it is no longer than that and can be read back; else as they are. */
export function pairsInLine(pairs: Fields, longest: number): string | Fields {
  const line = Object.entries(pairs)
    .map(([name, id]) => `${name} ${id}`)
    .join(", ");
  return line.length <= longest && sameContent(pairsOfLine(line), pairs) ? line : pairs;
}

export function pairsOfLine(line: string): Fields {
  if (line === "") return {};
  return Object.fromEntries(
    line.split(", ").map((pair) => [pair.slice(0, Math.max(0, pair.indexOf(" "))), pair.slice(pair.indexOf(" ") + 1)]),
  );
}
