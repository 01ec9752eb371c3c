/** What turning givens, tables or decisions moves, for `workings vary`: the same evaluation and lists as in the live page. */
import type { Evaluation } from "../../analysis/evaluation";
import type { BookGraph } from "../../book/graph";
import { nearest } from "../../design/nearest";
import type { Design } from "../../design/types";
import type { Changes, GivenChange, TableChange } from "../../graph/graph";
import { spelledName } from "../../graph/identity";
import type { GraphNode, TableNode } from "../../graph/node";
import { WorkingsError } from "../../quantity/error";
import { assessDecision } from "../../sheet/decision";
import { nodeWords } from "../model/names";
import { shownNumbers } from "../model/shown-numbers";
import { computed, notComputed } from "../text/computed";
import { type Shown, showText } from "../text/show";
import { unconfirmed, unconfirmedText } from "./confirmation";
import { headline, type Moved, type Standing, whatMoved } from "./moved";
import { requirementVerdict, verdictProblems, verdictsOutside } from "./requirements";
import { scaleTable, turnGiven } from "./turn";

/** What `vary` says, as data for other programs. */
export interface Varied {
  readonly headline: string;
  readonly changes: readonly { readonly path: string; readonly before: string; readonly after: string; readonly note?: string }[];
  /** Numbers of the document whose text has changed, by published name where they have one. */
  readonly moved: readonly { readonly name: string; readonly meaning: string; readonly before: string; readonly after: string }[];
  readonly verdicts: readonly { readonly requirement: string; readonly before: string; readonly after: string }[];
  readonly flags: readonly string[];
  /** Assumptions that are not confirmed with the changes. */
  readonly assumptions: readonly string[];
  /** Verdicts that rest on laws used outside their range with the changes. */
  readonly outside: readonly string[];
  /** What cannot be computed with the changes. */
  readonly problems: readonly string[];
}

/**
 * `path=value` for each given or decision to change, `path=×0.95` for a table. Throws WorkingsError for an unknown path or a
 * text that is no value of it.
 */
export function vary(book: BookGraph, design: Pick<Design, "requirement">, assignments: readonly string[]): Varied {
  const turns = assignments.map((text) => turnOf(book, text));
  const changes: Changes = { givens: named(turns, "givens"), tables: named(turns, "tables"), choices: named(turns, "choices") };
  return told(movedBy(book, design, changes), turns, book);
}

/** Everything that changes move, as the page tells it. */
export function movedBy(book: BookGraph, design: Pick<Design, "requirement">, changes: Changes): Moved {
  const before = book.evaluation;
  const after = before.withChanges(changes);
  const problems = new Set<string>();
  const seen = shownNumbers(book.blocks, book.graph).map((shown) => ({
    shown,
    before: textOf(shown, before),
    text: textOf(shown, after, problems),
  }));
  for (const problem of verdictProblems(answered(book, design), { evaluation: after })) problems.add(problem);
  const now = { ...standing(book, design, after), problems: [...problems] };
  return whatMoved(changes, book.graph.nodes(), seen, now, standing(book, design, before).verdicts);
}

function standing(book: BookGraph, design: Pick<Design, "requirement">, evaluation: Evaluation): Omit<Standing, "problems"> {
  const verdicts = answered(book, design).map((requirement) => [requirement.id, requirementVerdict(requirement, { evaluation })] as const);
  const flags = book.decisions.flatMap((block) => {
    const { flags: found } = assessDecision(block, evaluation);
    return found.length > 0 ? [[block.name, found] as const] : [];
  });
  const assumptions = unconfirmed(book.blocks, { evaluation }).map((block) => unconfirmedText(block, { evaluation }));
  const outside = verdictsOutside(answered(book, design), { evaluation });
  return { verdicts: Object.fromEntries(verdicts), flags: Object.fromEntries(flags), assumptions, outside };
}

/** The requirements that sheets answer, with those answers. */
function answered(book: BookGraph, design: Pick<Design, "requirement">) {
  const ids = [...new Set(book.answers.map(({ requirement }) => requirement))];
  return ids.map((id) => ({
    ...design.requirement(id),
    answers: book.answers.filter(({ requirement }) => requirement === id).map(({ node }) => ({ node, sheet: "" })),
  }));
}

type Turn = { readonly path: string } & (
  | { readonly kind: "givens"; readonly change: GivenChange }
  | { readonly kind: "tables"; readonly change: TableChange | undefined }
  | { readonly kind: "choices"; readonly change: string }
);

function named<K extends Turn["kind"]>(turns: readonly Turn[], kind: K): NonNullable<Changes[K]> {
  const found = turns.flatMap((each) => (each.kind === kind && each.change !== undefined ? [[each.path, each.change] as const] : []));
  return Object.fromEntries(found) as NonNullable<Changes[K]>;
}

function turnOf({ graph }: BookGraph, assignment: string): Turn {
  const equals = assignment.indexOf("=");
  if (equals < 1)
    throw new WorkingsError(
      "usage",
      `"${assignment}" is no change; write path=value, as in "rails.logic.voltage=3.3 V ±2 %", or path=×0.95 for a table`,
    );
  const path = assignment.slice(0, equals).trim();
  const text = assignment.slice(equals + 1).trim();
  const node = graph.nodes().find((candidate) => "path" in candidate && candidate.path === path);
  switch (node?.kind) {
    case "given":
      return { path, kind: "givens", change: turnGiven(node, text).change };
    case "table":
      return { path, kind: "tables", change: scaled(node, text) };
    case "choice":
      return { path, kind: "choices", change: text };
    default:
      throw unknown(path, graph.nodes());
  }
}

function scaled(node: TableNode, text: string): TableChange | undefined {
  if (/^[×xX*]/.test(text)) return scaleTable(node, text);
  throw new WorkingsError(
    "usage",
    `${node.path} is a table; turn all its ordinates by a factor, as in "${node.path}=×0.95", or edit its rows in the design file or in the page`,
  );
}

function unknown(path: string, nodes: readonly GraphNode[]): WorkingsError {
  const near = nearest(path, [...new Set(nodes.flatMap((each) => ("path" in each ? [each.path] : [])))]);
  return new WorkingsError(
    "usage",
    `no sheet reads "${path}"; ${near.length > 0 ? `did you mean ${near.join(" or ")}?` : "see the register of givens in the document"}`,
  );
}

function told(moved: Moved, turns: readonly Turn[], { published }: BookGraph): Varied {
  const names = new Map([...published].map(([name, id]) => [id, name]));
  const order = turns.map(({ path }) => path);
  return {
    headline: headline(moved),
    changes: moved.turned
      .map(({ path, before, after, note }) => ({ path, before, after, ...(note === undefined ? {} : { note }) }))
      .toSorted((a, b) => order.indexOf(a.path) - order.indexOf(b.path)),
    moved: moved.movements.map(({ node, before, after }) => ({
      name: names.get(node.id) ?? spelledName(node.id),
      meaning: nodeWords(node),
      before,
      after,
    })),
    verdicts: moved.flips.map(({ id, before, after }) => ({ requirement: id, before, after })),
    flags: Object.entries(moved.flags).flatMap(([decision, texts]) => texts.map((text) => `${decision}: ${text}`)),
    assumptions: moved.assumptions,
    outside: moved.outside,
    problems: moved.problems,
  };
}

function textOf(shown: Shown, evaluation: Evaluation, problems: Set<string> = new Set()): string {
  const { value, why } = computed(() => showText(shown, evaluation));
  if (why !== undefined) problems.add(why);
  return value ?? notComputed;
}
