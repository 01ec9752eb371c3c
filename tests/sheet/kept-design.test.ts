/** A design as it was read, kept for other processes: the same in every part, and never of other texts, another library or damaged. */
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { contentOf } from "../../lib/design/read";
import type { Design } from "../../lib/design/types";
import { designBytes } from "../../lib/sheet/kept-design";
import { findProject, readDesignFile, referenceTexts } from "../../lib/sheet/project";

const root = join(__dirname, "../..");
const key = Symbol.for("workings.design");
let folder: string;
let keeping: { path: string; stamp: string };

const design = (): string => join(folder, "data/bittern/design.yaml");
const edit = (path: string, from: string, to: string): void => {
  const text = readFileSync(path, "utf8");
  expect(text).toContain(from);
  writeFileSync(
    path,
    text.replace(from, () => to),
  );
};

/** Reads the design, keeping it where it had to be parsed. */
function read(): { readonly design: Design; readonly isParsed: boolean } {
  let isParsed = false;
  const onParsed = (bytes: Uint8Array) => {
    isParsed = true;
    writeFileSync(keeping.path, bytes);
  };
  return { design: readDesignFile(design(), folder, { keeping, onParsed }), isParsed };
}

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "kept-design-"));
  for (const part of ["data", "notebooks/book.yaml"]) cpSync(join(root, part), join(folder, part), { recursive: true });
  keeping = { path: join(folder, "kept.bin"), stamp: "this library" };
});

afterEach(() => {
  Reflect.deleteProperty(globalThis, key);
  rmSync(folder, { recursive: true, force: true });
});

describe("a kept design", () => {
  it("is the parsed one in every part", () => {
    const first = read();
    const second = read();
    expect([first.isParsed, second.isParsed]).toEqual([true, false]);
    expect(contentOf(second.design)).toStrictEqual(contentOf(first.design));
    expect(second.design.given("rails.logic.voltage")).toStrictEqual(first.design.given("rails.logic.voltage"));
    expect(second.design.place("rails.logic.voltage")).toBe(first.design.place("rails.logic.voltage"));
    expect(() => second.design.given("rails.logic.voltag")).toThrow("did you mean");
  });

  it("is not used for a changed design file, a changed table beside it, or a changed reference", () => {
    read();
    edit(design(), "name: Bittern", "name: Heron");
    expect(read()).toMatchObject({ isParsed: true, design: { name: "Heron" } });
    edit(join(folder, "data/reference", Object.keys(referenceTexts(root))[0]?.split("/").at(-1) as string), "year:", "year: ");
    expect(read().isParsed).toBe(true);
    writeFileSync(join(folder, "data/bittern/beside.csv"), "temperature in °C,share of the capacity\n-20,0.6\n60,1\n");
    edit(
      design(),
      "givens:\n",
      "givens:\n  beside:\n    meaning: made up\n    source: invented\n    table:\n      columns: [temperature in °C, share of the capacity]\n      interpolation: linear\n      csv: beside.csv\n",
    );
    expect(read().isParsed).toBe(true);
    expect(read().isParsed).toBe(false);
    edit(join(folder, "data/bittern/beside.csv"), "60,1", "60,0.9");
    expect(read().isParsed).toBe(true);
  });

  it("is not used by another library, nor with a flipped bit, nor cut short", () => {
    read();
    const bytes = readFileSync(keeping.path);
    keeping = { ...keeping, stamp: "another library" };
    expect(read().isParsed).toBe(true);
    keeping = { ...keeping, stamp: "this library" };
    for (const broken of [
      Buffer.from(bytes.map((byte, i) => (i === bytes.length >> 1 ? byte ^ 1 : byte))),
      bytes.subarray(0, 1000),
      Buffer.alloc(0),
    ]) {
      writeFileSync(keeping.path, broken);
      expect(read().isParsed).toBe(true);
    }
  });

  it("tells every text that it rests on", () => {
    const told = (): string[] => {
      const paths: string[] = [];
      readDesignFile(design(), folder, { keeping, onRead: (path) => void paths.push(path) });
      return paths.sort();
    };
    const parsed = told();
    read();
    expect(told()).toEqual(parsed);
    expect(parsed.length).toBeGreaterThan(3);
  });

  it("is what a sheet's process reads where the runner says so", () => {
    const { design: parsed } = read();
    const content = contentOf(parsed);
    if (content === undefined) throw new Error("the design was not read from a file");
    const own = { ...referenceTexts(folder), "": readFileSync(design(), "utf8") };
    const renamed = Object.assign(Object.create(Object.getPrototypeOf(parsed)), { content: { ...content, fileName: "kept" } }) as Design;
    const bytes = designBytes(renamed, { named: "data/bittern/design.yaml", own, companions: {} }, keeping.stamp);
    writeFileSync(keeping.path, bytes as Uint8Array);
    expect(findProject(join(folder, "notebooks")).design.fileName).toBe("data/bittern/design.yaml");
    Object.assign(globalThis, { [key]: keeping });
    expect(findProject(join(folder, "notebooks")).design.fileName).toBe("kept");
    expect(findProject(join(folder, "notebooks")).design.given("rails.logic.voltage")).toStrictEqual(parsed.given("rails.logic.voltage"));
  });
});
