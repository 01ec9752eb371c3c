/**
 * What a table of power states leaves open: cells without an answer, cells with two, states that nothing leads to, and
 * states that nothing leads out of or back to off. Reachability is a breadth-first search over all branches.
 */
import { WorkingsError } from "../quantity/error";
import { branchesOf, cellAt, impossible, type StateTable, stay, type Transition, transitionsOf } from "./power-states";

/** A cell of the table, and what is wrong with it. */
export interface CellFinding {
  readonly state: string;
  readonly event: string;
  readonly sentence: string;
}

/** What is wrong with a cell, with a state, or with an event. */
export type StateFinding = Pick<CellFinding, "sentence"> & Partial<CellFinding>;

/** What the examination of a table found. Lists are in the table's own order. */
export interface StateReport {
  readonly states: readonly string[];
  readonly events: readonly string[];
  /** Pairs of state and event, and how many of them have an answer. */
  readonly pairs: number;
  readonly defined: number;
  /** Pairs without an answer. */
  readonly missing: readonly CellFinding[];
  /** Cells in which it is open which branch is taken: two without a condition, or none. */
  readonly ambiguous: readonly CellFinding[];
  /** Cells that name a state or an event that the table does not have. */
  readonly unknown: readonly CellFinding[];
  /** Events of the shortest way from the start to each state that can be reached. */
  readonly ways: Readonly<Record<string, readonly string[]>>;
  /** States to which no way leads from the start. */
  readonly unreachable: readonly string[];
  /** Reachable states that no event leaves; off and start too, if nothing leaves them. */
  readonly dead: readonly string[];
  /** Reachable states from which no way leads to off. */
  readonly withoutReturn: readonly string[];
  /** Events that change nothing in any state. */
  readonly idle: readonly string[];
  /** True where every list of faults is empty (`idle` is no fault). */
  readonly holds: boolean;
  /** All of these, each where it belongs. */
  readonly findings: readonly StateFinding[];
  /** One sentence for each finding; where there are none, one that says so. */
  readonly sentences: readonly string[];
}

/** Examines a table. Throws "design" where start or off is not one of its states, or there are no events. */
export function examineStates(table: StateTable): StateReport {
  const states = Object.keys(table.next);
  const events = Object.keys(table.events);
  demandNames(table, states, events);
  const pairs = states.flatMap((state) => events.map((event) => ({ state, event })));
  const missing = pairs
    .filter(({ state, event }) => cellAt(table, state, event) === undefined)
    .map((pair) => ({ ...pair, ...saidMissing(pair) }));
  const ambiguous = pairs.flatMap((pair) => ambiguityOf(table, pair));
  const unknown = unknownNames(table);
  const arrows = transitionsOf(table).filter(({ to, event }) => Object.hasOwn(table.next, to) && Object.hasOwn(table.events, event));
  const ways = shortestWays(table.start, arrows);
  const reached = states.filter((state) => Object.hasOwn(ways, state));
  const back = new Set(Object.keys(shortestWays(table.off, arrows.map(reversed))));
  const faults = {
    missing,
    ambiguous,
    unknown,
    unreachable: states.filter((state) => !reached.includes(state)),
    dead: reached.filter((state) => !arrows.some(({ from }) => from === state)),
    withoutReturn: reached.filter((state) => !back.has(state)),
  };
  const idle = events.filter((event) => !arrows.some((arrow) => arrow.event === event));
  const holds = Object.values(faults).every((list) => list.length === 0);
  const defined = pairs.length - missing.length;
  const findings = findingsOf(table, faults, idle);
  const sentences = findings.map(({ sentence }) => sentence);
  const whole = `every one of ${states.length} states answers every one of ${events.length} events; all are reached from ${table.start}, and all lead back to ${table.off}`;
  return {
    states,
    events,
    pairs: pairs.length,
    defined,
    ...faults,
    ways,
    idle,
    holds,
    findings,
    sentences: holds ? [whole, ...sentences] : sentences,
  };
}

type Pair = Pick<CellFinding, "state" | "event">;
type Faults = Pick<StateReport, "missing" | "ambiguous" | "unknown" | "unreachable" | "dead" | "withoutReturn">;

function demandNames({ start, off }: StateTable, states: readonly string[], events: readonly string[]): void {
  for (const [role, state] of [
    ["start", start],
    ["off", off],
  ]) {
    if (!states.includes(state as string))
      throw new WorkingsError("design", `${role} names the state '${state}', which has no row; the rows are ${states.join(", ")}`);
  }
  if (events.length === 0) throw new WorkingsError("design", "the table of states names no events; list them under 'events'");
}

function saidMissing({ state, event }: Pair): { readonly sentence: string } {
  return { sentence: `nothing is said of ${event} in ${state}: name the next state, '${stay}' or '${impossible}'` };
}

function ambiguityOf(table: StateTable, pair: Pair): readonly CellFinding[] {
  const branches = branchesOf(cellAt(table, pair.state, pair.event) ?? stay);
  const at = `${pair.event} in ${pair.state}`;
  const early = branches.findIndex((branch) => branch.if === undefined);
  if (early === -1) return [{ ...pair, sentence: `${at} has conditions only: give the last branch none, so that one is always taken` }];
  const last = branches.length - 1;
  if (early < last) {
    const [first, second] = [branches[early]?.to, branches[early + 1]?.to];
    return [{ ...pair, sentence: `${at} leads to ${first} whatever happens, and to ${second}: give all but the last branch a condition` }];
  }
  const conditions = branches.map((branch) => branch.if);
  const twice = conditions.find((condition, index) => conditions.indexOf(condition) !== index);
  return twice === undefined ? [] : [{ ...pair, sentence: `${at} has the condition '${twice}' twice: only the first can be taken` }];
}

function unknownNames(table: StateTable): readonly CellFinding[] {
  const known = new Set([...Object.keys(table.next), stay]);
  return Object.entries(table.next).flatMap(([state, row]) =>
    Object.entries(row).flatMap(([event, cell]) => {
      const foreign = Object.hasOwn(table.events, event) ? [] : [`the row of ${state} has the event '${event}', which is not listed`];
      const alone = typeof cell === "string";
      const targets = branchesOf(cell).filter(({ to }) => !known.has(to) && !(alone && to === impossible));
      const lost = targets.map(({ to }) =>
        to === impossible
          ? `${event} in ${state} has '${impossible}' as one of several branches: an event that can happen needs a state`
          : `${event} in ${state} leads to '${to}', which is no state`,
      );
      return [...foreign, ...lost].map((sentence) => ({ state, event, sentence }));
    }),
  );
}

/** Events of the shortest way from a state to every state that arrows lead to. */
function shortestWays(start: string, arrows: readonly Transition[]): Readonly<Record<string, readonly string[]>> {
  const ways = new Map<string, readonly string[]>([[start, []]]);
  for (const [state, way] of ways) {
    for (const { from, event, to } of arrows) {
      if (from === state && !ways.has(to)) ways.set(to, [...way, event]);
    }
  }
  return Object.fromEntries(ways);
}

function reversed({ from, to, event }: Transition): Transition {
  return { from: to, to: from, event };
}

function findingsOf({ start, off }: StateTable, faults: Faults, idle: readonly string[]): readonly StateFinding[] {
  return [
    ...faults.missing,
    ...faults.ambiguous,
    ...faults.unknown,
    ...faults.unreachable.map((state) => ({ state, sentence: `${state} is never reached from ${start}: no event leads there` })),
    ...faults.dead.map((state) => ({ state, sentence: `${state} is dead: no event leads out of it` })),
    ...faults.withoutReturn
      .filter((state) => !faults.dead.includes(state))
      .map((state) => ({ state, sentence: `from ${state} no events lead back to ${off}` })),
    ...idle.map((event) => ({ event, sentence: `${event} changes nothing in any state` })),
  ];
}
