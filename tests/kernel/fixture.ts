/** Folders, notebooks and the built child script for the kernel's tests. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { buildSync } from "esbuild";
import type { RunOptions } from "../../lib/kernel/host";
import { nativeCompiler } from "../../lib/kernel/native/check";
import { NativeCells } from "../../lib/kernel/native/native-cells";
import { formatNotebook, type Notebook } from "../../lib/kernel/notebook";
import { isFull } from "../full";
import { root, testFolder } from "../root";
import { hooks } from "../shared-process";

const folders: string[] = [];
hooks.afterFile.push(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

/** A fresh folder under the project, so that cells find its packages; removed when the test file is done. */
export function scratch(): string {
  const folder = mkdtempSync(join(testFolder, "kernel-"));
  folders.push(folder);
  return folder;
}

/** Bundles the given entries of lib/ into a folder, as the build does. */
export function bundle(folder: string, entries: Readonly<Record<string, string>>): void {
  buildSync({
    entryPoints: Object.fromEntries(Object.entries(entries).map(([name, path]) => [name, join(root, "lib", path)])),
    outdir: folder,
    bundle: true,
    platform: "node",
    format: "cjs",
    target: "node20",
    packages: "external",
    logLevel: "error",
  });
}

/** Cells run as `workings run` runs them; in a full run as Jupyter does, whose compiler takes a second for each. */
export function quickEngine(folder: string): RunOptions {
  const compiler = nativeCompiler();
  return isFull || compiler === undefined ? {} : { native: new NativeCells(compiler, folder, "the library of this test") };
}

export function notebookOf(...sources: readonly string[]): Notebook {
  return {
    nbformat: 4,
    nbformat_minor: 5,
    metadata: { kernelspec: { display_name: "TypeScript", language: "typescript", name: "tslab" }, language_info: { name: "typescript" } },
    cells: sources.map((source, index) =>
      source.startsWith("#")
        ? { cell_type: "markdown", id: `m${index + 1}`, metadata: {}, source }
        : { cell_type: "code", id: `c${index + 1}`, metadata: {}, source, outputs: [], execution_count: null },
    ),
  };
}

export function writeFixture(folder: string, name: string, ...sources: readonly string[]): string {
  const path = join(folder, name);
  writeFileSync(path, formatNotebook(notebookOf(...sources)));
  return path;
}
