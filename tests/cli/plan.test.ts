import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, it } from "vitest";
import { hashOfLibrary } from "../../lib/cli/library";

const folder = mkdtempSync(join(tmpdir(), "library-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it("a sheet is stale when the library has changed, or what draws its plots", () => {
  const none = hashOfLibrary(folder);
  writeFileSync(join(folder, "workings.js"), "one");
  const library = hashOfLibrary(folder);
  writeFileSync(join(folder, "vega.js"), "one");
  const plots = hashOfLibrary(folder);
  writeFileSync(join(folder, "page.js"), "one");
  expect(new Set([none, library, plots]).size).toBe(3);
  expect(hashOfLibrary(folder)).toBe(plots);
});
