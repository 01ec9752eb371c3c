/**
 * Power states of the product in the design file, by the name of what has them: a table of states against events (`power-states.ts`).
 * A table must be complete: whatever `examineStates` finds is an error at its line, an event that changes nothing too.
 */
import type { Node, YAMLMap } from "yaml";
import { WorkingsError } from "../quantity/error";
import { examineStates, type StateFinding } from "./examine-states";
import { Fields, mapOf, textOf } from "./fields";
import { isPathPart } from "./given";
import { type Entry, type LocatedFile, start } from "./locate";
import { type Cell, cellOf, impossible, type StateTable, stay } from "./power-states";
import type { StatesRow } from "./types";

export const statesKeys = ["start", "off", "events", "next", "note"] as const;

/** Where the rows, cells and events of one table stand. */
interface Places {
  readonly table: Node;
  readonly events: ReadonlyMap<string, number>;
  readonly rows: ReadonlyMap<string, number>;
  readonly cells: ReadonlyMap<string, number>;
}

/** One table; undefined after a report. */
export function readStates(file: LocatedFile, entry: Entry): StatesRow | undefined {
  const subject = `states of '${entry.key}'`;
  const map = isPathPart(file, entry) && mapOf(file, entry.value, subject, "keys start, off, events and next");
  if (!map) return undefined;
  const fields = new Fields(file, map, statesKeys, subject);
  const first = fields.requiredText("start", "write the state in which the product wakes up");
  const off = fields.requiredText("off", "write the state that all others must lead back to");
  const events = entriesAt(fields, "events", "an event and what it means on each line");
  const next = entriesAt(fields, "next", "a state on each line, and below it each event with the next state");
  const note = fields.text("note");
  if (first === undefined || off === undefined || events === undefined || next === undefined) return undefined;
  const meanings = events.flatMap(({ key, value }) => {
    const meaning = textOf(file, value, `meaning of the event '${key}'`);
    return meaning === undefined ? [] : [[key, meaning] as const];
  });
  const rows = next.map((row) => readRow(file, row));
  if (meanings.length < events.length || rows.some(({ isWhole }) => !isWhole)) return undefined;
  const table = {
    start: first,
    off,
    events: Object.fromEntries(meanings),
    next: Object.fromEntries(rows.map(({ state, cells }) => [state, cells])),
  };
  const places = {
    table: map,
    events: new Map(events.map(({ key, at }) => [key, at])),
    rows: new Map(next.map(({ key, at }) => [key, at])),
    cells: new Map(rows.flatMap(({ state, places }) => places.map(([event, at]) => [cellKey(state, event), at] as const))),
  };
  if (!isSound(file, table, places)) return undefined;
  return { id: entry.key, table, ...(note !== undefined && { note }), place: file.place(entry.at) };
}

interface Row {
  readonly state: string;
  readonly cells: Readonly<Record<string, Cell>>;
  readonly places: readonly (readonly [event: string, at: number])[];
  readonly isWhole: boolean;
}

function readRow(file: LocatedFile, { key: state, at, value }: Entry): Row {
  if (state === stay || state === impossible)
    file.report(at, `a state is called '${state}'`, "another name", "rename it: the word has a meaning of its own in a table of states");
  const row = mapOf(file, value, `the row of state '${state}'`, "an event and the next state on each line");
  const entries = row === undefined ? [] : file.entries(row);
  const cells = entries.flatMap(({ key: event, value: cell }) => {
    const read = readCell(file, cell, `state ${state}, event ${event}`);
    return read === undefined ? [] : [[event, read] as const];
  });
  return {
    state,
    cells: Object.fromEntries(cells),
    places: entries.map(({ key, at: place }) => [key, place]),
    isWhole: row !== undefined && cells.length === entries.length,
  };
}

function readCell(file: LocatedFile, node: Node, place: string): Cell | undefined {
  try {
    return cellOf(node.toJS(file.document), place);
  } catch (error) {
    if (!(error instanceof WorkingsError)) throw error;
    file.tell(start(node), error.message);
    return undefined;
  }
}

/** Whether nothing is to be said against the table; what is, is reported where it stands. */
function isSound(file: LocatedFile, table: StateTable, places: Places): boolean {
  try {
    const { findings } = examineStates(table);
    for (const finding of findings) file.tell(placeOf(finding, places), `${finding.sentence}${remedyOf(finding)}`);
    return findings.length === 0;
  } catch (error) {
    if (!(error instanceof WorkingsError)) throw error;
    file.tell(start(places.table), error.message);
    return false;
  }
}

/** Of a missing cell its row; of a state its row; of an event its meaning. */
function placeOf({ state, event }: StateFinding, { table, events, rows, cells }: Places): number {
  const cell = state !== undefined && event !== undefined ? cells.get(cellKey(state, event)) : undefined;
  const row = state === undefined ? events.get(event ?? "") : rows.get(state);
  return cell ?? row ?? start(table);
}

/** Sentences about cells say themselves what to do. */
function remedyOf({ state, event }: StateFinding): string {
  if (state === undefined) return "; let a state answer it, or take it out of events";
  return event === undefined ? "; add the event that does, or take the state out" : "";
}

const cellKey = (state: string, event: string): string => JSON.stringify([state, event]);

function entriesAt(fields: Fields, key: "events" | "next", example: string): readonly Entry[] | undefined {
  const node = fields.node(key);
  if (node === undefined) {
    fields.missing(key, `write ${example}`);
    return undefined;
  }
  const map: YAMLMap | undefined = mapOf(fields.file, node, `${key} of ${fields.subject}`, example);
  return map && fields.file.entries(map);
}
