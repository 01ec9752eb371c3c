/**
 * A given made of rows: `columns: [forward voltage in V, forward current in mA]`, `interpolation: log-y`,
 * `rows: [[2.62, 0.05], …]`. The first column is the abscissa and increases strictly; cells are bare numbers in
 * the units of the column heads.
 */
import { isScalar, isSeq, type Node, type YAMLSeq } from "yaml";
import type { TableNode } from "../graph/node";
import { WorkingsError } from "../quantity/error";
import { unitOf } from "../quantity/unit";
import { Fields, mapOf, textOf } from "./fields";
import { type LocatedFile, start } from "./locate";
import { list, nearest, suggestion } from "./nearest";
import { faultOf, offsetOf } from "./value";

export type StatedTable = Pick<TableNode, "xName" | "yName" | "xDimension" | "xUnit" | "dimension" | "unit" | "x" | "y" | "interpolation">;

type Interpolation = TableNode["interpolation"];
export const interpolations: readonly Interpolation[] = ["linear", "log-y", "log-log", "monotone"];
export const tableKeys = ["columns", "interpolation", "rows"] as const;

interface Column {
  readonly name: string;
  readonly unit: ReturnType<typeof unitOf>;
}

/** The table at a node, or undefined after reports. */
export function statedTable(file: LocatedFile, node: Node, subject: string): StatedTable | undefined {
  const map = mapOf(file, node, `table of ${subject}`, "keys columns, interpolation and rows");
  if (!map) return undefined;
  const fields = new Fields(file, map, tableKeys, `the table of ${subject}`);
  const columns = readColumns(fields);
  const interpolation = readInterpolation(fields);
  const rows = readRows(fields, interpolation, columns);
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
  const split = head.lastIndexOf(" in ");
  const name = split < 0 ? head : head.slice(0, split);
  const unit = split < 0 ? "1" : head.slice(split + 4).trim();
  try {
    return { name, unit: unitOf(unit) };
  } catch (error) {
    if (!(error instanceof WorkingsError)) throw error;
    const at = start(node) + Math.max(0, file.text.slice(start(node)).indexOf(head)) + (split < 0 ? 0 : split + 4);
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

function readRows(
  fields: Fields,
  interpolation: Interpolation | undefined,
  columns: readonly [Column, Column] | undefined,
): readonly Row[] | undefined {
  const node = fields.node("rows");
  if (!node) return void fields.missing("rows", "write at least two rows [x, y]");
  if (!isSeq(node) || node.items.length < 2)
    return void fields.file.report(node, `${fields.subject} has fewer than two rows`, "a list of rows [x, y]", "add rows");
  const rows = (node.items as Node[]).map((row, index) => readRow(fields, row, index));
  if (!rows.every((row) => row !== undefined)) return undefined;
  return rowsAreSound(fields, node, rows, interpolation, columns) ? rows : undefined;
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

/** Logarithms are taken of SI values: −40 dB is a ratio of 0.01, and has one. */
function rowsAreSound(
  fields: Fields,
  node: YAMLSeq,
  rows: readonly Row[],
  interpolation: Interpolation | undefined,
  columns: readonly [Column, Column] | undefined,
): boolean {
  let sound = true;
  const si = (column: 0 | 1, cell: number): number => columns?.[column].unit.toSI(cell) ?? cell;
  const report = (index: number, column: 0 | 1, what: string, expected: string, remedy: string) => {
    sound = false;
    const row = node.items[index] as YAMLSeq<Node>;
    fields.file.report(row.items[column] ?? row, `row ${index + 1} of ${fields.subject}: ${what}`, expected, remedy);
  };
  rows.forEach(([x, y], index) => {
    const before = rows[index - 1]?.[0];
    if (before !== undefined && x <= before)
      report(index, 0, `${x} follows ${before}`, "a first column that increases strictly", "sort the rows and delete doubles");
    if (interpolation === "log-log" && si(0, x) <= 0)
      report(index, 0, `${x} has no logarithm`, "x > 0 for log-log", "use linear or monotone");
    if (interpolation?.startsWith("log") && si(1, y) <= 0)
      report(index, 1, `${y} has no logarithm`, `y > 0 for ${interpolation}`, "use linear or monotone");
  });
  return sound;
}
