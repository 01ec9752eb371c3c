import { describe, expect, it } from "vitest";
import { readDesign } from "../../lib/design/read";
import type { GivenNode } from "../../lib/graph/node";
import { failure } from "./fixture";

/** A file with the givens named, and what follows. */
const file = (givens: string, rest = "") => `product: { name: Test, revision: "1" }
sources: { own: { type: document, title: Made up for this test } }
givens:
${givens}
${rest}`;

const given = (keys: string) => `  a: { ${keys}, meaning: a, source: own }`;
const read = (keys: string): GivenNode => readDesign(file(given(keys)), "d.yaml").given("a") as GivenNode;

describe("the kind of a spread", () => {
  it("is production unless the file says knowledge", () => {
    expect(read("value: 4.5 V ±2 %").knowledge).toBeUndefined();
    expect(read("value: 4.5 V ±2 %, spread: production").knowledge).toBeUndefined();
    expect(read("value: 78 % (72 to 82 %), spread: knowledge")).toMatchObject({ knowledge: true, text: "78 % (72 to 82 %)" });
  });

  it("is both where a doubt stands beside a tolerance", () => {
    expect(read("value: 2 GPa ±5 %, doubt: ±10 %")).toMatchObject({
      text: "2 GPa ±5 %, doubt ±10 %",
      spread: { kind: "rectangular", low: 1.9e9, high: 2.1e9 },
      doubt: { kind: "rectangular", low: 1.8e9, high: 2.2e9 },
    });
    expect(read("value: 2 GPa ±5 %, doubt: (1.7 to 2.2 GPa)").doubt).toMatchObject({ kind: "split", low: 1.7e9, high: 2.2e9 });
    expect(read("value: 14 dB ±0.3 dB, doubt: ±1 dB").doubt).toMatchObject({ low: 13, high: 15, scale: { factor: 20 } });
    expect(read('value: "(45 ± 3) %", doubt: "(45 ± 8) %"').doubt).toMatchObject({ low: 0.37, high: 0.53 });
    expect(read("value: 0.85 ±0.05, doubt: ±0.1").doubt).toMatchObject({ low: 0.75, high: 0.95 });
  });

  const rows: readonly (readonly [title: string, keys: string, message: string])[] = [
    [
      "a word that is no kind",
      "value: 4.5 V ±2 %, spread: doubt",
      "d.yaml:4:35: spread of given 'a' is 'doubt'; expected production or knowledge",
    ],
    [
      "a kind beside a range",
      "value: 3 V to 4 V, spread: knowledge",
      "d.yaml:4:35: given 'a' is a condition of use, which every unit meets: it is of neither kind; expected no key 'spread' beside a range",
    ],
    [
      "a kind of an exact value",
      "value: 3 V, spread: knowledge",
      "d.yaml:4:28: given 'a' is exact: it has no spread that could be of a kind",
    ],
    [
      "a doubt of an exact value",
      "value: 3 V, doubt: ±8 %",
      "d.yaml:4:27: given 'a' has a doubt, but no tolerance beside it; expected a value with a tolerance; write value: 3 V ±… and spread: knowledge",
    ],
    [
      "a doubt beside a range",
      "value: 3 V to 4 V, doubt: ±8 %",
      "d.yaml:4:34: given 'a' is a condition of use, which is never drawn and has no doubt",
    ],
    [
      "a doubt beside a list",
      "value: 'one of 1 V, 2 V', doubt: ±8 %",
      "d.yaml:4:41: given 'a' is a list of values, which has no doubt beside it",
    ],
    [
      "a doubt beside knowledge",
      "value: 3 V ±1 %, spread: knowledge, doubt: ±8 %",
      "d.yaml:4:51: given 'a' has spread: knowledge, and a doubt beside it; expected one of the two",
    ],
    [
      "a doubt on another scale",
      "value: 3 V ±1 %, doubt: ×/÷2",
      "d.yaml:4:32: doubt of given 'a': the doubt \"×/÷2\" stands on another scale than the tolerance; state both as ±, both in decibels, or both as ×/÷",
    ],
    [
      "a doubt about another value",
      "value: 3 V ±1 %, doubt: 4 V ±2 V",
      "d.yaml:4:32: doubt of given 'a': the doubt \"4 V ±2 V\" is about another value than the given",
    ],
    [
      "a doubt that is no text of a spread",
      "value: 3 V ±1 %, doubt: ±8 A",
      "d.yaml:4:32: doubt of given 'a': cannot read \"3\u00a0V ±8 A\": the tolerance is A (current), the value V (voltage)",
    ],
    [
      "a kind of a table",
      "table: { columns: [x in V, y in A], interpolation: linear, rows: [[0, 0], [1, 1]] }, spread: knowledge",
      "d.yaml:4:101: given 'a' has a key 'spread', but a table has no spread",
    ],
  ];
  it.each(rows)("%s is an error with its place and remedy", (_, keys, message) => {
    expect(failure(file(given(keys)))).toContain(message);
  });

  it("a correlation or a common cause joins givens of one kind", () => {
    const givens = `  a: { value: 4.5 V ±2 %, meaning: a, source: own }
  b: { value: 3 A ±2 %, spread: knowledge, meaning: b, source: own }
  c: { value: 3 A ±2 %, spread: knowledge, meaning: c, source: own }
  d: { value: 3 A ±2 %, doubt: ±5 %, meaning: d, source: own }`;
    const pair = (between: string) => file(givens, `correlations:\n  - { between: ${between}, coefficient: 0.5, source: own }`);
    expect(failure(pair("[a, b]"))).toContain(
      "d.yaml:9:16: a correlation joins two kinds of spread: 'b' is of knowledge, 'a' of production; expected givens whose spreads are of one kind; part them, or give them all the same spread:",
    );
    expect(failure(pair("[a, d]"))).toContain("d.yaml:9:20: 'd' has a doubt beside its tolerance");
    expect((readDesign(pair("[b, c]"), "d.yaml").given("c") as GivenNode).shared).toHaveLength(1);
    expect(failure(file(givens, "common:\n  lot: { paths: [a, b, c], share: 0.5, reason: alike, source: own }"))).toContain(
      "d.yaml:9:17: common cause 'lot' joins two kinds of spread: 'b' and 'c' are of knowledge, 'a' of production",
    );
  });
});
