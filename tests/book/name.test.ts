/** A given and a result of one name are two things; a name that fits both is refused. */
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { nodeNamed } from "../../lib/book/name";
import { whyLines } from "../../lib/book/why";
import { readDesign } from "../../lib/design/read";
import { vary } from "../../lib/document/live/vary";
import type { Display } from "../../lib/sheet/block";
import { Session } from "../../lib/sheet/session";
import { storedDisplay } from "../../lib/sheet/stored";
import { Worksheet } from "../../lib/sheet/worksheet";
import { gram } from "../../lib/units";
import { shown } from "./display-fixture";
import { madeBook, named } from "./made";

const design = readDesign(
  `
product: { name: Box, revision: "1" }
sources: { own: { type: document, title: Made up for this test } }
givens:
  box: { mass: { value: 1 g, meaning: mass as weighed, source: own }, lid: { value: 1 g ±10 %, meaning: lid, source: own } }
`,
  "design.yaml",
);

const shared = globalThis as Record<symbol, unknown>;
const sink = Symbol.for("workings.display");
let displays: Display[] = [];
beforeEach(() => {
  displays = [];
  shared[sink] = ({ data }: { data: Record<string, Display> }) =>
    displays.push(storedDisplay(JSON.parse(JSON.stringify({ data })), "box", 1)?.display as Display);
});
afterEach(() => {
  delete shared[sink];
});

/** The given box.mass is 1 g, the result box.mass is 2 g. */
function book() {
  const sheet = new Worksheet(new Session("box", design));
  const { m, l } = sheet.given({ m: ["box.mass", gram], l: ["box.lid", gram] });
  sheet.publish({ mass: sheet.derive("mass = m + l", { m, l }, gram, "mass of the whole") });
  return madeBook(named(shown(...displays)), design);
}

describe("a given and a result of one name", () => {
  it("keep their own values in every evaluation", () => {
    const { evaluation } = book();
    expect(evaluation.nominal("givens.box.mass")).toBeCloseTo(0.001, 12);
    expect(evaluation.nominal("box.mass")).toBeCloseTo(0.002, 12);
  });

  it("are refused under the bare name, with both spellings, each of which fits one", () => {
    expect(() => nodeNamed(book(), "box.mass")).toThrow(
      '"box.mass" is a result and a given; say which: sheets.box.mass or givens.box.mass',
    );
    expect(nodeNamed(book(), "sheets.box.mass")).toBe("box.mass");
    expect(nodeNamed(book(), "givens.box.mass")).toBe("givens.box.mass");
    expect(nodeNamed(book(), "box.lid")).toBe("givens.box.lid");
    expect(() => nodeNamed(book(), "box.mess")).toThrow('no sheet computes or takes "box.mess"; did you mean box.mass');
  });

  it("are told apart by why; vary takes the path as the design file spells it", () => {
    const lines = whyLines("box.mass", book().evaluation);
    expect(lines[0]).toMatch(/^box\.mass \(mass of the whole\) = 2/);
    expect(lines).toContainEqual(expect.stringMatching(/^ {2}givens\.box\.mass \(mass as weighed\) = 1 g/));
    expect(lines).toContainEqual(expect.stringMatching(/^ {2}box\.lid \(lid\) = 1 g ±10 %/));
    const { moved, changes } = vary(book(), ["box.mass=3 g"]);
    expect(changes).toEqual([{ path: "box.mass", before: "1 g", after: "3 g" }]);
    expect(moved).toMatchObject([{ name: "box.mass", after: expect.stringMatching(/^4/) }]);
  });
});

describe("names that begin ids of other things", () => {
  it("are refused for groups of givens", () => {
    const given = "{ x: { value: 1 g, meaning: m, source: own } }";
    const text = (name: string) =>
      `product: { name: B, revision: "1" }\nsources: { own: { type: document, title: T } }\ngivens: { ${name}: ${given} }`;
    for (const name of ["givens", "decisions", "reference", "sheets"])
      expect(() => readDesign(text(name), "d.yaml")).toThrow(`d.yaml:3:11: the name '${name}' cannot begin a path`);
  });
});
