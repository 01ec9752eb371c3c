/** Power states in the design file: what is read, and the line at which each fault is told. */
import { describe, expect, it } from "vitest";
import { readDesign } from "../../lib/design/read";
import { failure, spoil } from "./fixture";

const text = (states: string) => `product: { name: Lamp, revision: "1" }
sources: { own: { type: document, title: Made up for this test } }
givens: {}
states:
  lamp:
${states}`;

const sound = `    start: off
    off: off
    events:
      press: the button is pressed
      empty: the cell is empty
    next:
      off:
        press: [{ if: the cell is good, to: on }, { to: stay }]
        empty: stay
      on:
        press: off
        empty: off
`;

const read = (states: string) => readDesign(text(states), "d.yaml");
const fault = (from: string, to: string): string => failure(text(spoil(from, to, sound)));

describe("states of the design file", () => {
  it("are read in the order of the file, with their place", () => {
    const { table, place } = read(sound).states("lamp");
    expect(place).toBe("d.yaml:5:3");
    expect(Object.keys(table.next)).toEqual(["off", "on"]);
    expect(table.next["off"]?.["press"]).toEqual([{ if: "the cell is good", to: "on" }, { to: "stay" }]);
  });

  it("may be left out; a table that is asked for and not there is an error", () => {
    const design = readDesign(text("").split("states:")[0] as string, "d.yaml");
    expect(design.stateTables).toEqual([]);
    expect(() => design.states("lamp")).toThrow("d.yaml has no table of states 'lamp'");
    expect(() => read(sound).states("lmap")).toThrow("did you mean 'lamp'?");
  });

  it.each([
    [
      "a cell that is left open",
      "        empty: off\n",
      "",
      "d.yaml:15:7: nothing is said of empty in on: name the next state, 'stay' or 'impossible'",
    ],
    [
      "a state that is never reached",
      "to: on }",
      "to: off }",
      "d.yaml:15:7: on is never reached from off: no event leads there; add the event that does",
    ],
    [
      "a dead state",
      "press: off\n        empty: off",
      "press: stay\n        empty: stay",
      "d.yaml:15:7: on is dead: no event leads out of it; add the event that does",
    ],
    [
      "an event nobody handles",
      "        empty: off\n",
      "        empty: stay\n",
      "d.yaml:10:7: empty changes nothing in any state; let a state answer it, or take it out of events",
    ],
    ["a state that is none", "press: off\n", "press: of\n", "d.yaml:16:9: press in on leads to 'of', which is no state"],
    [
      "an event that is not listed",
      "        empty: stay\n",
      "        empty: stay\n        hot: on\n",
      "d.yaml:15:9: the row of off has the event 'hot', which is not listed",
    ],
    ["conditions only", "{ to: stay }]", "{ if: it is dark, to: stay }]", "d.yaml:13:9: press in off has conditions only"],
    [
      "two answers",
      "{ if: the cell is good, to: on }",
      "{ to: on }",
      "d.yaml:13:9: press in off leads to on whatever happens, and to stay",
    ],
    ["a start that is none", "start: off", "start: of", "d.yaml:6:5: start names the state 'of', which has no row"],
    ["an unknown key of a branch", "{ to: stay }]", "{ go: stay }]", "state off, event press: a branch has no key 'go'"],
    [
      "a cell that is no word",
      "        empty: stay\n",
      "        empty: 3\n",
      "d.yaml:14:16: state off, event empty: expected a word or a sentence, found 3",
    ],
    [
      "an unknown key",
      "    off: off\n",
      "    off: off\n    of: on\n",
      "unknown key 'of' in states of 'lamp'; expected 'start', 'off', 'events', 'next' or 'note'",
    ],
    [
      "no events",
      "    events:\n      press: the button is pressed\n      empty: the cell is empty\n",
      "",
      "states of 'lamp' has no events",
    ],
    ["a state that is called stay", "      on:\n", "      stay:\n", "a state is called 'stay'"],
  ])("with %s are refused with the line", (_title, from, to, message) => {
    expect(fault(from, to)).toContain(message);
  });

  it("tell all that is wrong at once", () => {
    const message = fault("      on:\n        press: off\n        empty: off\n", "      on:\n        press: of\n");
    expect(message).toContain("nothing is said of empty in on");
    expect(message).toContain("leads to 'of', which is no state");
  });

  it("know a state called like a property of every object", () => {
    expect(fault("        empty: off\n", "        constructor: off\n")).toContain(
      "the row of on has the event 'constructor', which is not listed",
    );
  });
});
