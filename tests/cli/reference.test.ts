import { mkdtempSync, readFileSync, rmSync, statSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { reference } from "../../lib/cli/reference";
import { parseCommand } from "../../lib/cli/usage";

describe("workings reference", () => {
  let folder: string;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), "reference-"));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  const run = (words: readonly string[]) => {
    const said: string[] = [];
    const streams = { out: (text: string) => said.push(text), error: () => undefined, draw: () => undefined };
    const code = reference(parseCommand(words), streams, { watch: () => undefined });
    return { code, said: said.join("") };
  };

  it("writes one file where it is told, and leaves it alone when nothing has changed", () => {
    const path = join(folder, "new", "physics.html");
    expect(run(["reference", "--output", path]).said).toMatch(/physics\.html {2}\d+ kB\n$/);
    const [text, time] = [readFileSync(path, "utf8"), statSync(path).mtimeMs];
    expect(text.startsWith("<!doctype html>")).toBe(true);
    const again = run(["reference", "--output", path, "--json"]);
    expect(again.code).toBe(0);
    expect(JSON.parse(again.said)).toMatchObject({ ok: true, file: path, changed: false });
    expect(statSync(path).mtimeMs).toBe(time);
  });
});
