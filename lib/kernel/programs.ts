/**
 * The programs of the compiler that tslab asks for, two a cell. TypeScript's own for watching keep a record of what every
 * file of the program depends on, which costs as much as all else; tslab asks it of one file.
 */
import type * as TypeScript from "@tslab/typescript-for-tslab";
import { mendShorthand } from "./shorthand";

/** What the compiler has, and tslab uses, besides what it declares. */
interface Internals {
  bindSourceFile(file: TypeScript.SourceFile, options: TypeScript.CompilerOptions): void;
  getResolvedModule(file: TypeScript.SourceFile, name: string, mode: undefined): { readonly resolvedFileName: string } | undefined;
}
interface Importing extends TypeScript.SourceFile {
  readonly imports: readonly TypeScript.StringLiteralLike[];
}

/** The cell, as tslab hands it to the compiler. */
const isCell = ({ fileName }: TypeScript.SourceFile) => fileName.endsWith("/__tslab__.ts");

/** A factory of programs for `createWatchCompilerHost`. */
export function cellPrograms(ts: typeof TypeScript): TypeScript.CreateProgram<TypeScript.BuilderProgram> {
  const internals = ts as unknown as Internals;
  return (...args) => {
    const program = ts.createAbstractBuilder(...(args as Parameters<typeof ts.createAbstractBuilder>));
    program.getAllDependencies = (file) => dependencies(program, internals, file);
    // tslab reads the names that a cell defines before anything is checked.
    for (const file of program.getSourceFiles().filter(isCell)) internals.bindSourceFile(file, program.getCompilerOptions());
    mendShorthand(ts, program);
    return program;
  };
}

/** The file and those that it imports, and those that they import. */
function dependencies(program: TypeScript.BuilderProgram, { getResolvedModule }: Internals, file: TypeScript.SourceFile): string[] {
  const found = new Set([file]);
  for (const one of found) {
    for (const { text } of (one as Importing).imports) {
      const resolved = getResolvedModule(one, text, undefined);
      const imported = resolved && program.getSourceFile(resolved.resolvedFileName);
      if (imported !== undefined) found.add(imported);
    }
  }
  return [...found].map(({ fileName }) => fileName);
}
