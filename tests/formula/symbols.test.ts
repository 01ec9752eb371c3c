import { expect, test } from "vitest";
import { parseFormula } from "../../lib/formula/parse";
import { symbolsOf } from "../../lib/formula/symbols";

test("symbolsOf lists each symbol once, in the order of the text, and no constants", () => {
  expect(symbolsOf(parseFormula("x = b*a^2/b + if(c > 1, sqrt(a), pi)").expression)).toEqual(["b", "a", "c"]);
});
