/** What a change of givens or decisions moves: the same edit, graph and evaluation as the live page. */
import type { Evaluation } from "../analysis/evaluation";
import type { VerdictWord } from "../analysis/result";
import type { BookGraph } from "../book/graph";
import { nearest } from "../design/nearest";
import type { Design } from "../design/types";
import type { Changes, GivenChange, TableChange } from "../graph/graph";
import type { GivenNode, NodeId, TableNode } from "../graph/node";
import { unitOfNode } from "../graph/node-unit";
import { WorkingsError } from "../quantity/error";
import { assessDecision } from "../sheet/decision";
import { intervalText, nominalText } from "../sheet/words";
import { editGiven, scaleTable, tableWords } from "./edit";

export interface Varied {
  readonly changes: readonly { readonly path: string; readonly before: string; readonly after: string; readonly note?: string }[];
  /** Published results whose text has changed. */
  readonly moved: readonly { readonly name: string; readonly meaning: string; readonly before: string; readonly after: string }[];
  readonly verdicts: readonly { readonly requirement: string; readonly before: VerdictWord; readonly after: VerdictWord }[];
  readonly flags: readonly string[];
}

/** `path=value` for each given or decision to change. Throws WorkingsError for an unknown path or a text that is no value of it. */
export function vary(book: BookGraph, design: Pick<Design, "requirement">, assignments: readonly string[]): Varied {
  const edits = assignments.map((text) => edit(book, text));
  const changes: Changes = {
    givens: Object.fromEntries(edits.flatMap(({ path, given }) => (given === undefined ? [] : [[path, given]]))),
    tables: Object.fromEntries(edits.flatMap(({ path, table }) => (table === undefined ? [] : [[path, table]]))),
    choices: Object.fromEntries(edits.flatMap(({ path, choice }) => (choice === undefined ? [] : [[path, choice]]))),
  };
  const before = book.evaluation;
  const after = before.withChanges(changes);
  return {
    changes: edits.map(({ path, was, now, note }) => ({ path, before: was, after: now, ...(note === undefined ? {} : { note }) })),
    moved: [...book.published].flatMap(([name, id]) => movement(name, id, before, after)),
    verdicts: book.answers.flatMap(({ requirement, node }) => {
      const { limit, judged } = design.requirement(requirement);
      const [was, is] = [before, after].map((evaluation) => verdictWord(() => evaluation.verdict(node, limit, judged).verdict));
      return was === is || was === undefined || is === undefined ? [] : [{ requirement, before: was, after: is }];
    }),
    flags: book.decisions.flatMap((block) => assessDecision(block, after).flags),
  };
}

interface OneEdit {
  readonly path: string;
  readonly was: string;
  readonly now: string;
  readonly note?: string;
  readonly given?: GivenChange;
  readonly table?: TableChange;
  readonly choice?: string;
}

function edit({ graph }: BookGraph, assignment: string): OneEdit {
  const equals = assignment.indexOf("=");
  if (equals < 1)
    throw new WorkingsError(
      "usage",
      `"${assignment}" is no change; write path=value, as in "rails.logic.voltage=3.3 V ±2 %", or path=×0.95 for a table`,
    );
  const path = assignment.slice(0, equals).trim();
  const text = assignment.slice(equals + 1).trim();
  const node = graph.nodes().find((candidate) => "path" in candidate && candidate.path === path);
  if (node === undefined || !("path" in node))
    throw unknown(
      path,
      graph.nodes().flatMap((each) => ("path" in each ? [each.path] : [])),
    );
  if (node.kind === "table") return tableEdit(node, text);
  if (node.kind === "choice") return { path, was: node.chosen, now: text, choice: text };
  return givenEdit(node, text);
}

function givenEdit(node: GivenNode, text: string): OneEdit {
  const { change, note } = editGiven(node, text);
  return { path: node.path, was: node.text, now: change.text, given: change, ...(note === undefined ? {} : { note }) };
}

function tableEdit(node: TableNode, text: string): OneEdit {
  const table = scaleTable(node, text);
  return {
    path: node.path,
    was: `${node.yName} of ${node.y.length} rows`,
    now: table === undefined ? "×1" : tableWords(table),
    ...(table && { table }),
  };
}

function unknown(path: string, paths: readonly string[]): WorkingsError {
  const near = nearest(path, [...new Set(paths)]);
  return new WorkingsError(
    "usage",
    `no sheet reads "${path}"; ${near.length > 0 ? `did you mean ${near.join(" or ")}?` : "see the register of givens in the document"}`,
  );
}

function movement(name: string, id: NodeId, before: Evaluation, after: Evaluation): Varied["moved"] {
  const node = before.graph.get(id);
  if (node.kind === "table" || node.kind === "sweep") return [];
  const [was, is] = [before, after].map((evaluation) => valueText(() => figure(evaluation, id)));
  return was === is || was === undefined || is === undefined ? [] : [{ name, meaning: node.meaning ?? "", before: was, after: is }];
}

/** Nominal and 95 % interval: a narrower tolerance moves something too. */
function figure(evaluation: Evaluation, id: NodeId): string {
  const unit = unitOfNode(evaluation.graph.get(id));
  const analysis = evaluation.analysis(id);
  const interval = intervalText(analysis, unit);
  return interval === "" ? nominalText(analysis, unit) : `${nominalText(analysis, unit)} (95 %: ${interval})`;
}

function valueText(text: () => string): string {
  return attempt(text) ?? "cannot be computed";
}

/** A verdict that cannot be computed is one that nothing shows. */
function verdictWord(word: () => VerdictWord): VerdictWord {
  return attempt(word) ?? "not shown";
}

function attempt<T>(compute: () => T): T | undefined {
  try {
    return compute();
  } catch (error) {
    if (error instanceof WorkingsError) return undefined;
    throw error;
  }
}
