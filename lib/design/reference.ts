/**
 * Reference tables that any design may use: constants, preferred numbers, the luminosity function. A file holds
 * `entries` by name, or is itself one table. Every entry has a source, a year, and whether it is from memory.
 * Reading the files is the caller's: this floor sees their text.
 */
import { isScalar, isSeq, type Node } from "yaml";
import type { GivenNode, TableNode } from "../graph/node";
import { Fields, mapOf } from "./fields";
import { givenKeys, isPathPart, readCommon, readContent } from "./given";
import { end, LocatedFile, start } from "./locate";
import { readSources, sourceKey } from "./source";
import type { CslItem, ReferenceList, ReferenceTables } from "./types";

const entryKeys = [...givenKeys.filter((key) => key !== "reference"), "values", "year"];
const fileKeys = ["name", "title", "note", "sources", "entries"];

interface CollectedTables {
  readonly nodes: Map<string, GivenNode | TableNode>;
  readonly lists: Map<string, ReferenceList>;
  readonly sources: Map<string, CslItem>;
  readonly texts: Map<string, string>;
}

export const noReferences: ReferenceTables = { nodes: new Map(), lists: new Map(), sources: new Map(), texts: new Map() };

/**
 * Reads reference files given as `{ fileName: text }`. Throws one error that lists everything wrong in the first
 * faulty file, with line and column.
 */
export function readReferences(files: Readonly<Record<string, string>>): ReferenceTables {
  const found: CollectedTables = { nodes: new Map(), lists: new Map(), sources: new Map(), texts: new Map() };
  for (const [fileName, text] of Object.entries(files)) {
    const file = new LocatedFile(text, fileName);
    readFile(file, found);
    file.throwProblems();
  }
  return found;
}

function readFile(file: LocatedFile, found: CollectedTables): void {
  const isTable = file.entries(file.top).some(({ key }) => key === "table");
  const keys = isTable ? [...fileKeys.filter((key) => key !== "entries"), ...entryKeys] : fileKeys;
  const fields = new Fields(file, file.top, keys, "the reference file");
  const name = fields.requiredText("name", "write the name by which designs refer to it");
  if (name === undefined) return;
  const path = `reference.${name}`;
  const sources = readSources(file, fields.node("sources"));
  for (const [key, item] of sources) found.sources.set(`${path}.${key}`, { ...item, id: `${path}.${key}` });
  if (isTable) readEntry(fields, path, sources, found);
  else readEntries(fields, path, sources, found);
}

function readEntries(fields: Fields, path: string, sources: ReadonlyMap<string, CslItem>, found: CollectedTables): void {
  const { file } = fields;
  const entries = fields.node("entries");
  if (!entries) fields.missing("entries", "write entries by name, or a table");
  const map = entries && mapOf(file, entries, "entries", "one key for each entry");
  for (const entry of map ? file.entries(map) : []) {
    const leaf =
      isPathPart(file, entry) && mapOf(file, entry.value, `entry '${entry.key}'`, "keys value, meaning, source, year and memory");
    if (leaf) readEntry(new Fields(file, leaf, entryKeys, `entry '${entry.key}'`), `${path}.${entry.key}`, sources, found);
  }
}

function readEntry(fields: Fields, path: string, sources: ReadonlyMap<string, CslItem>, found: CollectedTables): void {
  const { file, map } = fields;
  const key = sourceKey(fields, sources);
  const year = readYear(fields);
  if (!fields.node("memory")) fields.missing("memory", "write true where the value was not looked up, else false");
  const source = key && `${path.split(".").slice(0, 2).join(".")}.${key}`;
  const common = readCommon(
    fields,
    { id: path, path },
    (content) => file.place(start(fields.node(content) ?? fields.node("values") ?? map)),
    source,
    year,
  );
  const values = fields.node("values");
  const content = values ? undefined : readContent(fields);
  if (common && content) found.nodes.set(path, { ...common, ...content } as GivenNode | TableNode);
  const numbers = values && readNumbers(fields, values);
  if (common && numbers)
    found.lists.set(path, {
      name: path,
      meaning: common.meaning,
      values: numbers,
      source: common.provenance.source,
      place: common.provenance.place ?? "",
    });
  found.texts.set(path, file.slice(start(map), end(map)));
}

function readYear(fields: Fields): string | undefined {
  const node = fields.node("year");
  if (!node) return void fields.missing("year", "write the year of the source's edition");
  if (isScalar(node) && typeof node.value === "number" && Number.isInteger(node.value)) return String(node.value);
  return void fields.file.report(node, `year of ${fields.subject} is no year`, "a whole number such as 2019", "write it without quotes");
}

function readNumbers(fields: Fields, node: Node): readonly number[] | undefined {
  if (!isSeq(node))
    return void fields.file.report(node, `values of ${fields.subject} is no list`, "a list of numbers", "write [10, 22, 47]");
  const numbers = (node.items as Node[]).map((item) => {
    if (isScalar(item) && typeof item.value === "number" && Number.isFinite(item.value)) return item.value;
    return void fields.file.report(item, `values of ${fields.subject} holds what is no number`, "a finite number", "write the bare number");
  });
  return numbers.every((x) => x !== undefined) ? numbers : undefined;
}
