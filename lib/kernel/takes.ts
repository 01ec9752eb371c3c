/** Which results of other sheets a worksheet takes, read from its cells without running them. */
import { loadTypeScript, type TypeScript } from "./cell-parser";
import { codeCells, type Notebook } from "./notebook";

export interface Take {
  /** The sheet taken from, and the name it published. */
  readonly sheet: string;
  readonly name: string;
  /** 1-based among the code cells. */
  readonly cell: number;
}

/** Every `….take({ symbol: ["sheet.name", unit] })` with literal names, in order. */
export function takesOf(notebook: Notebook): Take[] {
  // Few sheets take anything: those that never say so need no compiler.
  const cells = codeCells(notebook).map(({ source }, index) => ({ source, cell: index + 1 }));
  const speaking = cells.filter(({ source }) => /\btake\s*\(/.test(source));
  if (speaking.length === 0) return [];
  const ts = loadTypeScript();
  return speaking.flatMap(({ source, cell }) =>
    names(ts, ts.createSourceFile("cell.ts", source, ts.ScriptTarget.ES2022, true)).flatMap((text) => {
      const dot = text.indexOf(".");
      return dot > 0 ? [{ sheet: text.slice(0, dot), name: text.slice(dot + 1), cell }] : [];
    }),
  );
}

function names(ts: typeof TypeScript, file: TypeScript.SourceFile): string[] {
  const found: string[] = [];
  const visit = (node: TypeScript.Node): void => {
    if (ts.isCallExpression(node) && ts.isPropertyAccessExpression(node.expression) && node.expression.name.text === "take") {
      for (const argument of node.arguments) found.push(...firstTexts(ts, argument));
    }
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}

/** The first texts of the lists that are an object's values. */
function firstTexts(ts: typeof TypeScript, argument: TypeScript.Node): string[] {
  if (!ts.isObjectLiteralExpression(argument)) return [];
  return argument.properties.flatMap((property) => {
    if (!ts.isPropertyAssignment(property) || !ts.isArrayLiteralExpression(property.initializer)) return [];
    const [first] = property.initializer.elements;
    return first !== undefined && ts.isStringLiteralLike(first) ? [first.text] : [];
  });
}
