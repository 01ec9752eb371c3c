/** Where the benchmark works: on a copy of the book under build/, so that it changes no file of the project. */
import { spawnSync } from "node:child_process";
import { cpSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { parse } from "yaml";
import { pythonWith } from "./python";

/** `npm run` starts in the folder of package.json. */
const root = resolve(process.env.npm_config_local_prefix ?? ".");
export const outputFolder = join(root, "build/bench");
export const cli = join(root, "dist/cli.js");

/** A copy of the notebooks and data, never run. */
export function copyBook(name: string): string {
  const folder = join(outputFolder, name);
  rmSync(folder, { recursive: true, force: true });
  for (const part of ["notebooks", "data"]) cpSync(join(root, part), join(folder, part), { recursive: true });
  return folder;
}

/** Seconds that `workings` takes in a folder. Throws with what it said where it fails. */
export function workings(folder: string, ...words: string[]): number {
  return seconds(folder, process.execPath, [cli, ...words]);
}

/** Seconds that a command takes in a folder. */
export function seconds(
  folder: string,
  command: string,
  args: readonly string[],
  environment: Readonly<Record<string, string>> = {},
): number {
  const start = performance.now();
  output(folder, command, args, environment);
  return (performance.now() - start) / 1000;
}

/** What `workings` says in a folder. */
export function said(folder: string, ...words: string[]): string {
  return output(folder, process.execPath, [cli, ...words], {});
}

function output(folder: string, command: string, args: readonly string[], environment: Readonly<Record<string, string>>): string {
  const { status, stdout, stderr } = spawnSync(command, args, {
    cwd: folder,
    encoding: "utf8",
    env: { ...process.env, ...environment },
    maxBuffer: 1e8,
  });
  if (status !== 0) throw new Error(`${command} ${args.slice(0, 3).join(" ")} failed in ${folder}\n${stdout}\n${stderr}`);
  return stdout;
}

/** Paths of the worksheets that the book lists. */
export function sheetFiles(folder: string): string[] {
  const notebooks = join(folder, "notebooks");
  const { worksheets } = parse(readFileSync(join(notebooks, "book.yaml"), "utf8")) as { worksheets: string[] };
  return worksheets.map((file) => join(notebooks, file));
}

/** A plain tslab kernel named "tslab-bench", for Jupyter's programs. */
export const jupyterEnvironment = (): Readonly<Record<string, string>> => {
  const kernel = join(outputFolder, "jupyter/kernels/tslab-bench");
  mkdirSync(kernel, { recursive: true });
  const argv = [process.execPath, join(root, "node_modules/tslab/bin/tslab"), "kernel", "--config-path={connection_file}"];
  writeFileSync(join(kernel, "kernel.json"), JSON.stringify({ argv, display_name: "tslab", language: "typescript" }));
  return { JUPYTER_PATH: join(outputFolder, "jupyter") };
};

export const jupyterPython = (): string | undefined => pythonWith("nbclient");
