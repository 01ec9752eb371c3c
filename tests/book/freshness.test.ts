import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, describe, expect, it, vi } from "vitest";
import { FreshRecord, fingerprint } from "../../lib/book/freshness";
import type { Design } from "../../lib/design/types";
import { formatNotebook, parseNotebook } from "../../lib/kernel/notebook";
import { scratch } from "../kernel/fixture";
import { display, publishBlock, requirementDisplay, shown } from "./display-fixture";

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

describe("the record of what ran, damaged", () => {
  it("never makes another fingerprint fresh: of 500 flipped bits each leaves the sheets fresh as they were, or not fresh", () => {
    const path = join(scratch(), "fresh.json");
    const print = (digit: string) => digit.repeat(64);
    const prints = { lamp: print("a"), lamq: print("b"), next: print("c") };
    const record = new FreshRecord(path);
    for (const [name, fingerprint] of Object.entries(prints)) record.remember(name, fingerprint);
    const whole = readFileSync(path);
    const seed = Date.now() % 2 ** 31;
    console.log(`flipped bits: seed ${seed}`);
    let state = seed;
    const random = (below: number) => {
      state = (Math.imul(state, 1103515245) + 12345) & 0x7fffffff;
      return Math.floor((state / 2 ** 31) * below);
    };
    let lost = 0;
    for (let count = 0; count < 500; count++) {
      const bytes = Buffer.from(whole);
      const at = random(bytes.length);
      bytes[at] = (bytes[at] as number) ^ (1 << random(8));
      writeFileSync(path, bytes);
      const damaged = new FreshRecord(path);
      for (const [name, own] of Object.entries(prints)) {
        if (!damaged.isFresh(name, own)) lost += 1;
        for (const other of Object.values(prints)) if (other !== own) expect(damaged.isFresh(name, other), `byte ${at}`).toBe(false);
      }
    }
    expect(lost).toBeGreaterThan(100);
  });
});

describe("the fingerprint of a sheet", () => {
  const design = {
    text: (path: string) => `text of ${path}`,
    requirement: (id: string) => ({ id, limit: "as stated" }),
  } as unknown as Design;
  const of = (notebook = shown(display("light", publishBlock)), given = design) =>
    fingerprint({ name: "light", notebook, takes: [] }, given, "library", new Map());

  it("is the same for the same, and not for other outputs, cells or words of the design file", () => {
    expect(of()).toBe(of());
    const edited = shown(display("light", publishBlock));
    for (const cell of edited.cells) if (cell.cell_type === "code") Object.assign(cell, { source: "show() // again" });
    const others = [
      of(shown(display("light", publishBlock), requirementDisplay("light", "holds"))),
      of(shown({ ...display("light", publishBlock), analyses: [] })),
      of(edited),
      of(undefined, { ...design, text: () => "other" }),
    ];
    expect(new Set([of(), ...others]).size).toBe(5);
  });

  it("is the same of a notebook in memory and of the file that it was written to", () => {
    const notebook = shown(display("light", publishBlock), requirementDisplay("light", "holds"));
    expect(of(parseNotebook(formatNotebook(notebook), "light.ipynb"))).toBe(of(notebook));
  });

  it("is none of a sheet that has not run", () => {
    const bare = shown(display("light", publishBlock));
    for (const cell of bare.cells) if (cell.cell_type === "code") Object.assign(cell, { outputs: [], execution_count: null });
    expect(of(bare)).toBeUndefined();
  });
});
