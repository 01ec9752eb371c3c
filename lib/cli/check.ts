/** `workings check`: the verdict of every requirement, what the book says against itself, numbers in the text, quantities typed into cells. */
import type { Answered, Book } from "../book/book";
import { type Finding, findings } from "../book/findings";
import { candidates } from "../book/name";
import { type Remedy, remedies } from "../book/remedies";
import { type Answer, bookResults, type RequirementResult } from "../book/results";
import { nearest } from "../design/nearest";
import type { RequirementRow } from "../design/types";
import { missingPictures } from "../document/sheet/pictures";
import { promptProblems } from "../document/text/prompt-links";
import { type Literal, quantityLiterals } from "../kernel/literals";
import { readNotebook } from "../kernel/notebook";
import { type TextProblem, textProblems } from "../prose/check-text";
import { outsideText, smallMargin, smallMarginText } from "../sheet/words";
import { openBook, staleLines } from "./context";
import type { Streams } from "./streams";
import { type Command, exitCodes } from "./usage";
import { type Waiting, waitingFor } from "./waiting";

interface Judged {
  readonly requirement: string;
  /** "not judged": a sheet that answers it does not stand. */
  readonly verdict: RequirementResult["verdict"] | "not judged";
  readonly result?: RequirementResult;
  readonly row: RequirementRow;
  readonly remedies: readonly Remedy[];
  /** Sheets that answer it and do not stand. */
  readonly waits: readonly Waiting[];
}

export async function check({ options }: Command, streams: Streams): Promise<number> {
  const { file, book, sheets, untrusted } = openBook(options.book, "trusted");
  const results = new Map(Object.entries(bookResults(book).requirements));
  const waiting = untrusted.map(waitingFor);
  const judged = book.requirements.map((one): Judged => {
    const { row } = one;
    const result = results.get(row.id);
    const waits = waiting.filter((one) => one.mayAnswer(row.id));
    return {
      requirement: row.id,
      row,
      verdict: waits.length > 0 && result?.verdict !== "does not hold" ? "not judged" : (result?.verdict ?? "not shown"),
      remedies: remediesOf(one, result, book),
      waits,
      ...(result && { result }),
    };
  });
  const literals = file.worksheets.flatMap((worksheet) =>
    quantityLiterals(readNotebook(worksheet.path)).map((literal) => ({ sheet: worksheet.file, ...literal })),
  );
  const isFresh = book.stale.size === 0;
  const nodes = book.graph.nodes();
  const prompts = sheets.flatMap(({ worksheet, notebook }) =>
    notebook.cells.flatMap((cell) =>
      cell.cell_type === "markdown"
        ? promptProblems(cell.source, nodes).map((problem) => ({ sheet: worksheet.name, id: cell.id, ...problem }))
        : [],
    ),
  );
  // Text, decisions, assumptions and readings reach into any sheet: they are judged when all of them stand.
  const text = isFresh ? [...textProblems(book, sheets), ...prompts] : [];
  const missing = missingPictures(book).map((text): Finding => ({ weight: "wrong", text }));
  const found = [...missing, ...(isFresh ? [...findings(book), ...unknownFigures(book)] : [])];
  const wrong =
    !isFresh ||
    literals.length + text.length > 0 ||
    judged.some(({ verdict }) => verdict === "does not hold") ||
    found.some(({ weight }) => weight === "wrong");
  const open = judged.some(({ verdict }) => ["not shown", "not sure", "too close to call"].includes(verdict)) || found.length > 0;
  const ok = !wrong && !(options.strict && open);
  const { stale } = book;
  streams.out(
    options.json
      ? `${JSON.stringify({ ok, stale: Object.fromEntries(stale), requirements: judged.map(asData), findings: found, literals, text }, null, 1)}\n`
      : report({ judged, literals, text, found, book }),
  );
  return ok ? exitCodes.done : exitCodes.failed;
}

interface Found {
  readonly judged: readonly Judged[];
  readonly literals: readonly (Literal & { readonly sheet: string })[];
  readonly text: readonly TextProblem[];
  readonly found: readonly Finding[];
  readonly book: Book;
}

function remediesOf({ row, answers }: Answered, result: RequirementResult | undefined, { evaluation }: Book): Remedy[] {
  if (result?.verdict !== "does not hold") return [];
  const failing = answers.filter((_, index) => result.answers[index]?.verdict === "does not hold");
  return failing.flatMap(({ node }) => remedies(evaluation, { node, limit: row.limit, judged: row.judged }));
}

/** Figures of the product's blocks that neither the design file states nor a sheet computes. */
function unknownFigures(book: Book): Finding[] {
  const { graph, published, design } = book;
  const stated = new Set(design.paths());
  const known = [...published.keys(), ...graph.nodes().flatMap((node) => ("path" in node ? [node.path] : []))];
  return design.blocks.flatMap((block) =>
    (["voltage", "efficiency", "loses", "draws"] as const).flatMap((key): Finding[] => {
      const name = block[key];
      if (name === undefined || candidates(book, name).length > 0 || stated.has(name.replace(/^givens\./, ""))) return [];
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

function asData({ requirement, verdict, result, row, remedies: found, waits }: Judged): object {
  return {
    requirement,
    statement: row.statement,
    limit: row.text,
    place: row.place,
    ...result,
    verdict,
    ...(waits.length > 0 && { waitsFor: waits.map(({ sheet }) => sheet) }),
    ...(found.length > 0 && { remedies: found }),
  };
}

function report({ judged, literals, text, found, book }: Found): string {
  const width = Math.max(0, ...judged.map(({ requirement }) => requirement.length));
  const { stale } = book;
  return [
    ...(stale.size > 0 ? [staleLines(book).trimEnd()] : []),
    ...judged.flatMap((one) => [
      line(one, width),
      ...doubtLines(one, width),
      ...otherAnswers(one, width),
      ...one.remedies.map(({ text }) => `${" ".repeat(width + 2)}${text}`),
    ]),
    tally(judged),
    ...found.map((finding) => finding.text),
    ...literals.map(
      ({ sheet, cell, id, line: row, column, message }) => `${sheet}, cell ${cell} (id ${id}), line ${row}:${column}: ${message}`,
    ),
    ...text.map(({ sheet, id, line: row, message }) => `${sheet}, text (cell id ${id}), line ${row}: ${message}`),
    stale.size > 0
      ? "numbers and prompts in the text, decisions, assumptions and readings are judged when every sheet is fresh"
      : text.length === 0
        ? "every number bound to a result in the text is the computed one, every prompt can be followed"
        : `${text.length} ${text.length === 1 ? "number or prompt" : "numbers and prompts"} in the text not borne out by the book`,
    literals.length === 0
      ? "no quantity is typed into a cell"
      : `${literals.length} ${literals.length === 1 ? "quantity is" : "quantities are"} typed into cells`,
    "",
  ].join("\n");
}

/** `3 requirements: 1 holds, 2 do not hold, 0 not shown by any sheet`. */
function tally(judged: readonly Judged[]): string {
  const count = (...words: readonly string[]) => judged.filter(({ verdict }) => words.includes(verdict)).length;
  const [holding, failing] = [count("holds", "holds for 95 %"), count("does not hold")];
  const [notSure, close, notJudged] = [count("not sure"), count("too close to call"), count("not judged")];
  return `${judged.length} ${judged.length === 1 ? "requirement" : "requirements"}: ${[
    `${holding} ${holding === 1 ? "holds" : "hold"}`,
    `${failing} ${failing === 1 ? "does" : "do"} not hold`,
    ...(notSure > 0 ? [`${notSure} not sure`] : []),
    ...(close > 0 ? [`${close} too close to call`] : []),
    `${count("not shown")} not shown by any sheet`,
    ...(notJudged > 0 ? [`${notJudged} not judged: a sheet that answers ${notJudged === 1 ? "it" : "them"} is not fresh`] : []),
  ].join(", ")}`;
}

function line({ requirement, verdict, result, row, waits }: Judged, width: number): string {
  const known = result && verdict !== "not judged" ? figures(result, row, result.judged) : undefined;
  const words = verdict === "not judged" ? `${waitWords(waits)}; limit ${row.text}` : (known ?? row.statement);
  return `${requirement.padEnd(width)}  ${verdict.padEnd("holds for 95 %".length)}  ${words}`;
}

function waitWords(waits: readonly Waiting[]): string {
  const faults = waits.flatMap(({ fault }) => fault ?? []);
  return [`${waits.map(({ sheet }) => sheet).join(", ")} not fresh`, ...faults].join("; ");
}

function doubtLines({ result, verdict }: Judged, width: number): string[] {
  if (result === undefined || verdict === "not judged") return [];
  const { doubt, doubted, unit } = result;
  const known = doubted && [
    `best estimate ${measured(doubted.best, unit)}, met by ${percent(doubted.bestShare)} of units`,
    `with the doubt by ${percent(doubted.share)}`,
    `standard error ${measured(doubted.standardError, unit)}`,
  ];
  return [...(doubt === undefined ? [] : [doubt]), ...(known ? [known.join("; ")] : [])].map((text) => `${" ".repeat(width + 2)}${text}`);
}

const percent = (share: number) => `${Math.floor(1000 * share + 1e-9) / 10} %`;

/** Where several sheets answer, all of them are told; the first line is of the one that decides. */
function otherAnswers({ result, row, verdict }: Judged, width: number): string[] {
  if (result === undefined || result.answers.length < 2 || verdict === "not judged") return [];
  const indent = " ".repeat(width + 2);
  return result.answers.map(
    (answer) => `${indent}${answer.verdict.padEnd("holds for 95 %".length)}  ${figures(answer, row, result.judged)}`,
  );
}

function figures({ deciding, margin, unit, sheet, outside }: Answer, row: RequirementRow, judged: string): string {
  const words = [`${measured(deciding, unit)} (${judged})`, `limit ${row.text}`, `margin ${marginWords(margin, deciding, unit)}`, sheet];
  return [...words, outsideText({ outside })].filter((text) => text !== undefined).join(", ");
}

function marginWords(margin: number, deciding: number, unit: string): string {
  const small = smallMargin(margin, deciding);
  return small === undefined ? measured(margin, unit) : smallMarginText(small, margin, unit).replaceAll("\u00a0", " ");
}

const measured = (x: number, unit: string) => `${Number(x.toPrecision(4))}${unit === "1" ? "" : ` ${unit}`}`;
