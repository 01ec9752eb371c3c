import { describe, expect, it } from "vitest";
import { control } from "../../../lib/physics";
import { amplifierTable, pocketAmplifier } from "./power-states";

/** The table with some cells replaced; undefined takes a cell away. */
function changed(cells: Readonly<Record<string, Readonly<Record<string, unknown>>>>, more: object = {}): control.StateTable {
  const rows: Record<string, Record<string, unknown>> = structuredClone(pocketAmplifier.next);
  for (const [state, row] of Object.entries(cells)) {
    rows[state] = Object.fromEntries(Object.entries({ ...rows[state], ...row }).filter(([, cell]) => cell !== undefined));
  }
  return control.stateTable({ ...pocketAmplifier, ...more, next: rows });
}

describe("a whole table of power states", () => {
  const report = control.examineStates(amplifierTable());

  it("holds, and says in one sentence what was found", () => {
    expect(report.holds).toBe(true);
    expect(report).toMatchObject({
      pairs: 36,
      defined: 36,
      missing: [],
      ambiguous: [],
      unknown: [],
      unreachable: [],
      dead: [],
      withoutReturn: [],
      idle: [],
    });
    expect(report.sentences).toEqual([
      "every one of 6 states answers every one of 6 events; all are reached from off, and all lead back to off",
    ]);
  });

  it("shows the shortest way to each state", () => {
    expect(report.ways["off"]).toEqual([]);
    expect(report.ways["charge and play"]).toHaveLength(2);
    expect(report.ways["wait"]).toEqual(["plug", "hot"]);
  });

  it("lists its arrows, without those that stay", () => {
    const arrows = control.transitionsOf(amplifierTable());
    expect(arrows).toHaveLength(3 + 5 + 3 + 4 + 1 + 1);
    expect(arrows[0]).toEqual({ from: "off", event: "press", to: "play", if: "cell above 3.3 V" });
  });
});

describe("examineStates", () => {
  it("names every pair that has no answer", () => {
    const report = control.examineStates(changed({ play: { hot: undefined }, wait: { press: undefined } }));
    expect(report.missing.map(({ state, event }) => [state, event])).toEqual([
      ["play", "hot"],
      ["wait", "press"],
    ]);
    expect(report.defined).toBe(34);
    expect(report.holds).toBe(false);
    expect(report.sentences[0]).toBe("nothing is said of hot in play: name the next state, 'stay' or 'impossible'");
  });

  it("finds cells with two answers, with conditions only, and with one condition twice", () => {
    const report = control.examineStates(
      changed({
        play: { press: [{ to: "off" }, { to: "wait" }] },
        charge: { press: [{ if: "cell above 3.3 V", to: "charge and play" }] },
        wait: { press: [{ if: "cold", to: "off" }, { if: "cold", to: "charge" }, { to: "stay" }] },
      }),
    );
    expect(report.ambiguous.map(({ sentence }) => sentence)).toEqual([
      "press in play leads to off whatever happens, and to wait: give all but the last branch a condition",
      "press in charge has conditions only: give the last branch none, so that one is always taken",
      "press in wait has the condition 'cold' twice: only the first can be taken",
    ]);
  });

  it("finds names that are no state, events that are not listed, and an impossible branch", () => {
    const report = control.examineStates(
      changed({ play: { press: "of", drop: "off", silence: [{ if: "muted", to: "impossible" }, { to: "off" }] } }),
    );
    expect(report.unknown.map(({ sentence }) => sentence)).toEqual([
      "press in play leads to 'of', which is no state",
      "silence in play has 'impossible' as one of several branches: an event that can happen needs a state",
      "the row of play has the event 'drop', which is not listed",
    ]);
  });

  it("finds a state that is never reached, with what only it leads to", () => {
    const spare = { press: "deep", plug: "off", unplug: "stay", silence: "stay", empty: "stay", hot: "stay" };
    const report = control.examineStates(changed({ spare, deep: { ...spare, press: "spare" } }));
    expect(report.unreachable).toEqual(["spare", "deep"]);
    expect(report.withoutReturn).toEqual([]);
    expect(report.sentences).toEqual([
      "spare is never reached from off: no event leads there",
      "deep is never reached from off: no event leads there",
    ]);
  });

  it("finds a dead state, and tells it from a pair that only turn round each other", () => {
    const dead = control.examineStates(changed({ wait: { unplug: "stay" } }));
    expect(dead.dead).toEqual(["wait"]);
    expect(dead.withoutReturn).toEqual(["wait"]);
    expect(dead.sentences).toEqual(["wait is dead: no event leads out of it"]);
    const round = { press: "stay", plug: "stay", unplug: "stay", silence: "stay", empty: "stay", hot: "stay" };
    const pair = control.examineStates(changed({ wait: { unplug: "stay", hot: "trap" }, trap: { ...round, hot: "wait" } }));
    expect(pair.dead).toEqual([]);
    expect(pair.withoutReturn).toEqual(["wait", "trap"]);
    expect(pair.sentences[1]).toBe("from trap no events lead back to off");
  });

  it("says which events change nothing, which is no fault", () => {
    const report = control.examineStates(
      control.stateTable({
        start: "a",
        off: "a",
        events: { tick: "a clock", go: "on" },
        next: { a: { tick: "stay", go: "b" }, b: { tick: "b", go: "a" } },
      }),
    );
    expect(report.holds).toBe(true);
    expect(report.idle).toEqual(["tick"]);
    expect(report.sentences[1]).toBe("tick changes nothing in any state");
  });

  it("refuses a start or off without a row, and a table without events", () => {
    expect(() => control.examineStates(changed({}, { start: "on" }))).toThrow(
      "start names the state 'on', which has no row; the rows are off, play",
    );
    expect(() => control.examineStates(changed({}, { events: {} }))).toThrow("names no events");
  });

  it("is not misled by names that every object has", () => {
    const next = { off: { toString: "constructor" }, constructor: { toString: "stay" } };
    const report = control.examineStates(control.stateTable({ start: "off", off: "off", events: { toString: "odd" }, next }));
    expect(report.missing).toEqual([]);
    expect(report.dead).toEqual(["constructor"]);
    const bare = control.examineStates(control.stateTable({ start: "off", off: "off", events: { valueOf: "odd" }, next: { off: {} } }));
    expect(bare.missing).toHaveLength(1);
  });
});

describe("stateTable", () => {
  it.each([
    [null, "a table of states: expected names with values below it, found nothing"],
    [{ ...pocketAmplifier, begin: "off" }, "has no key 'begin'"],
    [
      { ...pocketAmplifier, start: false },
      "start: expected a word or a sentence, found false; a word such as 'off' or 'yes' may need quotes",
    ],
    [{ ...pocketAmplifier, events: { press: null } }, "event press: expected a word"],
    [{ ...pocketAmplifier, next: { off: ["play"] } }, "the row of state off: expected names with values below it, found a list"],
    [{ ...pocketAmplifier, next: { off: { press: 3 } } }, "state off, event press: expected a word or a sentence, found 3"],
    [{ ...pocketAmplifier, next: { off: { press: [] } } }, "state off, event press: the list is empty"],
    [{ ...pocketAmplifier, next: { off: { press: [{ to: "play", when: "x" }] } } }, "a branch has no key 'when'"],
    [{ ...pocketAmplifier, next: { stay: {} } }, "no state may be called 'stay'"],
  ])("refuses what is no table (%#)", (data, message) => {
    expect(() => control.stateTable(data)).toThrow(message);
  });
});

describe("a script of events", () => {
  const steps: control.Step[] = [
    { after: 3600, event: "press", if: "cell above 3.3 V" },
    { after: 4 * 3600, event: "plug" },
    { after: 1800, event: "hot" },
    { after: 600, event: "unplug" },
  ];

  it("leads through the states, each for its time", () => {
    const visits = control.walkStates(amplifierTable(), steps, 1800);
    expect(visits.map(({ state }) => state)).toEqual(["off", "play", "charge and play", "wait", "off"]);
    const shares = control.timeShares(amplifierTable(), visits);
    expect(shares["play"]).toBeCloseTo(14400 / 22200, 12);
    expect(shares["off"]).toBeCloseTo(5400 / 22200, 12);
    expect(shares["cut off"]).toBe(0);
    expect(control.meanOfStates({ off: 0.9, play: 0.1 }, { off: 5e-6, play: 20e-3 })).toBeCloseTo(2.0045e-3, 12);
  });

  it("stops where an event is impossible, unanswered, or has no such condition", () => {
    const table = amplifierTable();
    expect(() => control.walkStates(table, [{ after: 1, event: "unplug" }])).toThrow("unplug comes in off, where it is impossible");
    expect(() => control.walkStates(table, [{ after: 1, event: "drop" }])).toThrow("drop comes in off, where nothing is said of it");
    expect(() => control.nextState(table, "off", { event: "press", if: "warm" })).toThrow(
      "no branch for the condition 'warm'; its conditions are 'cell above 3.3 V'",
    );
    expect(() => control.walkStates(table, [{ after: -1, event: "press" }])).toThrow("a state lasts -1 s");
    expect(control.nextState(table, "off", { event: "press" })).toBe("off");
  });

  it("has no mean without a current for each state, or with shares that are not the whole", () => {
    expect(() => control.meanOfStates({ off: 0.5, play: 0.5 }, { off: 1 })).toThrow("play has no current");
    expect(() => control.meanOfStates({ off: 0.5 }, { off: 1 })).toThrow("add up to 0.5");
    expect(() => control.timeShares(amplifierTable(), [{ state: "off", time: 0 }])).toThrow("lasts no time");
  });
});
