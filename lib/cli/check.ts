/** `workings check`: the verdict of every requirement, what the book says against itself, numbers in the text, quantities typed into cells. */
import { type Finding, findings } from "../book/findings";
import type { BookGraph } from "../book/graph";
import { type Remedy, remedies } from "../book/remedies";
import { bookResults, type RequirementResult } from "../book/results";
import { nearest } from "../design/nearest";
import type { Design, RequirementRow } from "../design/types";
import { promptProblems } from "../document/text/prompt-links";
import { type Literal, quantityLiterals } from "../kernel/literals";
import { hasRun } from "../kernel/notebook";
import { type TextProblem, textProblems } from "../prose/check-text";
import { outsideText } from "../sheet/words";
import { openBook, openDesign, readSheets } from "./context";
import { graphOf } from "./keeping";
import { planRun } from "./plan";
import type { Streams } from "./streams";
import { type Command, exitCodes } from "./usage";

interface Judged {
  readonly requirement: string;
  readonly verdict: RequirementResult["verdict"];
  readonly result?: RequirementResult;
  readonly row: RequirementRow;
  readonly remedies: readonly Remedy[];
}

export async function check({ options }: Command, streams: Streams): Promise<number> {
  const book = openBook(options.book);
  const design = openDesign(book);
  const sheets = readSheets(book);
  const results = bookResults(book, sheets).requirements;
  const graph = graphOf(book, sheets);
  const judged = design.requirements().map((row): Judged => {
    const result = results[row.id];
    return {
      requirement: row.id,
      row,
      verdict: result?.verdict ?? "not shown",
      remedies: remediesOf(row, result, graph),
      ...(result && { result }),
    };
  });
  const literals = sheets.flatMap(({ worksheet, notebook }) =>
    quantityLiterals(notebook).map((literal) => ({ sheet: worksheet.file, ...literal })),
  );
  const stale = sheets.filter(({ notebook }) => !hasRun(notebook)).map(({ worksheet }) => worksheet.file);
  const plan = planRun(book, book.worksheets, false, design);
  const unknown = book.worksheets.filter(({ name }) => plan.reasonToSkip(name, new Set()) === undefined).map(({ name }) => name);
  const nodes = graph.graph.nodes();
  const prompts = sheets.flatMap(({ worksheet, notebook }) =>
    notebook.cells.flatMap((cell) =>
      cell.cell_type === "markdown"
        ? promptProblems(cell.source, nodes).map((problem) => ({ sheet: worksheet.name, id: cell.id, ...problem }))
        : [],
    ),
  );
  const text = [...textProblems(sheets), ...prompts];
  const found = [
    ...findings(
      sheets.map(({ notebook }) => notebook),
      design.readings,
      graph,
    ),
    ...unknownFigures(design, graph),
  ];
  const wrong =
    literals.length + text.length > 0 ||
    judged.some(({ verdict }) => verdict === "does not hold") ||
    found.some(({ weight }) => weight === "wrong");
  const open = unknown.length > 0 || judged.some(({ verdict }) => verdict === "not shown") || found.length > 0;
  const ok = !wrong && !(options.strict && open);
  streams.out(
    options.json
      ? `${JSON.stringify({ ok, requirements: judged.map(asData), findings: found, literals, text, notRun: stale, notFresh: unknown }, null, 1)}\n`
      : report({ judged, literals, text, stale, unknown, found }),
  );
  return ok ? exitCodes.done : exitCodes.failed;
}

interface Found {
  readonly judged: readonly Judged[];
  readonly literals: readonly (Literal & { readonly sheet: string })[];
  readonly text: readonly TextProblem[];
  readonly stale: readonly string[];
  readonly unknown: readonly string[];
  readonly found: readonly Finding[];
}

function remediesOf(row: RequirementRow, result: RequirementResult | undefined, book: BookGraph): Remedy[] {
  if (result?.verdict !== "does not hold") return [];
  return book.answers
    .filter(({ requirement }) => requirement === row.id)
    .flatMap(({ node }) => remedies(book.evaluation, { node, limit: row.limit, judged: row.judged }));
}

/** Figures of the product's blocks that neither the design file states nor a sheet computes. */
function unknownFigures(design: Pick<Design, "blocks" | "paths">, { graph, published }: BookGraph): Finding[] {
  const stated = new Set(design.paths());
  const known = [...published.keys(), ...graph.nodes().flatMap((node) => ("path" in node ? [node.path] : []))];
  return design.blocks.flatMap((block) =>
    (["voltage", "efficiency", "loses", "draws"] as const).flatMap((key): Finding[] => {
      const name = block[key];
      if (name === undefined || published.has(name) || graph.has(name) || stated.has(name)) return [];
      const [near] = nearest(name, known, 1);
      return [
        {
          weight: "open",
          text: `block ${block.id}: no sheet knows ${name}, its ${key}${near === undefined ? "" : `; did you mean ${near}?`}`,
        },
      ];
    }),
  );
}

function asData({ requirement, verdict, result, row, remedies: found }: Judged): object {
  return {
    requirement,
    statement: row.statement,
    limit: row.text,
    place: row.place,
    ...(result ?? { verdict }),
    ...(found.length > 0 && { remedies: found }),
  };
}

function report({ judged, literals, text, stale, unknown, found }: Found): string {
  const width = Math.max(0, ...judged.map(({ requirement }) => requirement.length));
  const count = (word: string) => judged.filter(({ verdict }) => verdict === word).length;
  return [
    ...judged.flatMap((one) => [line(one, width), ...one.remedies.map(({ text }) => `${" ".repeat(width + 2)}${text}`)]),
    `${judged.length} requirements: ${count("holds") + count("holds for 95 %")} hold, ${count("does not hold")} do not hold, ${count("not shown")} not shown by any sheet`,
    ...found.map((finding) => finding.text),
    ...(unknown.length > 0 ? [`not known to stand as they are: ${unknown.join(", ")}; workings run brings them up to date`] : []),
    ...stale.map((file) => `${file} has cells without outputs of a run: its requirements are not shown until workings run`),
    ...literals.map(
      ({ sheet, cell, id, line: row, column, message }) => `${sheet}, cell ${cell} (id ${id}), line ${row}:${column}: ${message}`,
    ),
    ...text.map(({ sheet, id, line: row, message }) => `${sheet}, text (cell id ${id}), line ${row}: ${message}`),
    text.length === 0
      ? "every number bound to a result in the text is the computed one, every prompt can be followed"
      : `${text.length} ${text.length === 1 ? "number or prompt" : "numbers and prompts"} in the text not borne out by the book`,
    literals.length === 0
      ? "no quantity is typed into a cell"
      : `${literals.length} ${literals.length === 1 ? "quantity is" : "quantities are"} typed into cells`,
    "",
  ].join("\n");
}

function line({ requirement, verdict, result, row }: Judged, width: number): string {
  const outside = result && outsideText(result);
  const figures =
    result &&
    `${measured(result.deciding, result.unit)} (${result.judged}), limit ${row.text}, margin ${measured(result.margin, result.unit)}, ${result.sheet}${outside === undefined ? "" : `, ${outside}`}`;
  return `${requirement.padEnd(width)}  ${verdict.padEnd("holds for 95 %".length)}  ${figures ?? row.statement}`;
}

const measured = (x: number, unit: string) => `${Number(x.toPrecision(4))}${unit === "1" ? "" : ` ${unit}`}`;
