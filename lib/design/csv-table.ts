/**
 * Rows of a table given in a CSV file beside the design file (RFC 4180: commas, quotes, any line end; a decimal point). The head row says
 * what the columns are, `forward voltage in V`, unless the design file does. Lines that begin with # are remarks.
 */
import { CsvError, parse } from "csv-parse/sync";
import type { Node } from "yaml";
import type { LocatedFile } from "./locate";

/** A row, and where it stands in the CSV file. */
export interface CsvRow {
  readonly cells: readonly string[];
  /** `curves/green.csv:7`. */
  readonly place: string;
}

export interface CsvTable {
  readonly head: CsvRow;
  readonly rows: readonly CsvRow[];
}

/** The rows of the file that `node` names; undefined after reports, which stand at that node and name the line of the CSV file. */
export function readCsv(file: LocatedFile, node: Node, path: string, subject: string): CsvTable | undefined {
  const text = textOf(file, node, path, subject);
  if (text === undefined) return undefined;
  const records = recordsOf(file, node, path, text);
  if (records === undefined) return undefined;
  const [head, ...rows] = records;
  if (head?.cells.length === 1 && head.cells[0]?.includes(";"))
    return void file.report(
      node,
      `${head.place}: the columns are separated by semicolons`,
      "commas between columns and a point in numbers (RFC 4180)",
      "save it from the spreadsheet as comma-separated values",
    );
  const wrong = records.find(({ cells }) => cells.length !== 2);
  if (wrong !== undefined)
    return void file.report(
      node,
      `${wrong.place}: ${wrong.cells.length} ${wrong.cells.length === 1 ? "column" : "columns"}`,
      "two, the abscissa and the ordinate",
      "leave the others out",
    );
  if (head === undefined || rows.length < 2)
    return void file.report(node, `${path} has fewer than two rows`, "a head row and at least two rows", "add rows");
  return { head, rows };
}

function textOf(file: LocatedFile, node: Node, path: string, subject: string): string | undefined {
  try {
    return file.beside(path);
  } catch (error) {
    file.report(
      node,
      `cannot read ${path} for ${subject}: ${(error as Error).message}`,
      "a CSV file inside the project, its path from the folder of this file",
      "mend the path",
    );
    return undefined;
  }
}

function recordsOf(file: LocatedFile, node: Node, path: string, text: string): CsvRow[] | undefined {
  const options = {
    bom: true,
    comment: "#",
    comment_no_infix: true,
    info: true,
    relax_column_count: true,
    skip_empty_lines: true,
    trim: true,
  } as const;
  try {
    // Typed for one record a row; with `info` each comes with where it ended.
    // The reader counts a Windows line end within quotes twice.
    const records = parse(text.replaceAll("\r\n", "\n"), options) as unknown as readonly {
      readonly record: readonly string[];
      readonly info: { readonly lines: number };
    }[];
    return records.map(({ record, info }) => ({ cells: record, place: `${path}:${info.lines}` }));
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const line = typeof error.lines === "number" ? `:${error.lines}` : "";
    file.report(node, `${path}${line}: ${error.message}`, "comma-separated values (RFC 4180)", "mend the line");
    return undefined;
  }
}
