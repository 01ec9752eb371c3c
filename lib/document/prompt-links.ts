/** Links in a sheet's text that turn the document's page to another state: whether the book can follow them. */
import type { GraphNode } from "../graph/node";
import { readStateLink } from "./state-link";

/** The states that a Markdown text links to. */
export function stateLinksIn(markdown: string): string[] {
  return [...markdown.matchAll(/\]\((#with\?[^)\s]*)\)/g)].flatMap(([, target]) => target ?? []);
}

/** What the book does not have of the states that a text links to, in sentences. */
export function promptProblems(markdown: string, nodes: readonly GraphNode[]): string[] {
  return stateLinksIn(markdown).flatMap((target) => readStateLink(target, nodes).problems);
}
