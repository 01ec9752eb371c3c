/** Links in a sheet's text that turn the document's page to another state: whether the book can follow them. */
import type { GraphNode } from "../../graph/node";
import { isStateLink } from "../../prose/links";
import { readStateLink } from "../live/state-link";

export interface PromptProblem {
  /** 1-based, in the text. */
  readonly line: number;
  readonly message: string;
}

/** What the book does not have of the states that a Markdown text links to. */
export function promptProblems(markdown: string, nodes: readonly GraphNode[]): PromptProblem[] {
  return markdown
    .split("\n")
    .flatMap((text, index) =>
      [...text.matchAll(/\]\(([^)\s]*)\)/g)]
        .flatMap(([, target = ""]) => (isStateLink(target) ? readStateLink(target, nodes).problems : []))
        .map((message) => ({ line: index + 1, message })),
    );
}
