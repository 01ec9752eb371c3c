/**
 * Power states as data: a table of states against events whose cells name the next state. A cell is the name of a
 * state; `stay`, where the event changes nothing; `impossible`, where it cannot happen; or a list of branches, tried in
 * their order, whose last one has no condition. What the conditions say is not understood here: every branch counts as
 * possible. Left out: how long a state lasts, and two events at once.
 */
import { WorkingsError } from "../quantity/error";

/** One way out of a cell: the next state (or `stay`), and the condition under which it is taken. */
export interface Branch {
  readonly to: string;
  readonly if?: string;
}

/** The next state, `stay`, `impossible`, or branches. */
export type Cell = string | readonly Branch[];

/** States and events as an engineer writes them down. */
export interface StateTable {
  /** The state when power first comes. */
  readonly start: string;
  /** The state that every other must be able to return to. */
  readonly off: string;
  /** Meaning of each event, by its name. */
  readonly events: Readonly<Record<string, string>>;
  /** For each state, the cell of each event. */
  readonly next: Readonly<Record<string, Readonly<Record<string, Cell>>>>;
}

/** One arrow of the diagram. */
export interface Transition {
  readonly from: string;
  readonly event: string;
  readonly to: string;
  readonly if?: string;
}

export const stay = "stay";
export const impossible = "impossible";

type Fields = Readonly<Record<string, unknown>>;

/**
 * A table out of plain data, such as a part of a YAML file. Throws "design", naming state and event, for another shape
 * or an unknown key; whether the table is complete is for `examineStates`.
 */
export function stateTable(data: unknown): StateTable {
  const { start, off, events, next, ...rest } = fields(data, "a table of states");
  for (const key of Object.keys(rest)) throw fault(`a table of states has no key '${key}'; it has start, off, events and next`);
  const meanings = Object.entries(fields(events, "events")).map(([event, meaning]) => [event, word(meaning, `event ${event}`)]);
  const rows = Object.entries(fields(next, "next")).map(([state, row]) => [state, cellsOf(row, state)]);
  for (const [name] of rows) {
    if (name === stay || name === impossible) throw fault(`no state may be called '${name}'; the word has a meaning of its own`);
  }
  return {
    start: word(start, "start"),
    off: word(off, "off"),
    events: Object.fromEntries(meanings),
    next: Object.fromEntries(rows),
  };
}

/** Every arrow between different states; names of states that have no row are kept. */
export function transitionsOf({ next }: StateTable): readonly Transition[] {
  return Object.entries(next).flatMap(([from, row]) =>
    Object.entries(row).flatMap(([event, cell]) =>
      branchesOf(cell)
        .map((branch) => ({ ...branch, from, event }))
        .filter(({ to }) => to !== from && to !== stay && to !== impossible),
    ),
  );
}

/** A cell as branches; a single name is a branch without a condition. */
export function branchesOf(cell: Cell): readonly Branch[] {
  return typeof cell === "string" ? [{ to: cell }] : cell;
}

/** The cell of a state and an event; undefined where there is none. */
export function cellAt(table: StateTable, state: string, event: string): Cell | undefined {
  const row = Object.hasOwn(table.next, state) ? table.next[state] : undefined;
  return row !== undefined && Object.hasOwn(row, event) ? row[event] : undefined;
}

function cellsOf(row: unknown, state: string): Readonly<Record<string, Cell>> {
  const cells = Object.entries(fields(row, `the row of state ${state}`));
  return Object.fromEntries(cells.map(([event, cell]) => [event, cellOf(cell, `state ${state}, event ${event}`)]));
}

/** A cell out of plain data. Throws "design", naming the place, for another shape or an unknown key. */
export function cellOf(cell: unknown, place: string): Cell {
  if (!Array.isArray(cell)) return word(cell, place);
  if (cell.length === 0) throw fault(`${place}: the list is empty; name the next state, '${stay}' or '${impossible}'`);
  return cell.map((branch) => {
    const { to, if: condition, ...rest } = fields(branch, place);
    for (const key of Object.keys(rest)) throw fault(`${place}: a branch has no key '${key}'; it has 'to' and 'if'`);
    return condition === undefined ? { to: word(to, place) } : { to: word(to, place), if: word(condition, place) };
  });
}

function fields(data: unknown, place: string): Fields {
  if (typeof data === "object" && data !== null && !Array.isArray(data)) return data as Fields;
  throw fault(`${place}: expected names with values below it, found ${shown(data)}`);
}

function word(data: unknown, place: string): string {
  if (typeof data === "string" && data.trim() !== "") return data;
  throw fault(`${place}: expected a word or a sentence, found ${shown(data)}; a word such as 'off' or 'yes' may need quotes`);
}

function shown(data: unknown): string {
  if (data === undefined) return "nothing";
  return Array.isArray(data) ? "a list" : typeof data === "object" ? (data === null ? "nothing" : "names with values") : String(data);
}

function fault(message: string): WorkingsError {
  return new WorkingsError("design", message);
}
