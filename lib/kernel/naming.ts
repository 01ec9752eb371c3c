/** Which cells name something of the design file, read without running them. */
import { loadTypeScript, type TypeScript } from "./cell-parser";
import { codeCells, type Notebook } from "./notebook";

/**
 * Code cells, 1-based, in which a text stands as a literal, or may come of a template: `battery.${size}.capacity` names every path
 * of that form. A path that is put together otherwise is not seen.
 */
export function cellsNaming(notebook: Notebook, text: string): number[] {
  // Most cells have no part of the text: they need no compiler.
  const parts = text.split(".");
  return codeCells(notebook).flatMap(({ source }, index) =>
    parts.some((part) => source.includes(part)) && names(source, text) ? [index + 1] : [],
  );
}

function names(source: string, text: string): boolean {
  const ts = loadTypeScript();
  let found = false;
  const visit = (node: TypeScript.Node): void => {
    if (ts.isStringLiteralLike(node)) found ||= node.text === text;
    else if (ts.isTemplateExpression(node)) found ||= pattern(node).test(text);
    if (!found) ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile("cell.ts", source, ts.ScriptTarget.ES2022, true));
  return found;
}

/** A template of nothing but holes could be any text: it names none. */
function pattern({ head, templateSpans }: TypeScript.TemplateExpression): RegExp {
  const texts = [head.text, ...templateSpans.map(({ literal }) => literal.text)];
  if (!texts.some((part) => part.includes("."))) return /(?!)/;
  return new RegExp(`^${texts.map((part) => part.replace(/[.*+?^${}()|[\]\\]/g, "\\$&")).join(".+")}$`);
}
