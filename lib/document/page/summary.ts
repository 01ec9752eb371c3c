/** How the book stands after a change: verdicts, choices in doubt, assumptions, and the analyses of what the page shows. */
import type { Analysis } from "../../analysis/result";
import type { NodeId } from "../../graph/node";
import { assessDecision } from "../../sheet/decision";
import { unconfirmed, unconfirmedText } from "../live/confirmation";
import { requirementVerdict, verdictProblems, verdictsOutside } from "../live/requirements";
import type { View } from "../model/book-data";
import { computed } from "../text/computed";
import { madeFrom, type Shown } from "../text/show";
import { attempt } from "./attempt";
import type { Summary } from "./messages";

export function summary(state: View, shown: readonly Shown[]): Summary {
  const problems = new Set<string>();
  const found = attempt(() => standing(state, shown, problems), problems) ?? nothingFound;
  return { ...found, problems: [...problems] };
}

const nothingFound = { verdicts: {}, flags: {}, assumptions: [], outside: [], analyses: {} };

function standing(state: View, shown: readonly Shown[], problems: Set<string>): Omit<Summary, "problems"> {
  const { book, evaluation } = state;
  for (const text of verdictProblems(book.requirements, state)) problems.add(text);
  const verdicts = book.requirements.map((requirement) => [requirement.id, requirementVerdict(requirement, state)] as const);
  const blocks = Object.values(book.blocks);
  const flags = blocks.flatMap((block) => {
    const found = block.type === "decision" ? assessDecision(block, evaluation).flags : [];
    return block.type === "decision" && found.length > 0 ? [[block.name, found] as const] : [];
  });
  return {
    verdicts: Object.fromEntries(verdicts),
    flags: Object.fromEntries(flags),
    assumptions: unconfirmed(blocks, state).map((block) => unconfirmedText(block, state)),
    outside: verdictsOutside(book.requirements, state),
    analyses: analysesOf(shown, state),
  };
}

/** Of every result of which the page shows more than its nominal value. */
export function analysesOf(shown: readonly Shown[], { evaluation }: Pick<View, "evaluation">): Record<NodeId, Analysis> {
  const analyses: Record<NodeId, Analysis> = {};
  for (const { node, show } of shown) {
    if (madeFrom[show] === "value" || analyses[node]) continue;
    const analysis = computed(() => evaluation.analysis(node)).value;
    if (analysis) analyses[node] = analysis;
  }
  return analyses;
}
