/** A folder of files is replaced whole or not at all. */
import { chmodSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { writeFolder } from "../../lib/kernel/write";

let home = "";
beforeEach(() => {
  home = mkdtempSync(join(tmpdir(), "folder-"));
});
afterEach(() => rmSync(home, { recursive: true, force: true }));

const files = { "README.md": "first", "figures/a.svg": "<svg/>" };
const held = (path: string) =>
  Object.fromEntries(
    readdirSync(path, { recursive: true, encoding: "utf8" })
      .filter((name) => statSync(join(path, name)).isFile())
      .map((name) => [name, readFileSync(join(path, name), "utf8")]),
  );

describe("writeFolder", () => {
  it("writes every file, and nothing when they are there already", () => {
    const path = join(home, "book");
    expect(writeFolder(path, files)).toBe(true);
    expect(held(path)).toEqual(files);
    expect(writeFolder(path, files)).toBe(false);
  });

  it("takes away what is no longer named, and leaves nothing beside it", () => {
    const path = join(home, "book");
    writeFolder(path, files);
    expect(writeFolder(path, { "README.md": "second" })).toBe(true);
    expect(held(path)).toEqual({ "README.md": "second" });
    expect(readdirSync(home)).toEqual(["book"]);
  });

  it("leaves the folder of before as it was where it cannot write", () => {
    const path = join(home, "book");
    writeFolder(path, files);
    const clash = { a: "a file", "a/b": "below a file" };
    expect(() => writeFolder(path, clash)).toThrow(/cannot write book: .*The folder on disk is as it was\./);
    expect(held(path)).toEqual(files);
    expect(readdirSync(home)).toEqual(["book"]);
  });

  it.skipIf(process.getuid?.() === 0)("says so where the place is read-only", () => {
    const place = join(home, "locked");
    mkdirSync(place);
    writeFileSync(join(place, "other"), "");
    chmodSync(place, 0o500);
    expect(() => writeFolder(join(place, "book"), files)).toThrow(/cannot write book/);
    expect(existsSync(join(place, "book"))).toBe(false);
    chmodSync(place, 0o700);
  });
});
