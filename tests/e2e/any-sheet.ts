/** What every worksheet of the demo has to do, whatever it is about. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, expect, it } from "vitest";
import { readNotebook } from "../../lib/kernel/notebook";
import { isFull } from "../full";
import { root } from "../root";
import { design } from "./battery-by-steps";
import { designText, type Fresh, freshOf, freshRun } from "./run";

interface CommittedSheet {
  readonly path: string;
  readonly first: Fresh;
  /** Nominal value of a node, SI. */
  readonly nominal: (id: string) => number;
  /** Of a given, by its path. */
  readonly given: (path: string) => number;
  /** The verdict of a node by a requirement of the demo's design. */
  readonly judge: (node: string, requirement: string) => string;
  /** Says, inside a `describe`, that the sheet runs on the second design and freezes nothing. */
  readonly keepsToTheDesign: () => void;
}

/** The sheet of that name in notebooks/FILE as it is committed. */
export function committedSheet(name: string, file: string): CommittedSheet {
  const path = join(root, "notebooks", file);
  const first = freshOf(readNotebook(path));
  const own = (ids: Iterable<string>) => [...ids].filter((id) => id.startsWith(`${name}.`) && !id.includes("#")).toSorted();
  const keepsToTheDesign = () => {
    let other: Fresh;
    beforeAll(async () => {
      if (isFull) other = await freshRun(readFileSync(join(root, "tests/designs/second.yaml"), "utf8"), path);
    }, 240_000);

    it.runIf(isFull)("runs on another product's design file without an edit, and gives other numbers", () => {
      const ids = own(first.shown.keys());
      expect(own(other.shown.keys())).toEqual(ids);
      expect(ids.filter((id) => other.shown.get(id) !== first.shown.get(id)).length).toBeGreaterThan(0.8 * ids.length);
    });

    it("freezes nothing: every number follows its givens in the page", () => {
      expect(first.displays.flatMap(({ nodes }) => nodes).filter(({ kind }) => kind === "frozen")).toEqual([]);
    });
  };
  const nominal = (id: string): number => first.evaluation.nominal(id);
  const judge = (node: string, requirement: string) => {
    const { limit, judged } = design(designText()).requirement(requirement);
    return first.evaluation.verdict(node, limit, judged).verdict;
  };
  return { path, first, nominal, given: (path) => nominal(`givens.${path}`), judge, keepsToTheDesign };
}
