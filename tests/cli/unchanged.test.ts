/** The short way of `run` is taken where every file is as it was when nothing was stale, and nowhere else. */
import { existsSync, mkdirSync, mkdtempSync, readFileSync, realpathSync, renameSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { lock } from "../../lib/cli/lock";
import { fileHash, rememberUnchanged, runUnchanged } from "../../lib/cli/unchanged";

const root = realpathSync(mkdtempSync(join(tmpdir(), "unchanged-")));
afterAll(() => rmSync(root, { recursive: true, force: true }));
const at = (name: string) => join(root, name);
const book = at("notebooks/book.yaml");
const names = ["notebooks/book.yaml", "notebooks/01-lamp.ipynb", "data/design.yaml", "data/reference/units.yaml", "build/results.json"];

/** What was said, with the exit code, or undefined where the long way is to look. */
function ran(...more: readonly string[]) {
  let said = "";
  const out = (text: string) => (said += text);
  const code = runUnchanged(["run", "--book", book, ...more], { out, error: out, draw: out });
  return code === undefined ? undefined : { code, said };
}

beforeEach(() => {
  rmSync(root, { recursive: true, force: true });
  for (const name of [...names, "build/fresh.json"]) {
    mkdirSync(join(at(name), ".."), { recursive: true });
    writeFileSync(at(name), `text of ${name}`);
  }
  const grounds = new Map([...names, "notebooks/not-there.csv"].map((name) => [at(name), fileHash(at(name))]));
  rememberUnchanged({ root, path: book }, [{ name: "lamp", file: "01-lamp.ipynb" }], grounds, "build/results.json");
});

describe("run where nothing has changed", () => {
  it("says of every sheet that it is fresh, and leaves no lock", () => {
    expect(ran()).toEqual({ code: 0, said: expect.stringMatching(/^lamp {2}fresh {2}\d\.\d s\n$/) });
    expect(JSON.parse(ran("--json")?.said ?? "")).toEqual({
      ok: true,
      sheets: [{ sheet: "lamp", file: "01-lamp.ipynb", ok: true, skipped: "fresh" }],
      results: "build/results.json",
    });
    expect(existsSync(at("build/run.lock"))).toBe(false);
  });

  it("looks closer where any file has changed, is gone or has come", () => {
    for (const name of [...names, "build/fresh.json"]) {
      const text = readFileSync(at(name));
      writeFileSync(at(name), "other");
      expect(ran(), name).toBeUndefined();
      rmSync(at(name));
      expect(ran(), name).toBeUndefined();
      writeFileSync(at(name), text);
      expect(ran()?.code, name).toBe(0);
    }
    for (const name of ["notebooks/not-there.csv", "data/reference/more.yaml"]) {
      writeFileSync(at(name), "now there");
      expect(ran(), name).toBeUndefined();
      rmSync(at(name));
    }
    expect(ran()?.code).toBe(0);
  });

  it("looks closer where a file has become a link, though it says the same", () => {
    renameSync(at("notebooks/01-lamp.ipynb"), at("elsewhere"));
    symlinkSync(at("elsewhere"), at("notebooks/01-lamp.ipynb"));
    expect(ran()).toBeUndefined();
  });

  it("looks closer where its record is damaged or gone, or another program's", () => {
    const record = at("build/unchanged.json");
    const whole = readFileSync(record, "utf8");
    for (const damaged of [whole.slice(0, 40), whole.replace("lamp", "lamb"), whole.replace(process.version, "v1.0.0"), "null", "{}"]) {
      writeFileSync(record, damaged);
      expect(ran(), damaged.slice(0, 60)).toBeUndefined();
    }
    rmSync(record);
    expect(ran()).toBeUndefined();
  });

  it("is not for named sheets, options that ask for more, other commands, or words that are none", () => {
    for (const words of [["lamp"], ["--all"], ["--jobs", "2"], ["--design", "x.yaml"], ["--heap", "1"], ["--nonsense"]])
      expect(ran(...words), words.join(" ")).toBeUndefined();
    const streams = { out: () => undefined, error: () => undefined, draw: () => undefined };
    expect(runUnchanged(["check", "--book", book], streams)).toBeUndefined();
    expect(runUnchanged(["run", "--help"], streams)).toBeUndefined();
  });

  it("looks closer while another run holds the lock", () => {
    const release = lock(at("build/run.lock"));
    expect(ran()).toBeUndefined();
    release();
    expect(ran()?.code).toBe(0);
  });
});
