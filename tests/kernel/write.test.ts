import { chmodSync, lstatSync, mkdirSync, readdirSync, readFileSync, statSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, describe, expect, it, vi } from "vitest";
import { writeWhole } from "../../lib/kernel/write";
import { scratch } from "./fixture";

/** What the next call of a file system function throws. */
const failing = vi.hoisted(() => ({ rename: "", fsync: "" }));
vi.mock("node:fs", async (original) => {
  const fs = await original<typeof import("node:fs")>();
  const failure = (code: string) => Object.assign(new Error(`${code}: as the test asked`), { code });
  const wrapped = {
    ...fs,
    renameSync: (from: string, to: string) => {
      if (failing.rename) throw failure(failing.rename);
      fs.renameSync(from, to);
    },
    fsyncSync: (file: number) => {
      if (failing.fsync) throw failure(failing.fsync);
      fs.fsyncSync(file);
    },
  };
  return { ...wrapped, default: wrapped };
});

afterEach(() => Object.assign(failing, { rename: "", fsync: "" }));

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
