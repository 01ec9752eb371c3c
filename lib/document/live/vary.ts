/** What turning givens, tables or decisions moves, for `workings vary`: the same evaluation and lists as in the live page. */
import type { Evaluation } from "../../analysis/evaluation";
import type { Book } from "../../book/book";
import type { Changes } from "../../graph/graph";
import { spelledName } from "../../graph/identity";
import { assessDecision } from "../../sheet/decision";
import { nodeWords } from "../model/names";
import { shownNumbers } from "../model/shown-numbers";
import { computed, notComputed } from "../text/computed";
import { type Shown, showText } from "../text/show";
import { changesOf, type OneChange, readAssignment } from "./change";
import { unconfirmed, unconfirmedText } from "./confirmation";
import { headline, type Moved, type Standing, whatMoved } from "./moved";
import { requirementVerdict, verdictProblems, verdictsOutside } from "./requirements";

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
export function vary(book: Book, assignments: readonly string[]): Varied {
  const nodes = book.graph.nodes();
  const turns = assignments.map((text) => readAssignment(text, nodes));
  const changes = changesOf(turns);
  return told(movedBy(book, changes), turns, book);
}

/** Everything that changes move, as the page tells it. */
export function movedBy(book: Book, changes: Changes): Moved {
  const before = book.evaluation;
  const after = before.withChanges(changes);
  const problems = new Set<string>();
  const seen = shownNumbers(Object.values(book.blocks), book.graph).map((shown) => ({
    shown,
    before: textOf(shown, before),
    text: textOf(shown, after, problems),
  }));
  for (const problem of verdictProblems(answered(book), { evaluation: after })) problems.add(problem);
  const now = { ...standing(book, after), problems: [...problems] };
  return whatMoved(changes, book.graph.nodes(), seen, now, standing(book, before).verdicts);
}

function standing(book: Book, evaluation: Evaluation): Omit<Standing, "problems"> {
  const verdicts = answered(book).map((requirement) => [requirement.id, requirementVerdict(requirement, { evaluation })] as const);
  const flags = book.decisions.flatMap((block) => {
    const { flags: found } = assessDecision(block, evaluation);
    return found.length > 0 ? [[block.name, found] as const] : [];
  });
  const assumptions = unconfirmed(Object.values(book.blocks), { evaluation }).map((block) => unconfirmedText(block, { evaluation }));
  const outside = verdictsOutside(answered(book), { evaluation });
  return { verdicts: Object.fromEntries(verdicts), flags: Object.fromEntries(flags), assumptions, outside };
}

/** The requirements that sheets answer, with those answers. */
function answered({ requirements }: Book) {
  return requirements.flatMap(({ row, answers }) => (answers.length === 0 ? [] : [{ ...row, answers }]));
}

function told(moved: Moved, turns: readonly OneChange[], { published }: Book): Varied {
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
