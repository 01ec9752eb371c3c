/** Givens: nested mappings whose leaves hold a value, a table, or the name of a reference table. */
import { isMap, type Node, type YAMLMap } from "yaml";
import { givenId, reservedNames } from "../graph/identity";
import type { GivenNode, Provenance, TableNode } from "../graph/node";
import { Fields, textOf } from "./fields";
import { type Entry, end, type LocatedFile, start } from "./locate";
import { nearest, suggestion } from "./nearest";
import { sourceKey } from "./source";
import { kindKeys, readKinds, refuseKinds } from "./spread-kinds";
import { readStep } from "./step";
import { statedTable } from "./table";
import type { CslItem, ReferenceTables } from "./types";
import { statedValue } from "./value";

/** Keys of which a leaf has exactly one. */
const contentKeys = ["value", "table", "reference"] as const;
export const givenKeys = [...contentKeys, ...kindKeys, "meaning", "symbol", "source", "note", "memory", "step"] as const;

/** A given with what the file says of it word for word. */
export interface ReadGiven {
  readonly node: GivenNode | TableNode;
  readonly text: string;
}

export interface Surroundings {
  readonly file: LocatedFile;
  readonly sources: ReadonlyMap<string, CslItem>;
  readonly references: ReferenceTables;
}

const pathPart = /^\p{L}[\p{L}\p{N}_-]*$/u;

/** Walks the tree below `givens` and adds what it finds to `found`, keyed by dotted path. */
export function readGivens(around: Surroundings, map: YAMLMap, prefix: string, found: Map<string, ReadGiven>): void {
  for (const entry of around.file.entries(map)) {
    if (!isPathPart(around.file, entry) || (prefix === "" && isReserved(around.file, entry))) continue;
    const path = prefix === "" ? entry.key : `${prefix}.${entry.key}`;
    if (!isMap(entry.value)) reportBare(around.file, entry, path);
    else if (!isLeaf(around.file, entry.value)) readGivens(around, entry.value, path, found);
    else {
      const node = readLeaf(around, entry.value, path);
      const text = around.file.slice(start(entry.value), end(entry.value));
      if (node) found.set(path, { node, text: text + referenceText(around, entry.value) + csvText(around, entry.value) });
    }
  }
}

/** Whether a key can be part of a dotted path; reported where it cannot. */
export function isPathPart(file: LocatedFile, { key, at }: Entry): boolean {
  if (pathPart.test(key)) return true;
  file.report(
    at,
    `the name '${key}' cannot be part of a path`,
    "letters, digits, - and _, beginning with a letter",
    "rename it; write a.b as two levels",
  );
  return false;
}

function isReserved(file: LocatedFile, { key, at }: Entry): boolean {
  if (!reservedNames.includes(key)) return false;
  file.report(at, `the name '${key}' cannot begin a path: names of other things begin so`, "a name of your own", "rename it");
  return true;
}

function reportBare(file: LocatedFile, { key, value }: Entry, path: string): void {
  file.report(
    value,
    `the given '${path}' is a bare value`,
    "keys value, meaning and source",
    `write ${key}: with value:, meaning: and source: under it`,
  );
}

// Known by any of its keys, so that a given whose value is missing or misspelt is not taken for a group.
function isLeaf(file: LocatedFile, map: YAMLMap): boolean {
  return file.entries(map).some(({ key, value }) => {
    if (contentKeys.some((name) => name === key)) return true;
    return !isMap(value) && (givenKeys.some((name) => name === key) || nearest(key, contentKeys).length > 0);
  });
}

function readLeaf(around: Surroundings, map: YAMLMap, path: string): GivenNode | TableNode | undefined {
  const fields = new Fields(around.file, map, givenKeys, `given '${path}'`);
  const present = contentKeys.filter((key) => fields.node(key));
  if (present.length > 1)
    around.file.report(map, `given '${path}' has ${present.join(" and ")}`, "one of value, table and reference", "keep one");
  const reference = fields.node("reference");
  if (reference) refuseKinds(fields, "a reference brings its own spread", "state it in the reference file, or write the value here");
  if (reference && present.length === 1) return fromReference(around, fields, reference, path);
  const common = readCommon(
    fields,
    { id: givenId(path), path },
    (key) => around.file.place(start(fields.node(key) ?? map)),
    sourceKey(fields, around.sources),
  );
  const content = readContent(fields);
  const found = common && content && present.length === 1 ? ({ ...common, ...content } as GivenNode | TableNode) : undefined;
  return found && withStep(fields, found);
}

function withStep(fields: Fields, node: GivenNode | TableNode): GivenNode | TableNode {
  const step = readStep(fields, node);
  return step === undefined ? node : ({ ...node, step } as GivenNode);
}

/** The value or table of a leaf; undefined after reports. */
export function readContent(fields: Fields): Partial<GivenNode> | Partial<TableNode> | undefined {
  const { file, subject } = fields;
  const table = fields.node("table");
  if (table) {
    refuseKinds(fields, "a table has no spread", "multiply it by a given with a tolerance: deviation 1 ±5 %");
    const stated = statedTable(file, table, subject);
    return stated && { kind: "table", ...stated };
  }
  const value = fields.node("value");
  if (!value) return void fields.missing("value", "write it: a number with its unit, or a table");
  const stated = statedValue(file, value, `value of ${subject}`);
  if (!stated) return undefined;
  const kinds = readKinds(fields, stated);
  if (!kinds) return undefined;
  const { nominal, spread, unit, dimension } = stated;
  return { kind: "given", nominal, spread, unit, dimension, ...kinds };
}

/** Identity, meaning and provenance, for givens and reference rows alike. */
export function readCommon(
  fields: Fields,
  named: { readonly id: string; readonly path: string },
  place: (key: "value" | "table") => string,
  source: string | undefined,
  addition?: string,
) {
  const meaning = fields.requiredText("meaning", "say in words what it is");
  const symbol = fields.text("symbol");
  const note = [addition, fields.text("note")].filter((part) => part !== undefined).join("; ");
  const memory = fields.flag("memory");
  if (meaning === undefined || source === undefined) return undefined;
  const provenance: Provenance = {
    source,
    ...(note !== "" && { note }),
    ...(memory !== undefined && { fromMemory: memory }),
    place: place(fields.node("table") ? "table" : "value"),
  };
  return { ...named, meaning, ...(symbol && { symbol }), provenance };
}

// A given that names a reference has changed when the reference has.
function referenceText({ references }: Surroundings, map: YAMLMap): string {
  const text = references.texts.get(`reference.${String(map.get("reference"))}`);
  return text === undefined ? "" : `\n${text}`;
}

/** What a CSV file says belongs to the given that names it. */
function csvText({ file }: Surroundings, map: YAMLMap): string {
  const path = map.getIn(["table", "csv"]);
  const text = typeof path === "string" ? file.readBefore(path) : undefined;
  return text === undefined ? "" : `\n${text}`;
}

function fromReference(around: Surroundings, fields: Fields, node: Node, path: string): GivenNode | TableNode | undefined {
  const name = textOf(around.file, node, `reference of ${fields.subject}`);
  if (name === undefined) return undefined;
  const { nodes } = around.references;
  const found = nodes.get(`reference.${name}`);
  const names = [...nodes.keys()].map((key) => key.replace(/^reference\./, ""));
  if (!found)
    return void around.file.report(
      node,
      `unknown reference '${name}' of ${fields.subject}`,
      "the path of a reference table or row",
      suggestion(nearest(name, names), "look into data/reference"),
    );
  const meaning = fields.text("meaning") ?? found.meaning;
  const symbol = fields.text("symbol") ?? found.symbol;
  return withStep(fields, { ...found, id: givenId(path), path, ...(meaning && { meaning }), ...(symbol && { symbol }) });
}
