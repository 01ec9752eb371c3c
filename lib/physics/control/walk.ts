/** A script of events played through a table of power states: how long each state lasts, and the mean current of it. */
import { type Branch, branchesOf, cellAt, impossible, type StateTable, stay } from "../../design/power-states";
import { WorkingsError } from "../../quantity/error";

/** An event that comes after a state has lasted for so long (s). */
export interface Step {
  readonly after: number;
  readonly event: string;
  /** The condition that is true then; without one, the branch that has none is taken. */
  readonly if?: string;
}

/** A state and how long it lasted, s. */
export interface Visit {
  readonly state: string;
  readonly time: number;
}

/**
 * States in their order as the steps lead through them from `start`, then the last one for `rest` s. Throws "design" for
 * an event that the state does not answer or that is impossible there, a condition it does not have, and a time below zero.
 */
export function walkStates(table: StateTable, steps: readonly Step[], rest = 0): readonly Visit[] {
  const visits: Visit[] = [];
  let state = table.start;
  for (const step of steps) {
    visits.push({ state, time: duration(step.after) });
    state = nextState(table, state, step);
  }
  return [...visits, { state, time: duration(rest) }];
}

/** The state that an event leads to. Errors as for `walkStates`. */
export function nextState(table: StateTable, state: string, { event, if: condition }: Pick<Step, "event" | "if">): string {
  const cell = cellAt(table, state, event);
  if (cell === undefined) throw new WorkingsError("design", `${event} comes in ${state}, where nothing is said of it; complete the table`);
  if (cell === impossible)
    throw new WorkingsError("design", `${event} comes in ${state}, where it is impossible; mend the script or the table`);
  const { to } = taken(branchesOf(cell), `${event} in ${state}`, condition);
  if (to === stay) return state;
  if (Object.hasOwn(table.next, to)) return to;
  throw new WorkingsError("design", `${event} in ${state} leads to '${to}', which is no state`);
}

/** Share of the whole time that each state of the table lasts; states never visited have 0. Throws "design" for visits that last no time. */
export function timeShares(table: StateTable, visits: readonly Visit[]): Readonly<Record<string, number>> {
  const whole = visits.reduce((sum, { time }) => sum + time, 0);
  if (!(whole > 0)) throw new WorkingsError("design", "the script lasts no time, so no state has a share of it; give its steps a time");
  const shares: Record<string, number> = Object.fromEntries(Object.keys(table.next).map((state) => [state, 0]));
  for (const { state, time } of visits) shares[state] = (shares[state] ?? 0) + time / whole;
  return shares;
}

/**
 * Mean current (A) of shares of time and the current of each state: what `meanCurrent` says, for as many states as there
 * are. Throws "design" for a state with a share and no current, and for shares that do not add up to 1 within 1e-9.
 */
export function meanOfStates(shares: Readonly<Record<string, number>>, currents: Readonly<Record<string, number>>): number {
  const whole = Object.values(shares).reduce((sum, share) => sum + share, 0);
  if (!(Math.abs(whole - 1) <= 1e-9)) throw new WorkingsError("design", `the shares of time add up to ${whole}; they must add up to 1`);
  return Object.entries(shares).reduce((sum, [state, share]) => {
    const current = Object.hasOwn(currents, state) ? currents[state] : undefined;
    if (share !== 0 && current === undefined) throw new WorkingsError("design", `${state} has no current, and lasts ${share} of the time`);
    return sum + share * (current ?? 0);
  }, 0);
}

function taken(branches: readonly Branch[], at: string, condition: string | undefined): Branch {
  const found = branches.find((branch) => branch.if === condition);
  if (found !== undefined) return found;
  const known = branches.flatMap((branch) => (branch.if === undefined ? [] : [`'${branch.if}'`]));
  const asked = condition === undefined ? "no condition" : `the condition '${condition}'`;
  throw new WorkingsError(
    "design",
    `${at} has no branch for ${asked}; ${known.length > 0 ? `its conditions are ${known.join(", ")}` : "it has no conditions"}`,
  );
}

function duration(time: number): number {
  if (time >= 0 && time < Infinity) return time;
  throw new WorkingsError("design", `a state lasts ${time} s in the script; a time must be finite and at least zero`);
}
