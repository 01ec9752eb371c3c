/**
 * The cells of a sheet as modules: each cell exports what it declares and imports what it uses of earlier ones, so that
 * one call of the native compiler checks them all and a plain process runs them. Names, scopes and types are then the
 * language's own, not rewritten ones.
 */
import { loadTypeScript, type TypeScript } from "../cell-parser";
import type { JobCell } from "../protocol";
import { type Refusal, specialComment, topForAwait, usedInFunctions } from "./refused";

export interface CellModule {
  /** 1-based among the notebook's code cells. */
  readonly cell: number;
  /** Text of the module: one line of imports, the cell's lines, one line of exports. */
  readonly text: string;
  /** Lines of the cell itself. */
  readonly lines: number;
  readonly isAsync: boolean;
}

/** A cell that cannot be a module: the cells before it can run, it and those after it cannot. */
export interface Obstacle {
  readonly cell: number;
  /** Both 1-based. */
  readonly line: number;
  readonly column: number;
  readonly message: string;
}

export interface SheetModules {
  readonly modules: readonly CellModule[];
  readonly obstacle?: Obstacle;
}

interface Internals {
  bindSourceFile(file: TypeScript.SourceFile, options: TypeScript.CompilerOptions): void;
}
interface Local {
  readonly flags: number;
  readonly declarations?: readonly TypeScript.Node[];
}
interface Unlisted {
  readonly locals?: ReadonlyMap<string, Local>;
  readonly parseDiagnostics: readonly TypeScript.DiagnosticWithLocation[];
}

interface Parsed {
  readonly file: TypeScript.SourceFile;
  /** What each name that the cell declares means. */
  readonly locals: ReadonlyMap<string, number>;
  readonly faults: readonly TypeScript.DiagnosticWithLocation[];
}

export const moduleName = (cell: number) => `./c${cell}`;

/** Lines of a module before those of its cell. */
export const headLines = 1;

/**
 * The modules of a sheet's cells, or undefined where a cell needs what only tslab gives: files of its own beside the
 * notebook, tslab's display functions, or one name for a type and a value of different cells.
 */
export function sheetModules(cells: readonly JobCell[]): SheetModules | undefined {
  const ts = loadTypeScript();
  const declared = new Map<string, Declared>();
  /** The first cell of which a function uses a name. */
  const heldBy = new Map<string, number>();
  const modules: CellModule[] = [];
  for (const { cell, source } of cells) {
    const { file, locals, faults } = parse(ts, source);
    const obstacle = syntaxFault(ts, file, faults, cell);
    if (obstacle !== undefined) return { modules, obstacle };
    const refusal = specialComment(ts, file) ?? topForAwait(ts, file) ?? anewUnderFunctions(ts, file, locals.keys(), heldBy);
    if (refusal !== undefined) return { modules, obstacle: { cell, ...placeOf(file, refusal), message: refusal.message } };
    if (importsOf(ts, file).some((name) => name === "tslab" || name.startsWith(".") || name.startsWith("/"))) return undefined;
    for (const [name, meaning] of locals) {
      const earlier = declared.get(name);
      if (earlier !== undefined && earlier.meaning !== meaning) return undefined;
    }
    const used = [...identifiersOf(ts, file)].filter((name) => !locals.has(name) && declared.has(name));
    modules.push({
      cell,
      text: `${importLine(used, declared)}\n${source}\n${exportLine([...locals.keys()])}`,
      lines: source.split("\n").length,
      isAsync: awaits(ts, file),
    });
    for (const [name, meaning] of locals) declared.set(name, { cell, meaning });
    for (const name of usedInFunctions(ts, file)) if (declared.has(name) && !heldBy.has(name)) heldBy.set(name, cell);
  }
  return { modules };
}

interface Declared {
  readonly cell: number;
  /** Bits: 1 a value, 2 a type; an import is both, since only the compiler knows. */
  readonly meaning: number;
}

/** Makes every cell a module to the parser. */
const head = "export {};\n";

function parse(ts: typeof TypeScript, source: string): Parsed {
  const file = ts.createSourceFile("cell.ts", head + source, ts.ScriptTarget.ES2022, true);
  (ts as unknown as Internals).bindSourceFile(file, { target: ts.ScriptTarget.ES2022 });
  const { locals = new Map(), parseDiagnostics: faults } = file as unknown as Unlisted;
  const isTop = ({ declarations = [] }: Local) => declarations.some((node) => !isInBlock(ts, node));
  const top = [...locals].filter(([, local]) => isTop(local)).map(([name, { flags }]) => [name, meaningOf(flags)] as const);
  return { file, locals: new Map(top), faults };
}

/** A `var` of a loop or a branch: no later cell sees it under tslab. */
function isInBlock(ts: typeof TypeScript, node: TypeScript.Node): boolean {
  let at = node;
  while (ts.isVariableDeclaration(at) || ts.isVariableDeclarationList(at) || ts.isVariableStatement(at) || isPattern(ts, at))
    at = at.parent;
  return ts.isVariableDeclaration(node) || ts.isBindingElement(node) ? !ts.isSourceFile(at) : false;
}

const isPattern = (ts: typeof TypeScript, node: TypeScript.Node) =>
  ts.isBindingElement(node) || ts.isObjectBindingPattern(node) || ts.isArrayBindingPattern(node);

/** TypeScript's SymbolFlags: Value, Type, Alias. */
function meaningOf(flags: number): number {
  const [value, type, alias] = [111551, 788968, 2097152];
  return (flags & (value | alias) ? 1 : 0) | (flags & (type | alias) ? 2 : 0);
}

function syntaxFault(ts: typeof TypeScript, file: TypeScript.SourceFile, faults: Parsed["faults"], cell: number): Obstacle | undefined {
  const [first] = faults;
  if (first === undefined) return undefined;
  const { line, character } = file.getLineAndCharacterOfPosition(first.start);
  const places = new Set(faults.map(({ start }) => start)).size - 1;
  const rest = places === 0 ? "" : `\n(and ${places} more ${places === 1 ? "error" : "errors"} in this cell)`;
  return { cell, line, column: character + 1, message: ts.flattenDiagnosticMessageText(first.messageText, "\n") + rest };
}

/** Under Jupyter, functions of earlier cells would see the new value of a name that is declared again, or none. */
function anewUnderFunctions(
  ts: typeof TypeScript,
  file: TypeScript.SourceFile,
  names: Iterable<string>,
  heldBy: ReadonlyMap<string, number>,
): Refusal | undefined {
  for (const name of names) {
    const holder = heldBy.get(name);
    const declaration = holder !== undefined && !isImported(ts, file, name) ? declarationOf(ts, file, name) : undefined;
    if (declaration === undefined) continue;
    const message = `${name} is declared again, though a function of cell ${holder} uses the earlier one: under Jupyter it would see this one; choose another name`;
    return { position: declaration.getStart(file), message };
  }
  return undefined;
}

function isImported(ts: typeof TypeScript, file: TypeScript.SourceFile, name: string): boolean {
  return file.statements.some((statement) => ts.isImportDeclaration(statement) && identifiersOf(ts, statement).has(name));
}

function declarationOf(ts: typeof TypeScript, file: TypeScript.SourceFile, name: string): TypeScript.Node | undefined {
  let found: TypeScript.Node | undefined;
  const visit = (node: TypeScript.Node): void => {
    if (found !== undefined) return;
    const named = node as { readonly name?: TypeScript.Node };
    if (named.name !== undefined && ts.isIdentifier(named.name) && named.name.text === name && !ts.isPropertyAccessExpression(node))
      found = named.name;
    else ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}

/** The head is a line of its own. */
function placeOf(file: TypeScript.SourceFile, { position }: Refusal): { readonly line: number; readonly column: number } {
  const { line, character } = file.getLineAndCharacterOfPosition(position);
  return { line, column: character + 1 };
}

/** What the cell imports, dynamic imports with a literal name too. */
function importsOf(ts: typeof TypeScript, file: TypeScript.SourceFile): string[] {
  const found: string[] = [];
  const visit = (node: TypeScript.Node): void => {
    const from =
      ts.isImportDeclaration(node) || ts.isExportDeclaration(node)
        ? node.moduleSpecifier
        : ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword
          ? node.arguments[0]
          : ts.isImportEqualsDeclaration(node) && ts.isExternalModuleReference(node.moduleReference)
            ? node.moduleReference.expression
            : ts.isImportTypeNode(node) && ts.isLiteralTypeNode(node.argument)
              ? node.argument.literal
              : undefined;
    if (from !== undefined && ts.isStringLiteralLike(from)) found.push(from.text);
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}

function identifiersOf(ts: typeof TypeScript, file: TypeScript.Node): ReadonlySet<string> {
  const names = new Set<string>();
  const visit = (node: TypeScript.Node): void => {
    if (ts.isIdentifier(node)) names.add(node.text);
    ts.forEachChild(node, visit);
  };
  visit(file);
  return names;
}

/** Whether the cell itself awaits, outside every function. */
function awaits(ts: typeof TypeScript, file: TypeScript.SourceFile): boolean {
  let found = false;
  const visit = (node: TypeScript.Node): void => {
    if (found || ts.isFunctionLike(node) || ts.isClassStaticBlockDeclaration(node)) return;
    found = ts.isAwaitExpression(node);
    if (!found) ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}

function importLine(used: readonly string[], declared: ReadonlyMap<string, Declared>): string {
  const from = new Map<number, string[]>();
  for (const name of used.toSorted()) {
    const { cell } = declared.get(name) as Declared;
    from.set(cell, [...(from.get(cell) ?? []), name]);
  }
  const imports = [...from].map(([cell, names]) => `import { ${names.join(", ")} } from "${moduleName(cell)}";`);
  return ["export {};", ...imports].join(" ");
}

const exportLine = (names: readonly string[]) => (names.length === 0 ? "" : `export { ${names.join(", ")} };`);
