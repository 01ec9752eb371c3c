/**
 * What a cell may not say although it compiles: tslab under Jupyter would pass it over, or run it otherwise than the language says, in
 * silence. `workings run` refuses it with its place.
 */
import type { TypeScript } from "../cell-parser";

export interface Refusal {
  /** From the start of the file that was parsed. */
  readonly position: number;
  readonly message: string;
}

/** A first comment by which tslab does not run the cell, or compiles it as something else. */
export function specialComment(ts: typeof TypeScript, { text }: TypeScript.SourceFile): Refusal | undefined {
  // The first line is not of the cell; comments are looked for from its end.
  const comments = ts.getLeadingCommentRanges(text, text.indexOf("\n")) ?? [];
  for (const { kind, pos, end } of comments) {
    if (kind !== ts.SyntaxKind.MultiLineCommentTrivia) continue;
    const tag = /^\/\*\*[\s\S]*?[\s*]@(browser|module|jsx)\b/.exec(text.slice(pos, end))?.[1];
    if (tag === undefined) continue;
    const what = tag === "jsx" ? "compiles the cell as JSX" : "does not run the cell";
    return { position: pos, message: `a comment with @${tag} is a sign to tslab, which then ${what}: take the sign out` };
  }
  return undefined;
}

/** A loop that awaits at the top of a cell: tslab does not take it for one, and the engine then refuses the cell without a line. */
export function topForAwait(ts: typeof TypeScript, file: TypeScript.SourceFile): Refusal | undefined {
  let found: Refusal | undefined;
  const visit = (node: TypeScript.Node): void => {
    if (found !== undefined || ts.isFunctionLike(node) || ts.isClassLike(node)) return;
    if (ts.isForOfStatement(node) && node.awaitModifier !== undefined)
      found = {
        position: node.getStart(file),
        message: "tslab runs no 'for await' at the top of a cell: put the loop into an async function and await that",
      };
    else ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}

/** Names that functions of a cell use and do not declare themselves: they are looked up when the function is called. */
export function usedInFunctions(ts: typeof TypeScript, file: TypeScript.SourceFile): ReadonlySet<string> {
  const used = new Set<string>();
  const visit = (node: TypeScript.Node, own: ReadonlySet<string> | undefined): void => {
    if (ts.isTypeNode(node)) return;
    if (ts.isFunctionLike(node) || ts.isClassLike(node)) {
      const inner = new Set([...(own ?? []), ...declaredWithin(ts, node)]);
      ts.forEachChild(node, (child) => visit(child, inner));
      return;
    }
    if (own !== undefined && ts.isIdentifier(node) && isReference(ts, node) && !own.has(node.text)) used.add(node.text);
    ts.forEachChild(node, (child) => visit(child, own));
  };
  visit(file, undefined);
  return used;
}

/** Names that a function or class declares anywhere inside: a little more than hides an outer one. */
function declaredWithin(ts: typeof TypeScript, root: TypeScript.Node): ReadonlySet<string> {
  const names = new Set<string>();
  const visit = (node: TypeScript.Node): void => {
    const isNamed = ts.isParameter(node) || ts.isVariableDeclaration(node) || ts.isBindingElement(node);
    const isDeclared = isNamed || ts.isFunctionDeclaration(node) || ts.isClassDeclaration(node) || ts.isFunctionExpression(node);
    if (isDeclared && node.name !== undefined && ts.isIdentifier(node.name)) names.add(node.name.text);
    ts.forEachChild(node, visit);
  };
  ts.forEachChild(root, visit);
  if ((ts.isFunctionExpression(root) || ts.isClassExpression(root)) && root.name !== undefined) names.add(root.name.text);
  return names;
}

/** Not the name of a property, nor of something that is declared there. */
function isReference(ts: typeof TypeScript, node: TypeScript.Identifier): boolean {
  const { parent } = node;
  if (ts.isPropertyAccessExpression(parent)) return parent.expression === node;
  if (ts.isPropertyAssignment(parent) || ts.isMethodDeclaration(parent) || ts.isPropertyDeclaration(parent)) return parent.name !== node;
  if (ts.isBindingElement(parent)) return parent.initializer === node;
  return !(ts.isLabeledStatement(parent) || ts.isBreakOrContinueStatement(parent));
}
