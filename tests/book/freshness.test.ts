import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, describe, expect, it, vi } from "vitest";
import { FreshRecord } from "../../lib/book/freshness";
import { scratch } from "../kernel/fixture";

const disk = vi.hoisted(() => ({ full: false }));
vi.mock("node:fs", async (original) => {
  const fs = await original<typeof import("node:fs")>();
  const wrapped = {
    ...fs,
    fsyncSync: (file: number) => {
      if (disk.full) throw Object.assign(new Error("as the test asked"), { code: "ENOSPC" });
      fs.fsyncSync(file);
    },
  };
  return { ...wrapped, default: wrapped };
});
afterEach(() => Object.assign(disk, { full: false }));

describe("the record of what ran", () => {
  it("holds the same bytes in whatever order sheets were remembered and forgotten", () => {
    const path = join(scratch(), "fresh.json");
    const record = new FreshRecord(path);
    for (const name of ["b", "a", "c"]) record.remember(name, `${name}1`);
    record.forget("a");
    expect(new FreshRecord(path).isFresh("a", "a1")).toBe(false);
    record.remember("a", "a1");
    expect(Object.keys(JSON.parse(readFileSync(path, "utf8")))).toEqual(["a", "b", "c"]);
    expect(new FreshRecord(path).isFresh("a", "a1")).toBe(true);
  });

  it("is removed where the disk has no room for it without the sheet to forget", () => {
    const path = join(scratch(), "fresh.json");
    const record = new FreshRecord(path);
    record.remember("a", "a1");
    disk.full = true;
    record.forget("unknown");
    expect(existsSync(path)).toBe(true);
    record.forget("a");
    expect(existsSync(path)).toBe(false);
  });
});
