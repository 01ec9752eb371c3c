import { describe, expect, it } from "vitest";
import { distance, list, nearest, suggestion } from "../../lib/design/nearest";

describe("nearest", () => {
  it("counts an insertion, a deletion, a substitution and a swap as one step each", () => {
    expect([distance("rail", "rails"), distance("rails", "rail"), distance("rail", "rain"), distance("rial", "rail")]).toEqual([
      1, 1, 1, 1,
    ]);
    expect(distance("", "abc")).toBe(3);
  });

  it("offers near names, nearest first, and none that are far", () => {
    expect(nearest("forwrd", ["current", "forward", "forwards", "iv"])).toEqual(["forward", "forwards"]);
    expect(nearest("x", ["current"])).toEqual([]);
  });

  it("says them in a sentence, or says something else", () => {
    expect(suggestion(["a", "b"], "no")).toBe("did you mean 'a' or 'b'?");
    expect(suggestion([], "add it")).toBe("add it");
    expect(list(["a", "b", "c"], "or")).toBe("'a', 'b' or 'c'");
  });
});
