import { describe, expect, it } from "vitest";
import { scoreCorrelation } from "../../lib/analysis/shared";
import { readDesign } from "../../lib/design/read";
import type { GivenNode } from "../../lib/graph/node";
import { failure } from "./fixture";

/** A file with three tolerances, a range and an exact value, and what follows. */
const file = (rest: string) => `product: { name: Test, revision: "1" }
sources: { own: { type: document, title: Made up for this test } }
givens:
  a: { value: 4.5 V σ 0.1 V, meaning: a, source: own }
  b: { value: 3 A σ 0.1 A, meaning: b, source: own }
  c: { value: 2 Ω ±1 %, meaning: c, source: own }
  T: { value: 0 °C to 40 °C, meaning: ambient, source: own }
  e: { value: 2 Ω, meaning: exact, source: own }
${rest}`;

const pairs = `correlations:
  - { between: [b, a], coefficient: 0.9, source: own, note: one reference }
  - between: [b, c]
    coefficient: -0.3
    source: own
`;
const common = `common:
  reel: { paths: [a, c], share: 0.5, reason: one reel, source: own }
  age: { paths: [a], share: 0.25, reason: ageing alike, source: own }
`;
const read = (rest: string) => readDesign(file(rest), "d.yaml");
const givenOf = (design: ReturnType<typeof readDesign>, path: string) => design.given(path) as GivenNode;

describe("correlations", () => {
  it("are told with their sources, and given to the nodes in alphabetical order", () => {
    const design = read(pairs);
    expect(design.correlations[0]).toEqual({ between: ["b", "a"], coefficient: 0.9, source: "own", note: "one reference" });
    const [a, b, c] = ["a", "b", "c"].map((path) => givenOf(design, path)) as [GivenNode, GivenNode, GivenNode];
    expect(a).not.toHaveProperty("shared");
    expect(b.shared).toEqual([{ with: "givens.a", weight: 0.9 }]);
    expect(scoreCorrelation(b, c)).toBeCloseTo(-0.3, 1);
    expect(scoreCorrelation(a, c)).toBeCloseTo(0, 9);
  });

  it("do not depend on the order of the file, and change the text of the given", () => {
    const other = `correlations:
  - { between: [c, b], coefficient: -0.3, source: own }
  - { between: [a, b], coefficient: 0.9, source: own }
`;
    for (const path of ["a", "b", "c"]) expect(givenOf(read(other), path).shared).toEqual(givenOf(read(pairs), path).shared);
    expect(read(pairs).text("b")).not.toBe(read("").text("b"));
    expect(read(pairs).text("b")).not.toBe(read(pairs.replace("0.9", "0.8")).text("b"));
    expect(read(pairs).text("a")).toBe(read("").text("a"));
  });

  it("leave a file without them as it was", () => {
    const design = read("");
    expect([design.correlations, design.common]).toEqual([[], []]);
    for (const path of design.paths()) expect(design.given(path)).not.toHaveProperty("shared");
  });

  it("allow 1 and −1", () => {
    const design = read("correlations: [{ between: [a, c], coefficient: -1, source: own }]");
    expect(givenOf(design, "c").shared).toEqual([{ with: "givens.a", weight: -1 }]);
  });
});

describe("common causes", () => {
  it("are the share of the variance of each, several at once", () => {
    const design = read(common);
    expect(design.common.map(({ name, paths, share }) => [name, paths, share])).toEqual([
      ["reel", ["a", "c"], 0.5],
      ["age", ["a"], 0.25],
    ]);
    const weights = (path: string) => (givenOf(design, path).shared ?? []).map(({ weight }) => weight * weight);
    expect(weights("a")).toEqual([expect.closeTo(0.5, 11), expect.closeTo(0.25, 11)]);
    // Rectangular: the scores are correlated a little more than the values, 2·sin(π/12).
    expect(weights("c")).toEqual([expect.closeTo(2 * Math.sin(Math.PI / 12), 6)]);
  });
});

const rows: readonly (readonly [title: string, rest: string, message: string])[] = [
  [
    "an unknown path",
    "correlations:\n  - { between: [a, bb], coefficient: 0.5, source: own }\n",
    "d.yaml:10:20: there is no given 'bb'; expected the path of a given of this file; did you mean 'b'?",
  ],
  [
    "a coefficient beyond 1",
    "correlations:\n  - { between: [a, b], coefficient: 1.2, source: own }\n",
    "d.yaml:10:37: coefficient of a correlation is 1.2; expected a number from -1 to 1; mend it",
  ],
  [
    "a coefficient in words",
    "correlations:\n  - { between: [a, b], coefficient: strong, source: own }\n",
    "d.yaml:10:37: coefficient of a correlation is strong; expected a number from -1 to 1; mend it",
  ],
  [
    "a given with itself",
    "correlations:\n  - { between: [a, a], coefficient: 0.5, source: own }\n",
    "d.yaml:10:16: a correlation is between two givens, not 'a' and 'a'; expected two different paths; write between: [path, path]",
  ],
  [
    "a pair twice",
    "correlations:\n  - { between: [a, b], coefficient: 0.5, source: own }\n  - { between: [b, a], coefficient: 0.5, source: own }\n",
    "d.yaml:11:5: the correlation of 'b' and 'a' stands here a second time; expected each pair once; delete one of the two",
  ],
  [
    "a condition of use",
    "correlations:\n  - { between: [a, T], coefficient: 0.5, source: own }\n",
    "d.yaml:10:20: 'T' is a condition of use, which is never drawn; expected a given with a tolerance; state its tolerance, or leave it out here",
  ],
  [
    "an exact value",
    "common:\n  lot: { paths: [a, e], share: 0.5, reason: so, source: own }\n",
    "d.yaml:10:21: 'e' is exact; expected a given with a tolerance; state its tolerance, or leave it out here",
  ],
  [
    "coefficients that cannot all be true",
    `correlations:
  - { between: [a, b], coefficient: 0.9, source: own }
  - { between: [a, c], coefficient: 0.9, source: own }
  - { between: [b, c], coefficient: -0.9, source: own }
`,
    "d.yaml:12:5: the correlations between 'a', 'b' and 'c' cannot all be true: their matrix is not positive semidefinite; expected coefficients that go together, with 0 for every pair left out; weaken one of them, or state the pairs that are missing",
  ],
  [
    "one out of reach of two shapes",
    "correlations:\n  - { between: [a, c], coefficient: 0.99, source: own }\n",
    "d.yaml:10:5: 'a' and 'c' cannot have a correlation of 0.99: their distributions differ too much; expected -0.977 to 0.977; weaken it, or write 1 or -1 where one determines the other",
  ],
  [
    "causes that make up more than all",
    common.replace("0.25", "0.6"),
    "d.yaml:11:8: the common causes 'reel' and 'age' make up 1.1 of the variance of 'a'; expected at most 1 in all; lower a share",
  ],
  [
    "a given in both",
    `${pairs}${common}`,
    "d.yaml:15:9: 'a' and 'c' of the common cause 'reel' also stand in correlations; expected one of the two; state every pair in correlations",
  ],
  [
    "a share missing",
    "common:\n  lot: { paths: [a], reason: so, source: own }\n",
    "d.yaml:10:8: common cause 'lot' has no share; expected a key 'share'; write a number from 0 to 1",
  ],
  [
    "an unknown source",
    "correlations:\n  - { between: [a, b], coefficient: 0.5, source: on }\n",
    "d.yaml:10:50: unknown source 'on' of a correlation; expected a key of sources; did you mean 'own'?",
  ],
  [
    "no list",
    "correlations: { between: [a, b] }\n",
    "d.yaml:9:15: correlations is no list; expected a list of pairs; begin each entry with a dash",
  ],
];

describe("an error in correlations says where, what, what was expected and what to do", () => {
  it.each(rows)("%s", (_, rest, message) => {
    expect(
      failure(file(rest))
        .split("\n")
        .find((line) => line.startsWith("d.yaml:")) ?? "",
    ).toBeTruthy();
    expect(
      failure(file(rest))
        .replace(/^d\.yaml has \d+ errors\n/, "")
        .split("\n")[0],
    ).toBe(message);
  });
});
