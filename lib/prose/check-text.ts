/** The numbers in the text of a book's worksheets, held against the results in their outputs. */
import { Evaluation } from "../analysis/evaluation";
import { displaysOf } from "../book/displays";
import { Graph } from "../graph/graph";
import type { NodeId } from "../graph/node";
import type { Notebook } from "../kernel/notebook";
import { type BoundProblem, type BoundTargets, boundProblems } from "./bound";

export interface TextProblem extends BoundProblem {
  readonly sheet: string;
  /** Id of the Markdown cell. */
  readonly id: string;
}

/** Problems of every Markdown cell, in reading order. */
export function textProblems(sheets: readonly { readonly name: string; readonly notebook: Notebook }[]): TextProblem[] {
  const targets = targetsOf(sheets);
  return sheets.flatMap(({ name, notebook }) =>
    notebook.cells
      .filter(({ cell_type }) => cell_type === "markdown")
      .flatMap(({ id, source }) => boundProblems(source, name, targets).map((problem) => ({ ...problem, sheet: name, id }))),
  );
}

function targetsOf(sheets: readonly { readonly name: string; readonly notebook: Notebook }[]): BoundTargets {
  const displays = sheets.flatMap(({ notebook }) => displaysOf(notebook));
  const graph = Graph.from(displays.flatMap(({ nodes }) => nodes));
  const evaluation = new Evaluation(graph);
  const published = new Map<string, NodeId>();
  for (const { block, sheet } of displays) {
    if (block.type !== "publish") continue;
    for (const [name, id] of Object.entries(block.names)) published.set(`${sheet}.${name}`, id);
  }
  return {
    published,
    has: (id) => graph.has(id),
    result: (id) => {
      const { unit, dimension } = graph.get(id);
      return { nominal: evaluation.nominal(id), unit, dimension };
    },
  };
}
