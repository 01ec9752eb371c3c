/**
 * Compiles text with the two compilers that users meet: TypeScript 5.0 without `strict`, as the notebook kernel does, and
 * the current one with `strict`. Gives the errors of that text only, by line.
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import ts from "typescript-5.0";

export interface CompileError {
  /** From 1. */
  readonly line: number;
  readonly message: string;
}

export interface Compiled {
  readonly errors: readonly CompileError[];
  readonly instantiations: number;
}

const root = resolve(import.meta.dirname, "../..");
const lib = join(root, "lib");

/** An import line for each module of the library that a test's text needs. */
export function imports(modules: Readonly<Record<string, readonly string[]>>): string {
  return Object.entries(modules).map(([file, names]) => `import type { ${names.join(", ")} } from "${join(lib, file)}";`).join("\n");
}

/** Every option that the notebook kernel's converter sets and that changes how types are checked. */
const notebookOptions: ts.CompilerOptions = {
  strict: false,
  target: ts.ScriptTarget.ES2020,
  module: ts.ModuleKind.CommonJS,
  moduleResolution: ts.ModuleResolutionKind.NodeJs,
  noEmit: true,
  skipLibCheck: true,
  types: [],
};

/** Files of the library and the compiler, read once for all texts. */
const read = new Map<string, ts.SourceFile | undefined>();

/** TypeScript 5.0, strict off. The text sees the sources of the library. */
export function compileAsNotebook(text: string): Compiled {
  const file = join(root, "tests/types/text-under-test.ts");
  const host = ts.createCompilerHost(notebookOptions);
  const { fileExists, getSourceFile } = host;
  host.fileExists = (name) => name === file || fileExists(name);
  host.getSourceFile = (name, options, ...rest) => {
    if (name === file) return ts.createSourceFile(name, text, options);
    if (!read.has(name)) read.set(name, getSourceFile(name, options, ...rest));
    return read.get(name);
  };
  const program = ts.createProgram([file], notebookOptions, host);
  const source = program.getSourceFile(file);
  const diagnostics = [...program.getSyntacticDiagnostics(source), ...program.getSemanticDiagnostics(source)];
  return {
    errors: diagnostics.map((d) => ({
      line: ts.getLineAndCharacterOfPosition(d.file as ts.SourceFile, d.start ?? 0).line + 1,
      message: ts.flattenDiagnosticMessageText(d.messageText, "\n"),
    })),
    instantiations: program.getInstantiationCount(),
  };
}

const strictProject = {
  compilerOptions: {
    strict: true, noUncheckedIndexedAccess: true, exactOptionalPropertyTypes: true, target: "es2022", lib: ["es2023"],
    module: "esnext", moduleResolution: "bundler", noEmit: true, skipLibCheck: true, types: [],
  },
  files: ["text.ts"],
};

/** The current compiler, strict. */
export function compileStrict(text: string): readonly CompileError[] {
  const folder = mkdtempSync(join(tmpdir(), "types-"));
  try {
    writeFileSync(join(folder, "text.ts"), text);
    writeFileSync(join(folder, "tsconfig.json"), JSON.stringify(strictProject));
    const run = spawnSync(process.execPath, [join(root, "node_modules/typescript/bin/tsc"), "-p", folder, "--pretty", "false"], { encoding: "utf8", cwd: folder });
    return readErrors(run.stdout);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** `text.ts(3,7): error TS2345: …`, continued on indented lines; errors of other files do not count. */
function readErrors(output: string): readonly CompileError[] {
  const errors: { line: number; message: string }[] = [];
  let inside = false;
  for (const row of output.split("\n")) {
    const start = /^(\S.*?)\((\d+),\d+\): error TS\d+: (.*)$/.exec(row);
    if (start !== null) {
      inside = (start[1] as string).endsWith("text.ts") && !(start[1] as string).includes("formula/");
      if (inside) errors.push({ line: Number(start[2]), message: start[3] as string });
    } else if (inside && row.startsWith("  ")) {
      const last = errors.at(-1) as { message: string };
      last.message += `\n${row}`;
    }
  }
  return errors;
}
