import { expect, test } from "vitest";
import { symbolsOf } from "../../lib/formula/symbols";
import { parseFormula } from "./parse-formula";

test("symbolsOf lists each symbol once, in the order of the text, and no constants", () => {
  expect(symbolsOf(parseFormula("x = b*a^2/b + if(c > 1, sqrt(a), pi)").expression)).toEqual(["b", "a", "c"]);
});
