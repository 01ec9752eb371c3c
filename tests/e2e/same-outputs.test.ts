/**
 * The book's own sheets give the outputs that stand in the repository however they are run, and run again only where
 * something that they depend on has changed.
 */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { readOutputs } from "../../lib/book/outputs";
import { codeCells, type Notebook, readNotebook } from "../../lib/kernel/notebook";
import { displayType } from "../../lib/sheet/block";
import { sample } from "../demo-book";
import { isFull } from "../full";
import { merged, noJupyter, runUnderJupyter } from "../kernel/jupyter";
import { root } from "../root";
import { BookCopy, statesOf } from "./test-book";

const { worksheets } = sample.book;
const committed = (file: string) => readFileSync(join(root, "notebooks", file), "utf8");
const allAsCommitted = (book: BookCopy) => {
  for (const { file } of worksheets) expect(book.read(`notebooks/${file}`) === committed(file), `${file} as committed`).toBe(true);
};
/** A law that the enclosure uses beyond its range, knowingly, is told by each run of it and by nothing else. */
const told = expect.stringMatching(/^(?: {2}outside the range of a_f = .*\n)?$/);
const states = (state: string) => Object.fromEntries(worksheets.map(({ name }) => [name, state]));

/** A copy of the book whose notebooks have never run, with book.yaml changed, and the order in which its sheets then ran. */
async function cold(change: (bookYaml: string) => string = (text) => text): Promise<{ book: BookCopy; order: readonly string[] }> {
  const book = new BookCopy(worksheets.map(({ file }) => file));
  book.write("notebooks/book.yaml", change(book.read("notebooks/book.yaml")));
  for (const { file } of worksheets) book.clear(file);
  const said = await book.run("--all");
  expect(said).toMatchObject({ status: 0, stderr: told });
  expect(statesOf(said)).toEqual(states("done, outputs changed"));
  return { book, order: Object.keys(statesOf(said)) };
}

let book: BookCopy;
let order: readonly string[];
const results = () => JSON.parse(book.read("build/results.json"));
beforeAll(async () => {
  ({ book, order } = await cold());
});

describe("the outputs in the repository", { timeout: 600_000 }, () => {
  it("are those of a book that has never run", () => allAsCommitted(book));

  it.runIf(isFull).each(worksheets)("are those of $name run alone, in a process of its own", async ({ name, file }) => {
    book.clear(file);
    expect(book.read(`notebooks/${file}`)).not.toBe(committed(file));
    const said = await book.run(name);
    expect(said).toMatchObject({ status: 0, stderr: told });
    const { [name]: own, ...sources } = statesOf(said);
    expect(own).toBe("done, outputs changed");
    expect([...new Set(Object.values(sources))].filter((state) => state !== "fresh")).toEqual([]);
    allAsCommitted(book);
  });

  it.runIf(isFull)("are those of the sheets listed in another order, which what they take puts right", async () => {
    // The first in the list, which collects from all, goes to its end.
    const { book: other, order: itsOrder } = await cold((text) => text.replace(/(^ {2}- .*\n)((?:^ {2}- .*\n)+)/m, "$2$1"));
    expect(itsOrder.toSorted()).toEqual(order.toSorted());
    expect(itsOrder.at(-1)).toBe("brief");
    allAsCommitted(other);
    expect(JSON.parse(other.read("build/results.json"))).toEqual(results());
  });

  it.runIf(isFull && !noJupyter).each(worksheets)(
    "say the same as those of $name under a real tslab kernel over the Jupyter protocol",
    ({ name, path }) => {
      const [theirs, ours] = [runUnderJupyter(path, join(root, "notebooks")), readNotebook(path)];
      expect(seen(theirs)).toEqual(seen(ours));
      expect(stored(name, theirs)).toEqual(stored(name, ours));
    },
  );
});

/** What a front end shows: everything but this library's own data. */
function seen(notebook: Notebook) {
  const bare = (data: unknown) => Object.fromEntries(Object.entries(data ?? {}).filter(([type]) => type !== displayType));
  const shown = (output: object) => ("data" in output ? { ...output, data: bare(output.data) } : output);
  return codeCells(notebook).map(({ id, outputs }) => ({ id, shown: merged(outputs).map(shown) }));
}

/**
 * What the book reads. A plain kernel does not tell which cell runs, so there every cell holds all nodes that it uses, where a run
 * refers to the cell that made them: read back, blocks and nodes are the same.
 */
function stored(name: string, notebook: Notebook) {
  const { displays } = readOutputs({ name, notebook });
  const nodes = new Map(displays.flatMap(({ display }) => display.nodes.map((node) => [node.id, node] as const)));
  return {
    displays: displays.map(({ ref, display: { sheet, block, warnings } }) => ({ ref, sheet, block, warnings })),
    nodes: [...nodes.keys()].sort().map((id) => nodes.get(id)),
  };
}

/** One after the other on one copy: each leaves its change. */
describe.runIf(isFull)("after a change, the book", { timeout: 600_000 }, () => {
  const change = (from: RegExp, to: string) => {
    const text = book.read("data/bittern/design.yaml");
    expect(text.match(new RegExp(from, "g"))).toHaveLength(1);
    book.write("data/bittern/design.yaml", text.replace(from, to));
  };
  const run = async () => {
    const said = await book.run();
    expect(said).toMatchObject({ status: 0, stderr: told });
    return statesOf(said);
  };
  /** Names under which a sheet publishes something else than before. */
  const moved = (sheet: string, before: ReturnType<typeof results>) => {
    const [old, now] = [before.sheets[sheet], results().sheets[sheet]];
    return Object.keys(old).filter((name) => JSON.stringify(old[name]) !== JSON.stringify(now[name]));
  };

  it("runs a sheet whose cell has got a comment, and none of those that take from it", async () => {
    book.edit("03-indicators.ipynb", (cell, index) => (index === 1 ? { ...cell, source: `${cell.source}\n// A remark.` } : cell));
    expect(await run()).toEqual({ ...states("fresh"), indicators: "done, as before" });
  });

  it("runs only the sheet that reads a given which has changed, where what it gives to others has not", async () => {
    const before = results();
    change(/value: 400 mAh ±20 mAh/, "value: 410 mAh ±20 mAh");
    // Board and rails take the runtime, charging the capacity, the control both.
    const changed = ["battery", "board", "charging", "rails", "control"].map((sheet) => [sheet, "done, outputs changed"]);
    expect(await run()).toEqual({ ...states("fresh"), ...Object.fromEntries(changed) });
    expect(moved("battery", before)).toContain("runtime");
    for (const sheet of ["brief", "enclosure", "indicators"]) expect(moved(sheet, before)).toEqual([]);
  });

  it("follows decisions that are taken otherwise through every sheet that takes from theirs", async () => {
    const before = results();
    change(/(?<= {4}rail:\n {6}chosen: )positive/, "logic");
    change(/(?<= {4}cell:\n {6}chosen: )middle/, "large");
    // The filter and the discharge take from none of them.
    expect(await run()).toEqual({ ...states("done, outputs changed"), "rf-filter": "fresh", esd: "fresh" });
    expect(moved("indicators", before)).toEqual(expect.arrayContaining(["P", "R_green", "led"]));
    expect(moved("battery", before)).toEqual(expect.arrayContaining(["play", "runtime", "mass"]));
    expect(moved("brief", before)).toEqual(["mass"]);
    expect(moved("enclosure", before)).toEqual(expect.arrayContaining(["clearance", "free"]));
  });
});
