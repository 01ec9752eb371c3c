/** Cells checked by the native TypeScript compiler: all sheets of a run in one call of its program. */
import { execFile } from "node:child_process";
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { promisify } from "node:util";
import { compileMessage } from "../failure";
import type { Failure } from "../protocol";
import { writeWhole } from "../write";
import { type CellModule, headLines } from "./cell-modules";

/** One sheet's modules, in a folder of their own under `name`. */
export interface Checkable {
  readonly name: string;
  readonly modules: readonly CellModule[];
}

/** By sheet, the first cell that does not compile, or null. */
export type Checked = ReadonlyMap<string, Failure | null>;

/** Path of the compiler's program for this machine, or undefined where the package has none. */
export function nativeCompiler(): string | undefined {
  try {
    const load = createRequire(createRequire(__filename).resolve("typescript/package.json"));
    const folder = dirname(load.resolve(`@typescript/typescript-${process.platform}-${process.arch}/package.json`));
    const program = join(folder, "lib", process.platform === "win32" ? "tsc.exe" : "tsc");
    return existsSync(program) ? program : undefined;
  } catch {
    return undefined;
  }
}

/** The options that tslab checks cells with; what its compiler lacks is named otherwise (module resolution). */
function settings(files: readonly string[]): object {
  const types = createRequire(__filename).resolve("@types/node/package.json");
  return {
    compilerOptions: {
      noEmit: true,
      strict: false,
      target: "es2022",
      lib: ["es2022"],
      module: "esnext",
      moduleResolution: "bundler",
      esModuleInterop: true,
      experimentalDecorators: true,
      resolveJsonModule: true,
      jsx: "react",
      types: ["node"],
      typeRoots: [dirname(dirname(types))],
      skipLibCheck: true,
      moduleDetection: "force",
    },
    files,
  };
}

/**
 * Checks the modules of all sheets. `folder` (build/cells) is where modules lie while they are checked and where verdicts are kept by
 * content: the same cells against the same library are not checked twice. Throws an Error with the compiler's words where it cannot run.
 */
export async function checkModules(sheets: readonly Checkable[], folder: string, compiler: string, library: string): Promise<Checked> {
  const kept = sheets.map((sheet) => ({ sheet, path: join(folder, "checked", `${keyOf(sheet, library)}.json`) }));
  const known = new Map(kept.flatMap(({ sheet, path }) => (existsSync(path) ? [[sheet.name, readVerdict(path)] as const] : [])));
  const missing = kept.filter(({ sheet }) => known.get(sheet.name) === undefined);
  if (missing.length === 0) return known as Checked;
  const work = join(folder, `work-${process.pid}`);
  try {
    const names = missing.map((_, index) => `s${index}`);
    missing.forEach(({ sheet }, index) => {
      const own = join(work, names[index] as string);
      mkdirSync(own, { recursive: true });
      for (const { cell, text } of sheet.modules) writeFileSync(join(own, `c${cell}.ts`), text);
    });
    const files = missing.flatMap(({ sheet }, index) => sheet.modules.map(({ cell }) => `${names[index]}/c${cell}.ts`));
    writeFileSync(join(work, "tsconfig.json"), JSON.stringify(settings(files)));
    const faults = diagnosticsOf(await compile(compiler, work));
    missing.forEach(({ sheet, path }, index) => {
      const own = faults.filter(({ folder: name }) => name === names[index]);
      const failure = firstFailure(own, sheet.modules);
      known.set(sheet.name, failure);
      writeWhole(path, JSON.stringify(failure));
    });
    return known as Checked;
  } finally {
    rmSync(work, { recursive: true, force: true });
  }
}

function keyOf({ modules }: Checkable, library: string): string {
  const hash = createHash("sha256").update(library);
  for (const { cell, text } of modules) hash.update(`\0${cell}\0${text}`);
  return hash.digest("hex").slice(0, 32);
}

/** Undefined where the file is not what this library writes: then the sheet is checked again. */
function readVerdict(path: string): Failure | null | undefined {
  try {
    const verdict: unknown = JSON.parse(readFileSync(path, "utf8"));
    return verdict === null || (typeof verdict === "object" && "message" in verdict) ? (verdict as Failure | null) : undefined;
  } catch {
    return undefined;
  }
}

/** What the compiler prints. It ends with 0 or, where it found faults, with 1 or 2. */
async function compile(program: string, folder: string): Promise<string> {
  try {
    const { stdout } = await promisify(execFile)(program, ["-p", "tsconfig.json", "--pretty", "false"], {
      cwd: folder,
      maxBuffer: 256 * 1024 * 1024,
    });
    return stdout;
  } catch (error) {
    const { code, stdout = "", stderr = "" } = error as { code?: unknown; stdout?: string; stderr?: string };
    if ((code === 1 || code === 2) && /^\S.*\(\d+,\d+\): error TS/m.test(stdout)) return stdout;
    throw new Error(`the TypeScript compiler could not check the cells: ${stderr || stdout || String(error)}`);
  }
}

interface Diagnostic {
  readonly folder: string;
  readonly cell: number;
  readonly line: number;
  readonly column: number;
  readonly code: number;
  readonly chain: readonly string[];
}

/** From `s0/c2.ts(3,16): error TS2345: …` and the indented lines that go with it. */
function diagnosticsOf(text: string): Diagnostic[] {
  const found: (Omit<Diagnostic, "chain"> & { chain: string[] })[] = [];
  let last: (typeof found)[number] | undefined;
  for (const line of text.split(/\r?\n/)) {
    const place = /^(s\d+)[\\/]c(\d+)\.ts\((\d+),(\d+)\): error TS(\d+): (.*)$/.exec(line);
    if (place !== null) {
      const [, folder = "", ...rest] = place;
      const [cell = 0, row = 0, column = 0, code = 0] = rest.map(Number);
      last = { folder, cell, line: row - headLines, column, code, chain: [place[6] as string] };
      found.push(last);
    } else if (/^ {2}/.test(line)) last?.chain.push(line.trim());
    else last = undefined;
  }
  return found;
}

/** Of the first cell that has any, its first fault by place. */
function firstFailure(faults: readonly Diagnostic[], modules: readonly CellModule[]): Failure | null {
  const cell = Math.min(...faults.map((fault) => fault.cell));
  const own = faults.filter((fault) => fault.cell === cell).sort((a, b) => a.line - b.line || a.column - b.column);
  const [first] = own;
  if (first === undefined) return null;
  const lines = modules.find((module) => module.cell === cell)?.lines ?? 1;
  const more = new Set(own.map(({ line, column }) => `${line}:${column}`)).size - 1;
  const chain = first.code === writesImport ? [laterWrite(first.chain[0] ?? "")] : first.chain;
  return {
    kind: "compile",
    cell,
    line: Math.min(Math.max(first.line, 1), lines),
    column: first.column,
    message: compileMessage(chain, more),
  };
}

/** "Cannot assign to 'x' because it is an import." */
const writesImport = 2632;

function laterWrite(message: string): string {
  const name = /'([^']+)'/.exec(message)?.[1] ?? "a name";
  return `${name} is declared by an earlier cell, which a later one cannot write: functions of earlier cells would not see it; declare a new name here`;
}
