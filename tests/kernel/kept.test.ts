/** What a run has found is kept: used as it is for what is the same, and for nothing else. */
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import { Graph } from "../../lib/graph/graph";
import type { GraphNode } from "../../lib/graph/node";
import { keep, kept } from "../../lib/kernel/kept";
import { formula, given, sweep, tolerant } from "../graph/nodes";

const folder = mkdtempSync(join(tmpdir(), "kept-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const nodes = (a: number): GraphNode[] => [
  tolerant("a", a, 0.1),
  tolerant("b", 3, 0.05),
  given("z", 0),
  formula("y", "a*b"),
  formula("far", "b/z"),
  formula("apart", "b + 1"),
  sweep("swept", "y", "a", [1, 2, 3]),
];
const limit = { high: 7 };

function asked(evaluation: Evaluation) {
  return {
    analyses: ["y", "apart"].map((id) => evaluation.analysis(id)),
    verdict: evaluation.verdict("y", limit, "95 %"),
    yield: evaluation.yieldOf(["y", "apart"].map((node) => ({ node, limit }))),
    band: evaluation.band("swept"),
  };
}

const keeping = (name: string, stamp = "one") => ({ path: join(folder, name), stamp });
const first = new Evaluation(Graph.from(nodes(2)));
const answers = asked(first);

describe("what an evaluation has found", () => {
  it("comes back as it was, bands and shares of units among it", () => {
    keep(keeping("whole"), first.found);
    const back = kept(keeping("whole")) as Evaluation;
    expect(asked(back)).toEqual(answers);
    expect(back.analysis("y")).not.toBe(first.analysis("y"));
  });

  it("is taken over for what is the same in the book, and computed for what is not", () => {
    keep(keeping("whole"), first.found);
    const back = kept(keeping("whole")) as Evaluation;
    const changed = new Evaluation(Graph.from(nodes(2.5)), { from: [back] });
    expect(changed.analysis("apart")).toBe(back.analysis("apart"));
    expect(asked(changed)).toEqual(asked(new Evaluation(Graph.from(nodes(2.5)))));
  });

  it("is not used by another library or Node, nor where the file is cut off or no such file", () => {
    keep(keeping("other"), first.found);
    expect(kept(keeping("other", "two"))).toBeUndefined();
    expect(kept(keeping("none"))).toBeUndefined();
    const bytes = readFileSync(keeping("other").path);
    writeFileSync(keeping("cut").path, bytes.subarray(0, bytes.length / 2));
    expect(kept(keeping("cut"))).toBeUndefined();
    writeFileSync(keeping("text").path, "no such thing");
    expect(kept(keeping("text"))).toBeUndefined();
  });

  it("is ignored after any one bit of the file has flipped", () => {
    const seed = Date.now() % 2 ** 31;
    console.log(`flipped bits: seed ${seed}`);
    let state = seed;
    const random = (below: number) => {
      state = (Math.imul(state, 1103515245) + 12345) & 0x7fffffff;
      return Math.floor((state / 2 ** 31) * below);
    };
    keep(keeping("flipped"), first.found);
    const whole = readFileSync(keeping("flipped").path);
    for (let count = 0; count < 500; count++) {
      const bytes = Buffer.from(whole);
      const at = random(bytes.length);
      bytes[at] = (bytes[at] as number) ^ (1 << random(8));
      writeFileSync(keeping("flipped").path, bytes);
      expect(kept(keeping("flipped")), `byte ${at}`).toBeUndefined();
    }
    writeFileSync(keeping("flipped").path, whole);
    expect(asked(kept(keeping("flipped")) as Evaluation)).toEqual(answers);
  });

  it("that cannot be written stops nobody", () => {
    writeFileSync(join(folder, "file"), "");
    const below = { path: join(folder, "file", "below"), stamp: "one" };
    expect(() => keep(below, first.found)).not.toThrow();
    expect(existsSync(below.path)).toBe(false);
  });
});
