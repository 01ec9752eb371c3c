import {
  chmodSync,
  lstatSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";
import { afterEach, describe, expect, it, vi } from "vitest";
import { writeUnchanged, writeWhole } from "../../lib/kernel/write";
import { scratch } from "./fixture";

/** What the next call of a file system function throws. */
const failing = vi.hoisted(() => ({ rename: "", fsync: "", link: "" }));
/** What another program does just before it. */
const meanwhile = vi.hoisted(() => ({ fsync: (): unknown => undefined, rename: (): unknown => undefined }));
vi.mock("node:fs", async (original) => {
  const fs = await original<typeof import("node:fs")>();
  const failure = (code: string) => Object.assign(new Error(`${code}: as the test asked`), { code });
  const wrapped = {
    ...fs,
    renameSync: (from: string, to: string) => {
      if (failing.rename) throw failure(failing.rename);
      const act = meanwhile.rename;
      meanwhile.rename = () => undefined;
      act();
      fs.renameSync(from, to);
    },
    fsyncSync: (file: number) => {
      if (failing.fsync) throw failure(failing.fsync);
      meanwhile.fsync();
      fs.fsyncSync(file);
    },
    linkSync: (from: string, to: string) => {
      if (failing.link) throw failure(failing.link);
      fs.linkSync(from, to);
    },
  };
  return { ...wrapped, default: wrapped };
});

afterEach(() => {
  Object.assign(failing, { rename: "", fsync: "", link: "" });
  Object.assign(meanwhile, { fsync: () => undefined, rename: () => undefined });
});

describe("writeWhole", () => {
  it("leaves the old file and no other when the disk is full", () => {
    const folder = scratch(),
      path = join(folder, "a.txt");
    writeFileSync(path, "old");
    failing.fsync = "ENOSPC";
    expect(() => writeWhole(path, "new")).toThrow("cannot write a.txt: the disk is full. The file on disk is as it was.");
    expect(readFileSync(path, "utf8")).toBe("old");
    expect(readdirSync(folder)).toEqual(["a.txt"]);
  });

  it("leaves the old file and no other when the folder is read-only", () => {
    const folder = scratch(),
      path = join(folder, "a.txt");
    writeFileSync(path, "old");
    failing.rename = "EACCES";
    expect(() => writeWhole(path, "new")).toThrow(/may not be written to/);
    expect(readFileSync(path, "utf8")).toBe("old");
    expect(readdirSync(folder)).toEqual(["a.txt"]);
  });

  it("keeps the mode of the file and follows a link to it", () => {
    const folder = scratch(),
      path = join(folder, "a.txt"),
      link = join(folder, "b.txt");
    writeFileSync(path, "old");
    chmodSync(path, 0o640);
    symlinkSync(path, link);
    expect(writeWhole(link, "new")).toBe(true);
    expect(readFileSync(path, "utf8")).toBe("new");
    expect(lstatSync(link).isSymbolicLink()).toBe(true);
    expect(statSync(path).mode & 0o777).toBe(0o640);
  });

  it("makes the folders it needs and says when one of them is a file", () => {
    const folder = scratch();
    expect(writeWhole(join(folder, "new/deeper/a.txt"), "x")).toBe(true);
    mkdirSync(join(folder, "sub"));
    writeFileSync(join(folder, "sub/file"), "");
    expect(() => writeWhole(join(folder, "sub/file/a.txt"), "x")).toThrow(/a part of the path is a file/);
  });
});

describe("writeUnchanged", () => {
  function read() {
    const folder = scratch(),
      path = join(folder, "a.txt");
    writeFileSync(path, "old");
    const attempt = (before = "old") => writeUnchanged(path, Buffer.from(before), "ours");
    const left = () => ({ text: readFileSync(path, "utf8"), names: readdirSync(folder) });
    /** Many editors write a file of another name and put it in the place. */
    const saveByRename = () => {
      writeFileSync(join(folder, "b.txt"), "theirs");
      renameSync(join(folder, "b.txt"), path);
    };
    return { path, attempt, left, saveByRename };
  }
  const theirs = { text: "theirs", names: ["a.txt"] };
  const refusal = "a.txt was saved by another program meanwhile";

  it("writes what is as it was, on file systems without second names too", () => {
    const { attempt, left } = read();
    expect(attempt()).toBe(true);
    failing.link = "EPERM";
    expect(attempt("ours")).toBe(false);
    expect(left()).toEqual({ text: "ours", names: ["a.txt"] });
    const again = read();
    expect(again.attempt()).toBe(true);
    expect(again.left()).toEqual({ text: "ours", names: ["a.txt"] });
  });

  it("refuses a file saved or deleted since it was read, and one saved while ours is being written", () => {
    const before = read();
    expect(() => before.attempt("older")).toThrow(refusal);
    expect(before.left()).toEqual({ text: "old", names: ["a.txt"] });
    rmSync(before.path);
    expect(() => before.attempt()).toThrow(refusal);
    for (const link of ["", "EPERM"])
      for (const way of ["inPlace", "byRename"] as const) {
        failing.link = link;
        const { path, attempt, left, saveByRename } = read();
        meanwhile.fsync = way === "byRename" ? saveByRename : () => writeFileSync(path, "theirs");
        expect(attempt).toThrow(refusal);
        meanwhile.fsync = () => undefined;
        expect(left(), way).toEqual(theirs);
      }
  });

  it("brings back what is saved into the file between the last look and the rename", () => {
    const { path, attempt, left } = read();
    meanwhile.rename = () => writeFileSync(path, "theirs");
    expect(() => attempt()).toThrow(refusal);
    expect(left()).toEqual(theirs);
  });

  it("leaves the old file and no other when the disk is full", () => {
    const { attempt, left } = read();
    failing.fsync = "ENOSPC";
    expect(() => attempt()).toThrow("cannot write a.txt: the disk is full. The file on disk is as it was.");
    expect(left()).toEqual({ text: "old", names: ["a.txt"] });
  });
});
