/** The search through power states against routes that share no code with it: powers of a matrix, and random walks. */
import { describe, expect, it } from "vitest";
import { control } from "../../../lib/physics";
import { amplifierTable, randomFrom } from "./power-states";

/** A table of `n` states and `m` events, most cells leading nowhere new. */
function randomTable(seed: number, n: number, m: number): control.StateTable {
  const random = randomFrom(seed);
  const names = Array.from({ length: n }, (_, i) => `s${i}`);
  const events = Array.from({ length: m }, (_, i) => `e${i}`);
  const cell = (): string => (random() < 0.75 ? "stay" : (names[Math.floor(random() * n)] as string));
  const next = Object.fromEntries(names.map((name) => [name, Object.fromEntries(events.map((event) => [event, cell()]))]));
  return control.stateTable({ start: "s0", off: "s0", events: Object.fromEntries(events.map((event) => [event, event])), next });
}

/** Reachability as a matrix, closed by Warshall's algorithm. */
function closure(table: control.StateTable): readonly (readonly boolean[])[] {
  const names = Object.keys(table.next);
  const reach = names.map((a) => names.map((b) => a === b || Object.values(table.next[a] ?? {}).some((cell) => cell === b)));
  for (let k = 0; k < names.length; k++) {
    for (const row of reach) {
      for (let j = 0; j < names.length; j++) row[j] ||= (row[k] && reach[k]?.[j]) ?? false;
    }
  }
  return reach;
}

/** A walk with events drawn at random; impossible ones are drawn again. */
function wander(table: control.StateTable, seed: number, steps: number): Set<string> {
  const random = randomFrom(seed);
  const events = Object.keys(table.events);
  const seen = new Set<string>();
  let state = table.start;
  for (let step = 0; step < steps; step++) {
    seen.add(state);
    const event = events[Math.floor(random() * events.length)] as string;
    const cell = table.next[state]?.[event];
    if (cell === "impossible" || cell === undefined) continue;
    const branches = typeof cell === "string" ? [{ to: cell }] : cell;
    const { to } = branches[Math.floor(random() * branches.length)] as control.Branch;
    if (to !== "stay") state = to;
  }
  return seen;
}

/** How many events each state is away from the start: all words of one length, then of the next. */
function depths(table: control.StateTable): Map<string, number> {
  const depth = new Map([[table.start, 0]]);
  let layer = [table.start];
  for (let d = 1; d <= 10; d++) {
    const next = layer.flatMap((state) => Object.keys(table.events).map((event) => control.nextState(table, state, { event })));
    layer = [...new Set(next)];
    for (const state of layer) if (!depth.has(state)) depth.set(state, d);
  }
  return depth;
}

describe("the search of power states", () => {
  it.each(Array.from({ length: 24 }, (_, i) => [i + 1, 3 + (i % 8), 1 + (i % 4)]))(
    "agrees with a closed matrix of random table %i (%i states, %i events)",
    (seed, n, m) => {
      const table = randomTable(seed, n, m);
      const { unreachable, dead, withoutReturn } = control.examineStates(table);
      const names = Object.keys(table.next);
      const reach = closure(table);
      const reached = names.filter((_, j) => reach[0]?.[j]);
      expect(unreachable).toEqual(names.filter((name) => !reached.includes(name)));
      expect(withoutReturn).toEqual(reached.filter((name) => !reach[names.indexOf(name)]?.[0]));
      expect(dead).toEqual(reached.filter((name) => reach[names.indexOf(name)]?.filter(Boolean).length === 1));
    },
  );

  it("finds what twenty thousand random events see, no more and no less", () => {
    for (let seed = 1; seed <= 12; seed++) {
      const table = randomTable(seed + 100, 6, 3);
      const { unreachable, withoutReturn, states } = control.examineStates(table);
      if (withoutReturn.length > 0) {
        // A trap ends a walk, so many short walks take the place of a long one
        const seen = new Set(Array.from({ length: 400 }, (_, i) => [...wander(table, 1000 * seed + i, 60)]).flat());
        expect(states.filter((state) => !seen.has(state))).toEqual(unreachable);
      } else expect(states.filter((state) => !wander(table, seed, 20000).has(state))).toEqual(unreachable);
    }
    expect(wander(amplifierTable(), 7, 20000).size).toBe(6);
  });

  it("walks each shortest way to the state it leads to, and no shorter one exists", () => {
    let found = 0;
    for (let seed = 1; seed <= 12; seed++) {
      const table = randomTable(seed, 10, 4);
      const depth = depths(table);
      for (const [state, way] of Object.entries(control.examineStates(table).ways)) {
        const steps = way.map((event) => ({ after: 0, event }));
        expect(control.walkStates(table, steps).at(-1)?.state).toBe(state);
        expect(way.length).toBe(depth.get(state));
        found = Math.max(found, way.length);
      }
    }
    expect(found).toBeGreaterThanOrEqual(4);
  });

  it("and its shares of time are those of a random process whose balance is known", () => {
    // Two states left at the rates 1/τ: the share of each is its τ over their sum
    const table = control.stateTable({ start: "a", off: "a", events: { go: "go" }, next: { a: { go: "b" }, b: { go: "a" } } });
    const random = randomFrom(11);
    const steps = Array.from({ length: 40000 }, (_, i) => ({ after: -Math.log(1 - random()) * (i % 2 === 0 ? 9 : 1), event: "go" }));
    const shares = control.timeShares(table, control.walkStates(table, steps));
    expect(shares["a"]).toBeCloseTo(0.9, 2);
    expect((shares["a"] ?? 0) + (shares["b"] ?? 0)).toBeCloseTo(1, 12);
  });
});
