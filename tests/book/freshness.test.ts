import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterEach, describe, expect, it, vi } from "vitest";
import { differences, type Facts, FreshRecord, factsOf, Outputs, type Surroundings } from "../../lib/book/freshness";
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

const facts: Facts = { library: "l", cells: "c", outputs: "o", design: {}, taken: {}, files: {} };

describe("the record of what ran", () => {
  it("holds the same bytes in whatever order sheets were remembered and forgotten", () => {
    const path = join(scratch(), "fresh.json");
    const record = new FreshRecord(path);
    for (const name of ["b", "a", "c"]) record.remember(name, { facts });
    record.forget("a");
    expect(new FreshRecord(path).get("a")).toBeUndefined();
    record.remember("a", { facts });
    expect(Object.keys(JSON.parse(readFileSync(path, "utf8")).sheets)).toEqual(["a", "b", "c"]);
    expect(new FreshRecord(path).get("a")).toEqual({ facts });
  });

  it("is removed where the disk has no room for it without the sheet to forget", () => {
    const path = join(scratch(), "fresh.json");
    const record = new FreshRecord(path);
    record.remember("a", { facts });
    disk.full = true;
    record.forget("unknown");
    expect(existsSync(path)).toBe(true);
    record.forget("a");
    expect(existsSync(path)).toBe(false);
  });

  it.each(["", "7", "null", '{"version":1}', '{"version":2,"sum":"x","sheets":{"a":{"facts":{"library":"l"}},"b":7}}', '{"a":"old"}'])(
    "says nothing where it is damaged: %s",
    (text) => {
      const path = join(scratch(), "fresh.json");
      writeFileSync(path, text);
      expect(["a", "b", "toString"].map((name) => new FreshRecord(path).get(name))).toEqual([undefined, undefined, undefined]);
    },
  );
});

describe("the record of what ran, damaged", () => {
  it("says nothing of any sheet, whichever of 500 bits is flipped", () => {
    const path = join(scratch(), "fresh.json");
    const record = new FreshRecord(path);
    const design = { "given a": "1".repeat(32), "given c": "2".repeat(32) };
    for (const name of ["lamp", "lamq", "next"]) record.remember(name, { facts: { ...facts, design } });
    const whole = readFileSync(path);
    const seed = Date.now() % 2 ** 31;
    console.log(`flipped bits: seed ${seed}`);
    let state = seed;
    const random = (below: number) => {
      state = (Math.imul(state, 1103515245) + 12345) & 0x7fffffff;
      return Math.floor((state / 2 ** 31) * below);
    };
    for (let count = 0; count < 500; count++) {
      const bytes = Buffer.from(whole);
      const at = random(bytes.length);
      bytes[at] = (bytes[at] as number) ^ (1 << random(8));
      writeFileSync(path, bytes);
      const damaged = new FreshRecord(path);
      // White space between two values may be another one.
      for (const name of ["lamp", "lamq", "next"])
        expect([undefined, { facts: { ...facts, design } }], `byte ${at}`).toContainEqual(damaged.get(name));
    }
  });
});

describe("the facts of a sheet", () => {
  const around: Surroundings = {
    design: { text: (path: string) => `text of ${path}` } as Surroundings["design"],
    library: "library",
    sheets: new Map([["dark", new Outputs("dark", shown(display("dark", publishBlock)))]]),
    fileHash: (path) => `hash of ${path}`,
  };
  const uses = { design: ["given high"], files: ["notebooks/helper.ts"] };
  const light = shown(display("light", publishBlock));
  const of = (notebook = light, more: Partial<Surroundings> = {}) =>
    factsOf({ notebook, takes: [{ sheet: "dark", name: "V_s" }] }, uses, { ...around, ...more });

  it("say what has changed, and nothing where nothing has", () => {
    expect(differences(of(), of())).toEqual([]);
    const edited = shown(display("light", publishBlock));
    for (const cell of edited.cells) if (cell.cell_type === "code") Object.assign(cell, { source: "show() // again" });
    const overwritten = shown({ ...display("light", publishBlock), warnings: ["outside the range of R = V/I"] });
    const other = new Map([["dark", new Outputs("dark", shown(display("dark", { type: "publish", names: { V_s: "ambient" } })))]]);
    const said = (now: Facts) => differences(of(), now);
    expect(said(of(edited))).toEqual(["its cells have changed"]);
    expect(said(of(overwritten))).toEqual(["its outputs are not those of its last run"]);
    expect(said(of(light, { library: "another" }))).toEqual(["the library has changed"]);
    const text = () => "other";
    expect(said(of(light, { design: { text } as unknown as Surroundings["design"] }))).toEqual([
      "given high has changed in the design file",
    ]);
    expect(said(of(light, { sheets: other }))).toEqual(["dark.V_s, which it takes, has changed"]);
    expect(said(of(light, { fileHash: () => "absent" }))).toEqual(["notebooks/helper.ts has changed"]);
  });

  it("are the same of a notebook in memory and of the file that it was written to", () => {
    expect(of(parseNotebook(formatNotebook(light), "light.ipynb"))).toEqual(of());
  });

  it("do not count what other sheets put out beside what is taken", () => {
    const more = shown(display("dark", publishBlock), requirementDisplay("dark"));
    expect(differences(of(), of(light, { sheets: new Map([["dark", new Outputs("dark", more)]]) }))).toEqual([]);
  });
});
