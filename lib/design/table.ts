/**
 * A given made of rows: `columns: [forward voltage in V, forward current in mA]`, `interpolation: log-y`,
 * `rows: [[2.62, 0.05], …]`. The first column is the abscissa and increases strictly; cells are bare numbers in
 * the units of the column heads. Rows may stand in a CSV file beside the design file: `csv: curves/green.csv` (`csv-table.ts`).
 */
import { isScalar, isSeq, type Node, type YAMLSeq } from "yaml";
import type { TableNode } from "../graph/node";
import { WorkingsError } from "../quantity/error";
import { isBelowZero } from "../quantity/limits";
import { unitOf } from "../quantity/unit";
import { type CsvRow, readCsv } from "./csv-table";
import { Fields, mapOf, textOf } from "./fields";
import { type LocatedFile, start } from "./locate";
import { list, nearest, suggestion } from "./nearest";
import { faultOf, offsetOf } from "./value";

export type StatedTable = Pick<TableNode, "xName" | "yName" | "xDimension" | "xUnit" | "dimension" | "unit" | "x" | "y" | "interpolation">;

type Interpolation = TableNode["interpolation"];
export const interpolations: readonly Interpolation[] = ["linear", "log-y", "log-log", "monotone"];
export const tableKeys = ["columns", "interpolation", "rows", "csv"] as const;

type Columns = readonly [Column, Column];

interface Column {
  readonly name: string;
  readonly unit: ReturnType<typeof unitOf>;
}

/** The table at a node, or undefined after reports. */
export function statedTable(file: LocatedFile, node: Node, subject: string): StatedTable | undefined {
  const map = mapOf(file, node, `table of ${subject}`, "keys columns, interpolation and rows");
  if (!map) return undefined;
  const fields = new Fields(file, map, tableKeys, `the table of ${subject}`);
  const interpolation = readInterpolation(fields);
  const csv = fields.node("csv");
  const { columns, rows } = csv ? fromCsv(fields, csv, interpolation) : fromRows(fields, interpolation);
  if (!columns || !interpolation || !rows) return undefined;
  const [x, y] = columns;
  return {
    xName: x.name,
    xUnit: x.unit.symbol || "1",
    xDimension: x.unit.dimension.key,
    yName: y.name,
    unit: y.unit.symbol || "1",
    dimension: y.unit.dimension.key,
    x: rows.map(([cell]) => x.unit.toSI(cell)),
    y: rows.map(([, cell]) => y.unit.toSI(cell)),
    interpolation,
  };
}

interface Content {
  readonly columns?: readonly [Column, Column] | undefined;
  readonly rows?: readonly Row[] | undefined;
}

function fromRows(fields: Fields, interpolation: Interpolation | undefined): Content {
  const columns = readColumns(fields);
  return { columns, rows: readRows(fields, interpolation, columns) };
}

/** Columns as the design file says, else as the head row does; every fault is told with its line of the CSV file. */
function fromCsv(fields: Fields, node: Node, interpolation: Interpolation | undefined): Content {
  const { file, subject } = fields;
  if (fields.node("rows")) file.report(node, `${subject} has rows and csv`, "one of rows and csv", "keep one");
  const path = textOf(file, node, `csv of ${subject}`);
  const table = path === undefined ? undefined : readCsv(file, node, path, subject);
  if (table === undefined) return {};
  const columns = fields.node("columns") ? readColumns(fields) : headColumns(file, node, table.head);
  const rows = table.rows.map(({ cells, place }) => {
    const numbers = cells.map(Number);
    const bad = cells.find((cell, index) => cell.trim() === "" || !Number.isFinite(numbers[index]));
    if (bad !== undefined) file.report(node, `${place} holds '${bad}'`, "a finite number with a decimal point", "write the bare number");
    return bad === undefined ? ([numbers[0] as number, numbers[1] as number] as const) : undefined;
  });
  if (!rows.every((row) => row !== undefined)) return { columns };
  const faults = faultsOf(rows, interpolation, columns);
  for (const { index, what, expected, remedy } of faults) file.report(node, `${table.rows[index]?.place}: ${what}`, expected, remedy);
  return { columns, rows: faults.length === 0 ? rows : undefined };
}

function headColumns(file: LocatedFile, node: Node, head: CsvRow): readonly [Column, Column] | undefined {
  const [x, y] = head.cells.map((cell) => {
    const { name, unit } = splitHead(cell);
    try {
      return { name, unit: unitOf(unit) };
    } catch (error) {
      if (!(error instanceof WorkingsError)) throw error;
      file.report(
        node,
        `${head.place}: head '${cell}': ${faultOf(error)}`,
        "a name, the word in, and a unit",
        "mend the head row, or state columns here",
      );
      return undefined;
    }
  });
  return x && y ? [x, y] : undefined;
}

/** A name and the unit behind the last ` in `; without one it is dimensionless. */
export function splitHead(head: string): { readonly name: string; readonly unit: string; readonly at: number } {
  const split = head.lastIndexOf(" in ");
  return split < 0 ? { name: head, unit: "1", at: 0 } : { name: head.slice(0, split), unit: head.slice(split + 4).trim(), at: split + 4 };
}

function readColumns(fields: Fields): readonly [Column, Column] | undefined {
  const node = fields.node("columns");
  const example = "two column heads such as [forward voltage in V, forward current in mA]";
  if (!node) return void fields.missing("columns", `write ${example}`);
  if (!isSeq(node) || node.items.length !== 2)
    return void fields.file.report(
      node,
      `${fields.subject} has ${isSeq(node) ? node.items.length : "no list of"} columns`,
      example,
      "give the abscissa first, then the ordinate",
    );
  const [x, y] = (node.items as Node[]).map((head) => readColumn(fields.file, head, fields.subject));
  return x && y ? [x, y] : undefined;
}

/** `forward voltage in V`; a head without `in` is dimensionless. */
function readColumn(file: LocatedFile, node: Node, subject: string): Column | undefined {
  const head = textOf(file, node, `a column head of ${subject}`);
  if (head === undefined) return undefined;
  const { name, unit, at: split } = splitHead(head);
  try {
    return { name, unit: unitOf(unit) };
  } catch (error) {
    if (!(error instanceof WorkingsError)) throw error;
    const at = start(node) + Math.max(0, file.text.slice(start(node)).indexOf(head)) + split;
    file.report(
      at + offsetOf(error),
      `column '${head}' of ${subject}: ${faultOf(error)}`,
      "a name, the word in, and a unit",
      "mend the unit",
    );
    return undefined;
  }
}

function readInterpolation(fields: Fields): Interpolation | undefined {
  const text = fields.requiredText("interpolation", `write ${list(interpolations, "or")}`);
  const known = interpolations.find((name) => name === text);
  if (known || text === undefined) return known;
  fields.file.report(
    fields.node("interpolation") ?? fields.map,
    `unknown interpolation '${text}'`,
    list(interpolations, "or"),
    suggestion(nearest(text, interpolations, 1), "choose one of them"),
  );
  return undefined;
}

type Row = readonly [number, number];

function readRows(fields: Fields, interpolation: Interpolation | undefined, columns: Columns | undefined): readonly Row[] | undefined {
  const node = fields.node("rows");
  if (!node) return void fields.missing("rows", "write at least two rows [x, y]");
  if (!isSeq(node) || node.items.length < 2)
    return void fields.file.report(node, `${fields.subject} has fewer than two rows`, "a list of rows [x, y]", "add rows");
  const rows = (node.items as Node[]).map((row, index) => readRow(fields, row, index));
  if (!rows.every((row) => row !== undefined)) return undefined;
  return rowsAreSound(fields, node, faultsOf(rows, interpolation, columns)) ? rows : undefined;
}

function readRow(fields: Fields, node: Node, index: number): Row | undefined {
  if (!isSeq(node) || node.items.length !== 2) {
    const count = isSeq(node) ? `${node.items.length} cells` : "no cells";
    return void fields.file.report(
      node,
      `row ${index + 1} of ${fields.subject} has ${count}`,
      "2 cells, one for each column",
      "write [x, y]",
    );
  }
  const [x, y] = (node.items as Node[]).map((cell) => readCell(fields, cell, index));
  return x !== undefined && y !== undefined ? [x, y] : undefined;
}

function readCell(fields: Fields, node: Node, index: number): number | undefined {
  if (isScalar(node) && typeof node.value === "number" && Number.isFinite(node.value)) return node.value;
  const text = isScalar(node) ? (node.source ?? String(node.value)) : "a list";
  fields.file.report(
    node,
    `row ${index + 1} of ${fields.subject} holds '${text}'`,
    "a finite number in the unit of the column head",
    "write the bare number",
  );
  return undefined;
}

function rowsAreSound(fields: Fields, node: YAMLSeq, faults: readonly RowFault[]): boolean {
  for (const { index, column, what, expected, remedy } of faults) {
    const row = node.items[index] as YAMLSeq<Node>;
    fields.file.report(row.items[column] ?? row, `row ${index + 1} of ${fields.subject}: ${what}`, expected, remedy);
  }
  return faults.length === 0;
}

interface RowFault {
  readonly index: number;
  readonly column: 0 | 1;
  readonly what: string;
  readonly expected: string;
  readonly remedy: string;
}

/** Logarithms are taken of SI values: −40 dB is a ratio of 0.01, and has one. */
function faultsOf(rows: readonly Row[], interpolation: Interpolation | undefined, columns: Columns | undefined): RowFault[] {
  const faults: RowFault[] = [];
  const si = (column: 0 | 1, cell: number): number => columns?.[column].unit.toSI(cell) ?? cell;
  rows.forEach(([x, y], index) => {
    const before = rows[index - 1]?.[0];
    const fault = (column: 0 | 1, what: string, expected: string, remedy: string) => faults.push({ index, column, what, expected, remedy });
    for (const column of [0, 1] as const) {
      const cell = column === 0 ? x : y;
      if (columns?.[column].unit.dimension.key === "K|temperature" && isBelowZero(si(column, cell)))
        fault(
          column,
          `${cell} lies below absolute zero`,
          "a temperature from 0 K or −273.15 °C",
          "mend the number or the unit of its column",
        );
    }
    if (before !== undefined && x <= before)
      fault(0, `${x} follows ${before}`, "a first column that increases strictly", "sort the rows and delete doubles");
    if (interpolation === "log-log" && si(0, x) <= 0) fault(0, `${x} has no logarithm`, "x > 0 for log-log", "use linear or monotone");
    if (interpolation?.startsWith("log") && si(1, y) <= 0)
      fault(1, `${y} has no logarithm`, `y > 0 for ${interpolation}`, "use linear or monotone");
  });
  return faults;
}
