import { describe, expect, it } from "vitest";
import { readStateLink, stateLink } from "../../lib/document/live/state-link";
import { turnGiven } from "../../lib/document/live/turn";
import { promptProblems } from "../../lib/document/text/prompt-links";
import type { Changes } from "../../lib/graph/graph";
import type { GivenNode, TableNode } from "../../lib/graph/node";
import { graph } from "./fixture";

const nodes = graph.nodes();
const curve = graph.get("givens.lamp.curve") as TableNode;
const supply = turnGiven(graph.get("givens.supply.high") as GivenNode, "4.8 V ±3 %").change;

describe("a link to a state", () => {
  it.each<[string, Changes]>([
    ["no change", {}],
    ["a given with a tolerance", { givens: { "supply.high": supply } }],
    ["a table scaled whole", { tables: { "lamp.curve": { x: curve.x, y: curve.y.map((y) => y * 0.95), scale: 0.95 } } }],
    ["a table, to the last bit", { tables: { "lamp.curve": { x: curve.x, y: curve.y.map((y) => y * 1.1) } } }],
    ["a decision", { choices: { "decisions.lamp.rail": "low" } }],
    [
      "all of them",
      {
        givens: { "supply.high": supply },
        tables: { "lamp.curve": { x: curve.x, y: curve.y } },
        choices: { "decisions.lamp.rail": "low" },
      },
    ],
  ])("reads back what it was made of: %s", (_, changes) => {
    expect(readStateLink(stateLink(changes), nodes)).toEqual({ changes, problems: [] });
  });

  it("asks for nothing where it says what the design file says", () => {
    expect(readStateLink("#with?supply.high=4.5%20V%20%C2%B12%20%25&decisions.lamp.rail=high", nodes)).toEqual({
      changes: {},
      problems: [],
    });
  });

  it("is followed as far as the book has what it asks for, and says what it has not", () => {
    const { changes, problems } = readStateLink(
      "#with?supply.high=4.8 V ±3 %25&supply.hihg=1 V&lamp.current=5 kg&decisions.lamp.rail=middle&lamp.curve=[1]&%E0%A4%A=1",
      nodes,
    );
    expect(changes).toEqual({ givens: { "supply.high": supply } });
    expect(problems).toEqual([
      'supply.hihg: no sheet reads "supply.hihg"; did you mean supply.high?',
      'lamp.current: "5 kg" is mass; current is expected',
      'decisions.lamp.rail: "middle" is no alternative of decisions.lamp.rail; these are low, high',
      expect.stringMatching(/^lamp\.curve: .*two columns of 4 numbers, the first rising$/),
      '%E0%A4%A: no sheet reads "%E0%A4%A"; see the register of givens in the document',
    ]);
  });
});

describe("the prompts of a text", () => {
  it("are held against the book, each wrong one told at its line", () => {
    const text = "Turn this.\n\n1. [Lower.](#with?supply.high=4%20V) and [a result](#R)\n2. [Wrong.](#with?supply.hihg=4%20V)";
    expect(promptProblems(text, nodes)).toEqual([
      { line: 4, message: 'supply.hihg: no sheet reads "supply.hihg"; did you mean supply.high?' },
    ]);
  });
});
