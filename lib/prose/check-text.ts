/** The numbers in the text of a book's worksheets, held against the results in their outputs. */
import type { Book } from "../book/book";
import type { Notebook } from "../kernel/notebook";
import { endOf } from "../sheet/ends";
import { type BoundProblem, type BoundTargets, boundProblems } from "./bound";

export interface TextProblem extends BoundProblem {
  readonly sheet: string;
  /** Id of the Markdown cell. */
  readonly id: string;
}

/** Problems of every Markdown cell, in reading order. */
export function textProblems(book: Book, sheets: readonly { readonly name: string; readonly notebook: Notebook }[]): TextProblem[] {
  const targets = targetsOf(book);
  return sheets.flatMap(({ name, notebook }) =>
    notebook.cells
      .filter(({ cell_type }) => cell_type === "markdown")
      .flatMap(({ id, source }) => boundProblems(source, name, targets).map((problem) => ({ ...problem, sheet: name, id }))),
  );
}

function targetsOf({ graph, published, evaluation }: Book): BoundTargets {
  return {
    published,
    has: (id) => graph.has(id),
    result: (id, end) => {
      const { unit, dimension } = graph.get(id);
      return { nominal: end === undefined ? evaluation.nominal(id) : endOf(end, id, evaluation), unit, dimension };
    },
  };
}
