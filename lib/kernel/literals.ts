/**
 * Finds quantities typed into cells. A worksheet takes every quantity from the design file, so that another design
 * runs through the same cells. Allowed: 0 and 1, ends of a plot's axis, exponents, indices, counts of digits or points;
 * in the text of a law what law-numbers.ts says.
 */
import { WorkingsError } from "../quantity/error";
import { parseQuantity } from "../quantity/parse";
import { loadTypeScript, type TypeScript } from "./cell-parser";
import { lawNumbers } from "./law-numbers";
import { codeCells, type Notebook } from "./notebook";

export interface Literal {
  /** 1-based among the code cells. */
  readonly cell: number;
  readonly id: string;
  readonly line: number;
  readonly column: number;
  readonly text: string;
  readonly message: string;
}

/** Keys whose values are words for the reader. */
const wordKeys = new Set(["caption", "label", "meaning", "note", "question", "reason", "source", "text", "title", "reconsider"]);
/** Keys whose numbers are counts of something shown. */
const countKeys = new Set(["digits", "points"]);
const axisKeys = new Set(["from", "to", "low", "high"]);
const inLaw =
  "is a number typed into a law, where only integers, their quotients (1/2), pi, e and exponents may stand: make it a given of the design file, or take a law of the library that cites it";
const remedy = "move it to the design file and take it with sheet.given";

/** In order of cell, line and column. Cells that do not parse yield what could be read: running them says the rest. */
export function quantityLiterals(notebook: Notebook): Literal[] {
  const ts = loadTypeScript();
  return codeCells(notebook).flatMap(({ source, id }, index) => {
    const file = ts.createSourceFile("cell.ts", source, ts.ScriptTarget.ES2022, true);
    return new Finder(ts, file).find().map((found) => ({ cell: index + 1, id, ...found }));
  });
}

type Found = Omit<Literal, "cell" | "id">;

class Finder {
  private readonly found: Found[] = [];
  /** Offsets of the numbers in laws that are found. */
  private readonly placed = new Set<number>();

  constructor(
    private readonly ts: typeof TypeScript,
    private readonly file: TypeScript.SourceFile,
  ) {}

  find(): Found[] {
    this.visit(this.file);
    return this.found;
  }

  /** What of a text is found already, as a part of a longer one, is not told again. */
  private law(node: TypeScript.Node, isLaw: boolean): void {
    for (const { text, at } of lawNumbers(this.ts, this.file, node, isLaw)) {
      if (this.placed.has(at)) continue;
      this.placed.add(at);
      this.place(at, text, inLaw);
    }
  }

  private visit = (node: TypeScript.Node): void => {
    const { ts } = this;
    if (ts.isImportDeclaration(node) || ts.isTypeNode(node)) return;
    if (ts.isCallExpression(node) && this.isDerivation(node) && node.arguments[0] !== undefined) this.law(node.arguments[0], true);
    else if (!ts.isSourceFile(node) && !wordKeys.has(this.keyOf(node) ?? "")) this.law(node, false);
    if (ts.isCallExpression(node) && this.isQuantityCall(node)) this.report(node, `is a quantity typed into a cell; ${remedy}`);
    else if (ts.isNumericLiteral(node)) this.number(node);
    else if (ts.isStringLiteralLike(node)) this.string(node);
    else ts.forEachChild(node, this.visit);
  };

  /** `sheet.derive("…", …)` */
  private isDerivation({ expression }: TypeScript.CallExpression): boolean {
    return this.ts.isPropertyAccessExpression(expression) && expression.name.text === "derive";
  }

  /** `quantity("2 mA")` */
  private isQuantityCall(call: TypeScript.CallExpression): boolean {
    const { ts } = this;
    const [first] = call.arguments;
    const isNamed = ts.isIdentifier(call.expression) && ["quantity", "parseQuantity"].includes(call.expression.text);
    return isNamed && first !== undefined && (ts.isStringLiteralLike(first) || ts.isTemplateExpression(first));
  }

  /** `2.2`, or `mA(2.2)` as a whole. */
  private number(node: TypeScript.NumericLiteral): void {
    const { ts } = this;
    if (this.isAllowed(node)) return;
    const signed = ts.isPrefixUnaryExpression(node.parent) ? node.parent : node;
    const call = signed.parent;
    const isToken = ts.isCallExpression(call) && ts.isIdentifier(call.expression) && call.arguments.length === 1;
    if (isToken) this.report(call, `is a quantity typed into a cell; ${remedy}`);
    else this.report(signed, `is a number typed into a cell; if it stands for a quantity, ${remedy}`);
  }

  private string(node: TypeScript.StringLiteralLike): void {
    const key = this.keyOf(node);
    if (key !== undefined && wordKeys.has(key)) return;
    if (statesQuantity(node.text)) this.report(node, `is a quantity typed into a cell; ${remedy}`);
  }

  private isAllowed(node: TypeScript.NumericLiteral): boolean {
    const { ts } = this;
    const value = Number(node.text);
    if (value === 0 || value === 1) return true;
    const outer = ts.isPrefixUnaryExpression(node.parent) ? node.parent : node;
    const { parent } = outer;
    if (ts.isElementAccessExpression(parent) && parent.argumentExpression === outer) return true;
    if (ts.isCallExpression(parent) && ts.isPropertyAccessExpression(parent.expression) && parent.expression.name.text === "pow")
      return true;
    const key = this.keyOf(outer) ?? "";
    return countKeys.has(key) || (axisKeys.has(key) && this.isInAxis(outer));
  }

  /** Within the object under `x` or `y` in the arguments of a `plot` call. */
  private isInAxis(node: TypeScript.Node): boolean {
    const { ts } = this;
    let axis = false;
    for (let at: TypeScript.Node = node; at !== this.file; at = at.parent) {
      if (ts.isPropertyAssignment(at) && ["x", "y"].includes(at.name.getText(this.file))) axis = true;
      if (ts.isCallExpression(at) && /(^|\.)plot$/.test(at.expression.getText(this.file))) return axis;
    }
    return false;
  }

  /** Name of the property whose value the node is. */
  private keyOf(node: TypeScript.Node): string | undefined {
    const { parent } = node;
    return this.ts.isPropertyAssignment(parent) && parent.initializer === node
      ? parent.name.getText(this.file).replace(/["']/g, "")
      : undefined;
  }

  private report(node: TypeScript.Node, message: string): void {
    this.place(node.getStart(this.file), node.getText(this.file), message);
  }

  private place(at: number, text: string, message: string): void {
    const { line, character } = this.file.getLineAndCharacterOfPosition(at);
    this.found.push({ line: line + 1, column: character + 1, text, message: `${text} ${message}` });
  }
}

/** A number with a unit, or with a spread: the whole text. A bare number in a string is a name or an index. */
function statesQuantity(text: string): boolean {
  if (!/^\s*[-+±σ]?\s*\d/.test(text) || !/[^\d\s.,+-]/.test(text)) return false;
  try {
    parseQuantity(text);
    return true;
  } catch (error) {
    if (error instanceof WorkingsError) return false;
    throw error;
  }
}
