/**
 * tslab's converter and executor. Four things differ from its own Jupyter kernel: the short form of an object's property
 * is mended (see shorthand.ts), one set of ambient types is used wherever the notebook lies, inline source maps are asked
 * for, so that an error can be placed in its cell, and a headless run does not watch files (nothing changes during it).
 */
import { createRequire } from "node:module";
import { dirname } from "node:path";
import vm from "node:vm";
import type * as TypeScript from "@tslab/typescript-for-tslab";
import type { Converter, ConvertResult } from "tslab/dist/converter";
import type { Executor } from "tslab/dist/executor";
import { type CellPlaces, takeMaps } from "./positions";
import { cellPrograms } from "./programs";
import type { DisplayData } from "./protocol";

/** What happened to the cell that was executed last. */
export interface Outcome {
  readonly ok: boolean;
  readonly converted: ConvertResult | undefined;
  /** What the cell threw, where it compiled and yet is not ok. */
  readonly thrown: unknown;
}

/** The cells of one notebook: names and places of an earlier notebook are not seen. */
export interface CellRun {
  execute(source: string, scriptName: string): Promise<Outcome>;
  readonly executor: Executor;
  readonly maps: ReadonlyMap<string, CellPlaces>;
}

interface Tslab {
  /** Starts a notebook with the converter that the notebooks before it have used. */
  open(): CellRun;
  /** Compiles what many cells start with, so that the first one need not wait for the types of the library. */
  warm(source: string): void;
  /** Whether cells have had files of their own compiled: the converter remembers those. */
  readonly hasOwnFiles: boolean;
  onDisplay(write: (display: DisplayData, update: boolean) => void): void;
}

/** Opens tslab in the current folder. Call once a process: it patches that process. */
export function openTslab(load: NodeJS.Require, options: { readonly watch: boolean } = { watch: false }): Tslab {
  prepareTypeScript(load, options.watch);
  const { createConverter } = load("tslab/dist/converter") as typeof import("tslab/dist/converter");
  const { createExecutor } = load("tslab/dist/executor") as typeof import("tslab/dist/executor");
  const jupyter = load("tslab/dist/jupyter") as { lastWriteDisplayData: unknown };
  const current = {
    scriptName: "",
    converted: undefined as ConvertResult | undefined,
    thrown: undefined as unknown,
    maps: new Map<string, CellPlaces>(),
    hasOwnFiles: false,
  };

  const inner = createConverter({ isJS: false, isBrowser: false });
  const converter: Converter = {
    ...inner,
    convert: (declarations, source) => {
      const result = inner.convert(declarations, source);
      current.hasOwnFiles ||= result.sideOutputs !== undefined;
      current.converted = withoutMaps(result, (found) => current.maps.set(current.scriptName, found));
      return current.converted;
    },
    addModule: (...module) => {
      current.hasOwnFiles = true;
      return inner.addModule(...module);
    },
  };
  nameScripts(() => current.scriptName);

  return {
    open() {
      current.maps = new Map();
      const { maps } = current;
      const executor = createExecutor(
        process.cwd(),
        { node: converter, browser: converter, close: () => inner.close() },
        {
          log: console.log,
          // tslab reports an exception as one argument; a diagnostic as a format and its parts, which we have as data.
          error: (...values: unknown[]) => {
            if (values.length === 1) current.thrown = values[0];
            else if (current.converted === undefined) console.error(...values);
          },
        },
      );
      const execute = async (source: string, scriptName: string) => {
        Object.assign(current, { scriptName, converted: undefined, thrown: undefined });
        const ok = await executor.execute(source);
        return { ok, converted: current.converted, thrown: current.thrown };
      };
      return { executor, maps, execute };
    },
    warm(source) {
      inner.convert("", source);
    },
    get hasOwnFiles() {
      return current.hasOwnFiles;
    },
    onDisplay(write) {
      jupyter.lastWriteDisplayData = write;
    },
  };
}

function withoutMaps(result: ConvertResult, keep: (maps: CellPlaces) => void): ConvertResult {
  if (result.output === undefined) return result;
  const { code, maps } = takeMaps(result.output);
  if (maps !== undefined) keep(maps);
  const strip = (side: { path: string; data: string }) => ({ ...side, data: takeMaps(side.data).code });
  return { ...result, output: code, ...(result.sideOutputs && { sideOutputs: result.sideOutputs.map(strip) }) };
}

/** Hands tslab a TypeScript whose two emit entry points use our options; its own exports are read-only getters. */
function prepareTypeScript(load: NodeJS.Require, watch: boolean): void {
  const fromTslab = createRequire(load.resolve("tslab/dist/converter"));
  const path = fromTslab.resolve("@tslab/typescript-for-tslab");
  const ts = { ...(fromTslab(path) as typeof TypeScript) };
  const { createWatchCompilerHost, transpileModule } = ts;
  const options = { inlineSourceMap: true, types: ["node"], typeRoots: [nodeTypes(load, fromTslab)] };
  const createHost = createWatchCompilerHost as (...args: unknown[]) => unknown;
  const programs = cellPrograms(ts);
  ts.createWatchCompilerHost = ((files: string[], own: TypeScript.CompilerOptions, system: unknown, _: unknown, ...rest: unknown[]) =>
    createHost(files, { ...own, ...options }, system, programs, ...rest)) as typeof createWatchCompilerHost;
  ts.transpileModule = (source, own) =>
    transpileModule(source, { ...own, compilerOptions: { ...own.compilerOptions, inlineSourceMap: true } });
  if (!watch) {
    const unwatched = () => ({ close: () => undefined });
    ts.sys.watchFile = unwatched;
    ts.sys.watchDirectory = unwatched;
  }
  (fromTslab.cache[path] as NodeJS.Module).exports = ts;
}

/** The `@types` folder with the types of Node: the project's, which Jupyter's kernel finds too, else tslab's own. */
function nodeTypes(...from: readonly NodeJS.Require[]): string {
  for (const { resolve } of from) {
    try {
      return dirname(dirname(resolve("@types/node/package.json")));
    } catch {
      // Not installed there.
    }
  }
  throw new Error("the types of Node (@types/node), on which tslab depends, are not installed: run npm ci");
}

/** Every cell becomes a script of its own name, so that a stack trace says which cell a function came from. */
function nameScripts(name: () => string): void {
  const run = vm.runInThisContext;
  vm.runInThisContext = (code, options) =>
    run(code, typeof options === "object" && options.breakOnSigint === true ? { filename: name(), ...options } : options);
}
