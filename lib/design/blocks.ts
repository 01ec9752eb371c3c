/**
 * The blocks of the product: what it consists of, and how signal, power and return go between them. `signal` and `power` name the blocks
 * that a block gets them from, `return` the block that its current goes back through. `voltage`, `efficiency`, `loses` and `draws` name a
 * given, by its path, or a result, as sheet.name: what the block hands on, how well, what it turns into heat, and what it takes;
 * `shows` any other figure, for the diagram.
 */
import { isScalar, isSeq, type Node } from "yaml";
import { Fields, mapOf } from "./fields";
import { isPathPart, type ReadGiven } from "./given";
import type { Entry, LocatedFile } from "./locate";
import { nearest, suggestion } from "./nearest";
import type { BlockRow } from "./types";

export const blockKeys = ["name", "does", "signal", "power", "return", "voltage", "efficiency", "loses", "draws", "shows", "note"] as const;
const links = ["signal", "power", "return"] as const;
const figures = ["voltage", "efficiency", "loses", "draws", "shows"] as const;

interface Drawn {
  readonly row: BlockRow;
  readonly fields: Fields;
}

/** The blocks in the order of the file; what is wrong with one is reported, and it is left out. */
export function readBlocks(file: LocatedFile, entries: readonly Entry[], givens: ReadonlyMap<string, ReadGiven>): BlockRow[] {
  const drawn = entries.flatMap((entry) => readBlock(file, entry) ?? []);
  const ids = entries.map(({ key }) => key);
  for (const { row, fields } of drawn) {
    for (const key of links) reportUnknown(fields, key, row, ids);
    for (const key of figures) reportNoGiven(fields, key, row[key], givens);
  }
  reportLoops(drawn);
  reportBusyReturns(drawn);
  return drawn.map(({ row }) => row);
}

function readBlock(file: LocatedFile, entry: Entry): Drawn | undefined {
  const id = entry.key;
  const map = isPathPart(file, entry) && mapOf(file, entry.value, `block '${id}'`, "keys name, does and its connections");
  if (!map) return undefined;
  const fields = new Fields(file, map, blockKeys, `block '${id}'`);
  const name = fields.requiredText("name", "write what it is called");
  const does = fields.requiredText("does", "say in a few words what it does");
  if (name === undefined || does === undefined) return undefined;
  const [signal, power, back] = links.map((key) => namesOf(fields, key)) as [string[], string[], string[]];
  const optional = Object.fromEntries([...figures, "note" as const].flatMap((key) => (fields.node(key) ? [[key, fields.text(key)]] : [])));
  return { row: { id, name, does, signal, power, return: back, ...optional }, fields };
}

/** One name, or a list of them. */
function namesOf(fields: Fields, key: (typeof links)[number]): string[] {
  const node = fields.node(key);
  if (node === undefined) return [];
  const parts = isSeq(node) ? (node.items as Node[]) : [node];
  return parts.flatMap((part) => {
    if (isScalar(part) && typeof part.value === "string") return [part.value];
    fields.file.report(part, `${key} of ${fields.subject} is no name`, "the name of a block, or a list of them", "write [a, b]");
    return [];
  });
}

function reportUnknown(fields: Fields, key: (typeof links)[number], row: BlockRow, ids: readonly string[]): void {
  const node = fields.node(key);
  for (const name of row[key]) {
    if (name === row.id)
      fields.file.report(node ?? fields.map, `${fields.subject} has its ${key} from itself`, "another block", "take it out");
    else if (!ids.includes(name))
      fields.file.report(
        node ?? fields.map,
        `${key} of ${fields.subject} names no block: '${name}'`,
        "the name of a block",
        suggestion(nearest(name, ids, 1), "add that block"),
      );
  }
}

/** A name of two parts that is no given is a result's, which the design file cannot know. `givens.` and `sheets.` tell two of one name apart. */
function reportNoGiven(
  fields: Fields,
  key: (typeof figures)[number],
  path: string | undefined,
  givens: ReadonlyMap<string, ReadGiven>,
): void {
  if (path === undefined || givens.has(path.replace(/^givens\./, "")) || /^(?:sheets\.)?[^.\s]+\.[^.\s]+$/.test(path)) return;
  fields.file.report(
    fields.node(key) ?? fields.map,
    `${key} of ${fields.subject} names no given: '${path}'`,
    "the path of a given, or a result as sheet.name",
    suggestion(nearest(path, [...givens.keys()], 1), "write one of them"),
  );
}

/** A return is drawn apart from what signal and power go through. */
function reportBusyReturns(drawn: readonly Drawn[]): void {
  for (const { row, fields } of drawn) {
    const user = drawn.find((other) => other.row.return.includes(row.id));
    const feeds = drawn.some((other) => other.row.power.includes(row.id) || other.row.signal.includes(row.id));
    if (user === undefined || (row.signal.length === 0 && row.power.length === 0 && !feeds)) continue;
    fields.file.report(
      fields.map,
      `${fields.subject} is the return of '${user.row.id}' and has signal or power as well`,
      "a return of its own, such as a ground",
      "add a block for the return",
    );
  }
}

function reportLoops(drawn: readonly Drawn[]): void {
  const sources = new Map(drawn.map(({ row }) => [row.id, row.power]));
  for (const { row, fields } of drawn) {
    const seen = new Set<string>();
    const isFedBy = (id: string): boolean =>
      (sources.get(id) ?? []).some((source) => source === row.id || (!seen.has(source) && seen.add(source) && isFedBy(source)));
    if (!row.power.includes(row.id) && isFedBy(row.id))
      fields.file.report(
        fields.node("power") ?? fields.map,
        `${fields.subject} feeds itself through others`,
        "power that goes one way",
        "take out one of the connections",
      );
  }
}
