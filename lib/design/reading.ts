/** What was measured: on a prototype, beside the result that it tests; on the units of a pilot batch, beside the given that says how they differ. */
import type { GivenNode } from "../graph/node";
import { WorkingsError } from "../quantity/error";
import type { Unit } from "../quantity/quantity";
import { unitOf } from "../quantity/unit";
import { readCsv } from "./csv-table";
import { Fields, mapOf } from "./fields";
import type { ReadGiven } from "./given";
import { type Entry, type LocatedFile, start } from "./locate";
import { nearest, suggestion } from "./nearest";
import { sourceKey } from "./source";
import { splitHead } from "./table";
import type { Batch, CslItem, Reading } from "./types";
import { faultOf, statedValue } from "./value";

export const readingKeys = ["result", "value", "evidence", "specimen", "source", "note"] as const;
export const batchKeys = ["given", "csv", "source", "note"] as const;

type Sources = ReadonlyMap<string, CslItem>;

/** Undefined after a report. */
export function readReading(file: LocatedFile, { key: id, value }: Entry, sources: Sources): Reading | undefined {
  const map = mapOf(file, value, `reading '${id}'`, "keys result, value and source");
  if (!map) return undefined;
  const fields = new Fields(file, map, readingKeys, `reading '${id}'`);
  const result = fields.requiredText("result", "write the result that it tests, as sheet.name");
  const node = fields.node("value");
  if (!node) fields.missing("value", "write what was measured, with its unit");
  const stated = node && statedValue(file, node, `value of reading '${id}'`);
  const evidence = fields.flag("evidence");
  const source = sourceKey(fields, sources);
  const [specimen, note] = [fields.text("specimen"), fields.text("note")];
  if (result === undefined || !stated || source === undefined) return undefined;
  const { text, nominal, spread, unit, dimension, at } = stated;
  return {
    id,
    result,
    text,
    nominal,
    spread,
    unit,
    dimension,
    source,
    ...(evidence === true && { evidence }),
    ...(specimen && { specimen }),
    ...(note && { note }),
    place: file.place(at),
  };
}

/** Fewer units have no deviation worth the name. */
const leastUnits = 5;

/** Undefined after a report. The CSV file has a head row, and for each unit its name and the value read. */
export function readBatch(
  file: LocatedFile,
  { key: id, value }: Entry,
  sources: Sources,
  givens: ReadonlyMap<string, ReadGiven>,
): Batch | undefined {
  const subject = `batch '${id}'`;
  const map = mapOf(file, value, subject, "keys given, csv and source");
  if (!map) return undefined;
  const fields = new Fields(file, map, batchKeys, subject);
  const path = fields.requiredText("given", "write the path of the given that says how units differ");
  const csv = fields.requiredText("csv", "write the name of the file with the readings, from the folder of this one");
  const source = sourceKey(fields, sources);
  const note = fields.text("note");
  const given = path === undefined ? undefined : givenAt(fields, path, givens);
  if (csv === undefined || given === undefined || source === undefined) return undefined;
  const values = valuesOf(fields, csv, given);
  if (values === undefined) return undefined;
  const place = file.place(start(map));
  return { id, given: given.path, values, csv, source, ...(note && { note }), place };
}

function givenAt(fields: Fields, path: string, givens: ReadonlyMap<string, ReadGiven>): GivenNode | undefined {
  const node = givens.get(path)?.node;
  if (node?.kind === "given") return node;
  const at = fields.node("given") ?? fields.map;
  const what = node === undefined ? `there is no given '${path}'` : `'${path}' is a table, of which no unit has one value`;
  const known = [...givens].flatMap(([key, one]) => (one.node.kind === "given" ? [key] : []));
  fields.file.report(at, `${fields.subject}: ${what}`, "the path of a given with one value", suggestion(nearest(path, known), "mend it"));
  return undefined;
}

/** SI, one a unit. */
function valuesOf(fields: Fields, csv: string, given: GivenNode): readonly number[] | undefined {
  const { file, subject } = fields;
  const node = fields.node("csv") ?? fields.map;
  const table = readCsv(file, node, csv, subject);
  if (table === undefined) return undefined;
  const unit = unitIn(fields, table.head.cells[1] ?? "", table.head.place, given);
  const bad = table.rows.find(({ cells }) => cells[1]?.trim() === "" || !Number.isFinite(Number(cells[1])));
  if (bad !== undefined)
    return void file.report(node, `${bad.place} holds '${bad.cells[1]}'`, "a finite number with a decimal point", "write the bare number");
  const names = table.rows.map(({ cells }) => cells[0] ?? "");
  const twice = table.rows.find(({ cells }, index) => names.indexOf(cells[0] ?? "") < index);
  if (twice !== undefined)
    return void file.report(
      node,
      `${twice.place}: the unit '${twice.cells[0]}' stands here for the second time`,
      "each unit once",
      "keep one of its readings",
    );
  if (table.rows.length < leastUnits)
    return void file.report(
      node,
      `${csv} has ${table.rows.length} units`,
      `at least ${leastUnits}`,
      "read more of them, or state a reading of a prototype",
    );
  return unit && table.rows.map(({ cells }) => unit.toSI(Number(cells[1])));
}

function unitIn({ file, subject, map: node }: Fields, head: string, place: string, given: GivenNode): Unit<any> | undefined {
  try {
    const unit = unitOf(splitHead(head).unit);
    if (unit.dimension.key === given.dimension) return unit;
    file.report(
      node,
      `${place}: ${subject} is of ${unit.dimension.label}, the given ${given.path} is in ${given.unit}`,
      "values of the given",
      "mend the head row, or name another given",
    );
  } catch (error) {
    if (!(error instanceof WorkingsError)) throw error;
    file.report(node, `${place}: head '${head}': ${faultOf(error)}`, "a name, the word in, and a unit", "mend the head row");
  }
  return undefined;
}
