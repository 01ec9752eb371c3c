/**
 * What a change of the book has moved: the same lists and the same words in the page's bar and in `workings vary`.
 * Numbers are compared as they are shown, so that what no reader could see is not told.
 */

import type { VerdictWord } from "../../analysis/result";
import type { Changes } from "../../graph/graph";
import type { GraphNode, NodeId } from "../../graph/node";
import { entryOf } from "../../quantity/entry-of";
import type { Shown } from "../text/show";
import { tableText, turnGiven } from "./turn";

/** A number that a reader sees, as it was and as it is. */
export interface Seen {
  readonly shown: Shown;
  readonly before: string;
  readonly text: string;
}

/** One given, table or decision that was turned. */
export interface Turned {
  readonly kind: keyof Changes;
  readonly path: string;
  readonly node?: GraphNode;
  readonly before: string;
  readonly after: string;
  /** What became of a spread that the text does not state. */
  readonly note?: string;
}

interface Movement {
  readonly node: GraphNode;
  readonly before: string;
  readonly after: string;
}

/** A requirement whose verdict is another one. */
interface Flip {
  readonly id: string;
  readonly before: VerdictWord;
  readonly after: VerdictWord;
}

/** How the book stands after a change. */
export interface Standing {
  readonly verdicts: Readonly<Record<string, VerdictWord>>;
  /** By name of the decision, why its choice no longer stands. */
  readonly flags: Readonly<Record<string, readonly string[]>>;
  /** Assumptions that are not confirmed, in sentences. */
  readonly assumptions: readonly string[];
  /** Verdicts that rest on laws used outside their range, in sentences. */
  readonly outside: readonly string[];
  /** What cannot be computed, in sentences. */
  readonly problems: readonly string[];
}

export interface Moved extends Pick<Standing, "flags" | "assumptions" | "outside" | "problems"> {
  readonly turned: readonly Turned[];
  readonly movements: readonly Movement[];
  readonly flips: readonly Flip[];
}

/** Everything that moved. `original`: the verdicts before. */
export function whatMoved(
  changes: Changes,
  nodes: readonly GraphNode[],
  seen: readonly Seen[],
  now: Standing,
  original: Standing["verdicts"],
): Moved {
  return {
    turned: turned(changes, nodes),
    movements: movements(seen, new Map(nodes.map((node) => [node.id, node]))),
    flips: flips(now.verdicts, original),
    flags: now.flags,
    assumptions: now.assumptions,
    outside: now.outside,
    problems: now.problems,
  };
}

function turned(changes: Changes, nodes: readonly GraphNode[]): Turned[] {
  return (["givens", "tables", "choices"] as const).flatMap((kind) =>
    Object.keys(changes[kind] ?? {}).map((path) => {
      const node = nodes.find((candidate) => "path" in candidate && candidate.path === path);
      return { kind, path, ...(node && { node }), ...beforeAndAfter(path, node, changes) };
    }),
  );
}

function beforeAndAfter(
  path: string,
  node: GraphNode | undefined,
  { givens, tables, choices }: Changes,
): Pick<Turned, "before" | "after" | "note"> {
  if (node?.kind === "given") {
    const after = entryOf(givens, path)?.text ?? "";
    const { note } = turnGiven(node, after);
    return { before: node.text, after, ...(note !== undefined && { note }) };
  }
  if (node?.kind === "table") return { before: tableText(node, undefined), after: tableText(node, entryOf(tables, path)) };
  return { before: node?.kind === "choice" ? node.chosen : "", after: entryOf(choices, path) ?? "" };
}

const ranks = ["result", "figure", "nominal", "number"] as const satisfies readonly Shown["show"][];

/**
 * Computed numbers whose text differs, each node once: its value in the text with the most honest digits, and where it is
 * shown how far it spreads, that too: the first of interval, doubt and worst case that has moved, since a narrower tolerance or another
 * doubt moves nothing else.
 */
function movements(seen: readonly Seen[], nodes: ReadonlyMap<NodeId, GraphNode>): Movement[] {
  const byNode = grouped(seen);
  const valued = ranks.flatMap((kind) => seen.filter(({ shown }) => shown.show === kind).map(({ shown }) => shown.node));
  return [...new Set(valued)].flatMap((id) => {
    const node = nodes.get(id);
    if (node === undefined || node.kind === "given" || node.kind === "table") return [];
    const texts = byNode.get(id) ?? [];
    const of = (kinds: readonly Shown["show"][]) => kinds.flatMap((kind) => texts.find(({ shown }) => shown.show === kind) ?? []);
    const [value] = of(ranks) as [Seen];
    const spreads = of(["interval", "doubt", "worst", "bounds"]);
    const spread = spreads.find(isOther) ?? spreads[0];
    if (!isOther(value) && (spread === undefined || !isOther(spread))) return [];
    return [{ node, before: described(value, "before", spread), after: described(value, "text", spread) }];
  });
}

const isOther = ({ before, text }: Seen): boolean => before !== text;

const spreadWords: Partial<Record<Shown["show"], string>> = { interval: "95\u00a0%", doubt: "doubt" };

/** `91 Ω (95 %: 86 Ω to 96 Ω)`. */
function described({ shown, ...texts }: Seen, when: "before" | "text", spread: Seen | undefined): string {
  const bare = (shown.show === "figure" || shown.show === "number") && shown.unit !== "1";
  const value = bare && /\d/.test(texts[when]) ? `${texts[when]}\u00a0${shown.unit}` : texts[when];
  const ends = spread?.[when] ?? "no spread";
  if (ends === "no spread" || !/\d/.test(ends)) return value;
  const unit = spread?.shown.show === "bounds" && spread.shown.unit !== "1" ? `\u00a0${spread.shown.unit}` : "";
  return `${value} (${spreadWords[spread?.shown.show ?? "worst"] ?? "worst case"}: ${ends}${unit})`;
}

function flips(now: Standing["verdicts"], original: Standing["verdicts"]): Flip[] {
  return Object.entries(now).flatMap(([id, after]) => {
    const before = entryOf(original, id) ?? "not shown";
    return before === after ? [] : [{ id, before, after }];
  });
}

/** `2 changes; 14 numbers moved; 1 verdict flipped`: for the bar, the ear and the terminal. */
export function headline({ turned, movements, flips, flags, assumptions, outside, problems }: Moved): string {
  const doubted = Object.keys(flags).length;
  return [
    count(turned.length, "change"),
    `${count(movements.length, "number")} moved`,
    `${count(flips.length, "verdict")} flipped`,
    doubted > 0 ? `${count(doubted, "decision")} in doubt` : "",
    assumptions.length > 0 ? `${count(assumptions.length, "assumption")} not confirmed` : "",
    outside.length > 0 ? `${count(outside.length, "verdict")} outside the range of a law` : "",
    problems.length > 0 ? "some results cannot be computed" : "",
  ]
    .filter(Boolean)
    .join("; ");
}

function count(n: number, word: string): string {
  return `${n} ${word}${n === 1 ? "" : "s"}`;
}

function grouped(seen: readonly Seen[]): ReadonlyMap<NodeId, readonly Seen[]> {
  const groups = new Map<NodeId, Seen[]>();
  for (const one of seen) {
    const known = groups.get(one.shown.node);
    if (known) known.push(one);
    else groups.set(one.shown.node, [one]);
  }
  return groups;
}
