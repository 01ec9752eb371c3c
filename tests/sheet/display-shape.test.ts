/** What a stored display may hold: what this library writes is accepted, what somebody has edited is not. */
import { describe, expect, it } from "vitest";
import { board } from "../../lib/physics";
import { displayFault } from "../../lib/sheet/display-shape";

const display = (numerical: unknown) => ({
  sheet: "board",
  block: { type: "result", node: "board.A", latex: "", numbers: "" },
  nodes: [
    {
      ...{ kind: "formula", id: "board.A", text: "w*t", dimension: "m²", unit: "mil²", arguments: { w: "givens.w", t: "givens.t" } },
      expression: { call: "*", of: [{ symbol: "w" }, { symbol: "t" }] },
      numerical,
    },
  ],
});
const faultOf = (numerical: unknown): string | undefined => displayFault(display(numerical), []);

describe("displayFault", () => {
  it("accepts the units of a numerical value equation, as the laws of a board's traces have them", () => {
    expect(faultOf(board.externalTraceArea.numerical)).toBe(faultOf(undefined));
  });

  it("refuses units that are no text", () => {
    expect(faultOf({ arguments: { I: { factor: 1, offset: 0 } }, result: "mil²" })).toBe("nodes[0].numerical.arguments.I is no text");
  });
});
