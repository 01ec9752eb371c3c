/** A cell's module as the script that runs: CommonJS, its last expression handed over, its places kept. */
import { loadTypeScript, type TypeScript } from "../cell-parser";
import type { CompiledCell } from "../protocol";
import type { CellModule } from "./cell-modules";

/** Under this name a cell exports the value of its last expression. */
export const lastExpression = "tsLastExpr";

const emptyName = "empty.ts";

/** Scripts of a sheet's modules, by cell. */
export function compileModules(modules: readonly CellModule[]): ReadonlyMap<number, CompiledCell> {
  const ts = loadTypeScript();
  const read = modules.map((module) => ({ module, file: ts.createSourceFile(`c${module.cell}.ts`, module.text, target(ts)) }));
  const emitted = new Map<string, string>();
  for (const keepsImports of [true, false]) {
    const files = read.map(({ file }) => file).filter((file) => importsAreThere(ts, file) === keepsImports);
    if (files.length > 0) emit(ts, files, keepsImports, emitted);
  }
  return new Map(modules.map(({ cell, isAsync }) => [cell, compiled(cell, isAsync, emitted)]));
}

function compiled(cell: number, isAsync: boolean, emitted: ReadonlyMap<string, string>): CompiledCell {
  const code = (emitted.get(`c${cell}.js`) ?? "").replace(/^\/\/# sourceMappingURL=.*$/m, "").trimEnd();
  return { code, map: emitted.get(`c${cell}.js.map`) ?? "", isAsync };
}

function emit(ts: typeof TypeScript, files: readonly TypeScript.SourceFile[], keepsImports: boolean, emitted: Map<string, string>): void {
  const empty = ts.createSourceFile(emptyName, "export {};", target(ts));
  const all = [...files, empty];
  const names = all.map(({ fileName }) => fileName);
  const program = ts.createProgram(names, options(ts, keepsImports), host(all, emitted));
  if (keepsImports) leaveUnchecked(program.getTypeChecker(), empty);
  for (const file of files) program.emit(file, undefined, undefined, undefined, { before: [handOver(ts)] });
}

const target = (ts: typeof TypeScript) => ts.ScriptTarget.ES2022;

function options(ts: typeof TypeScript, keepsImports: boolean): TypeScript.CompilerOptions {
  return {
    module: ts.ModuleKind.CommonJS,
    target: target(ts),
    esModuleInterop: true,
    experimentalDecorators: true,
    jsx: ts.JsxEmit.React,
    newLine: ts.NewLineKind.LineFeed,
    // As tslab runs cells.
    noImplicitUseStrict: true,
    sourceMap: true,
    isolatedModules: true,
    noLib: true,
    noResolve: true,
    preserveValueImports: keepsImports,
  };
}

/** A program of these files alone, which emits into a map. */
function host(files: readonly TypeScript.SourceFile[], emitted: Map<string, string>): TypeScript.CompilerHost {
  return {
    getSourceFile: (name) => files.find(({ fileName }) => fileName === name),
    fileExists: (name) => files.some(({ fileName }) => fileName === name),
    writeFile: (name, text) => emitted.set(name, text),
    readFile: () => "",
    getDefaultLibFileName: () => "lib.d.ts",
    useCaseSensitiveFileNames: () => true,
    getCanonicalFileName: (name) => name,
    getCurrentDirectory: () => "",
    getNewLine: () => "\n",
  };
}

/**
 * The compiler checks a file before it emits it, only to learn which imports are used as values: two fifths of the time, and the native
 * compiler has checked the cell. Where all imports are kept nothing of that is needed, and an empty file is checked in its place.
 */
function leaveUnchecked(checker: TypeScript.TypeChecker, empty: TypeScript.SourceFile): void {
  const internal = checker as unknown as { getEmitResolver(file?: TypeScript.SourceFile): unknown };
  const resolver = internal.getEmitResolver.bind(checker);
  internal.getEmitResolver = () => resolver(empty);
}

/** Whether what a cell imports is surely there when it runs, so that an import of types alone can be kept. */
const importsAreThere = (ts: typeof TypeScript, { statements }: TypeScript.SourceFile): boolean =>
  statements.every((statement) => !ts.isImportDeclaration(statement) || isThere(ts, statement));

function isThere(ts: typeof TypeScript, { moduleSpecifier }: TypeScript.ImportDeclaration): boolean {
  if (!ts.isStringLiteral(moduleSpecifier)) return false;
  const { text } = moduleSpecifier;
  return /^\.\/c\d+$/.test(text) || /^workings(\/(units|physics))?$/.test(text);
}

/** The last statement, where it is an expression, becomes an export. */
function handOver(ts: typeof TypeScript): TypeScript.TransformerFactory<TypeScript.SourceFile> {
  return () => (file) => {
    const { factory } = ts;
    const at = file.statements.findLastIndex((statement) => !ts.isExportDeclaration(statement));
    const last = file.statements[at];
    if (last === undefined || !ts.isExpressionStatement(last)) return file;
    const target = factory.createPropertyAccessExpression(factory.createIdentifier("exports"), lastExpression);
    const handed = factory.createExpressionStatement(factory.createAssignment(target, last.expression));
    ts.setTextRange(handed, last);
    return factory.updateSourceFile(file, [...file.statements.slice(0, at), handed, ...file.statements.slice(at + 1)]);
  };
}
