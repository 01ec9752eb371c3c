/** A sheet's failure, as data and as the text an author reads. */
import type { CodeCell } from "./notebook";
import type { Failure, FailureKind } from "./protocol";

export interface SheetError {
  readonly kind: FailureKind;
  /** File name of the notebook. */
  readonly sheet: string;
  /** 1-based among all code cells; absent when no cell is to blame. */
  readonly cell?: number;
  readonly id?: string;
  /** Both 1-based, in the cell's own text. */
  readonly line?: number;
  readonly column?: number;
  /** The line with its number, the line before it, and a caret; or the first lines of the cell where no place is known. */
  readonly sourceLines: readonly string[];
  readonly message: string;
  /** What the cell printed before it failed. */
  readonly printed: string;
  /** Calls between cells, innermost first: `cell 2, line 5, column 3 in scale`. */
  readonly trace: readonly string[];
}

export function sheetError(sheet: string, failure: Failure, cells: readonly CodeCell[], printed: string): SheetError {
  const cell = failure.cell === undefined ? undefined : cells[failure.cell - 1];
  const lines = cell?.source.split("\n") ?? [];
  // A diagnostic may lie in what tslab appends to a cell; the end of the cell is then the nearest place.
  const line = failure.line === undefined || cell === undefined ? undefined : Math.min(failure.line, lines.length);
  const column = line === undefined ? undefined : line === failure.line ? failure.column : (lines.at(-1) ?? "").length + 1;
  return {
    kind: failure.kind,
    sheet,
    ...(cell && { cell: failure.cell as number, id: cell.id }),
    ...(line !== undefined && column !== undefined && { line, column }),
    sourceLines: frame(lines, line, column),
    message: failure.message,
    printed,
    trace:
      (failure.trace ?? []).length < 2
        ? []
        : (failure.trace ?? [])
            .slice(0, 10)
            .map((at) => `cell ${at.cell}, line ${at.line}, column ${at.column}${at.name ? ` in ${at.name}` : ""}`),
  };
}

/** The report: where, the source with a caret, the sentence, the calls that led there, what was printed so far. */
export function formatSheetError(error: SheetError): string {
  const where = [
    error.sheet,
    ...(error.cell === undefined ? [] : [`cell ${error.cell}${error.id === undefined ? "" : ` (id ${error.id})`}`]),
    ...(error.line === undefined ? [] : [`line ${error.line}:${error.column}`]),
  ].join(", ");
  const printed = error.printed.trimEnd();
  return [
    where,
    ...error.sourceLines,
    error.message,
    ...error.trace.map((call) => `  at ${call}`),
    ...(printed === "" ? [] : ["printed before it failed:", ...lastLines(printed, 20).map((line) => `  ${line}`)]),
  ].join("\n");
}

const shownWithoutPlace = 5;

function frame(lines: readonly string[], line: number | undefined, column: number | undefined): string[] {
  if (line === undefined || column === undefined) {
    const head = lines.slice(0, shownWithoutPlace).map((text, index) => numbered(text, index + 1));
    return lines.length > shownWithoutPlace ? [...head, `     | … ${lines.length - shownWithoutPlace} more lines`] : head;
  }
  const first = Math.max(1, line - 1);
  const shown = lines.slice(first - 1, line).map((text, index) => numbered(text, first + index));
  // Tabs are kept before the caret, so that it stands below its character at any tab width.
  const lead = (lines[line - 1] ?? "").slice(0, column - 1).replace(/[^\t]/g, " ");
  return [...shown, `     | ${lead}^`];
}

const numbered = (text: string, number: number) => `${String(number).padStart(4)} | ${text}`;

function lastLines(text: string, count: number): string[] {
  const lines = text.split("\n");
  const shown = lines.slice(-count).map((line) => (line.length > 160 ? `${line.slice(0, 159)}…` : line));
  return lines.length <= count ? shown : [`… ${lines.length - count} earlier lines`, ...shown];
}
