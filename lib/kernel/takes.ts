/** How worksheets hang together, read from their cells without running them. */
import { loadTypeScript, type TypeScript } from "./cell-parser";
import { codeCells, type Notebook } from "./notebook";

export interface Take {
  /** The sheet taken from, and the name it published. */
  readonly sheet: string;
  readonly name: string;
  /** 1-based among the code cells. */
  readonly cell: number;
}

/** What a worksheet has from other sheets, and what it gives to roll-ups. */
export interface Ties {
  /** Results taken, and assumptions confirmed, by literal names. */
  readonly takes: readonly Take[];
  /** Roll-ups that it adds to. */
  readonly contributes: readonly string[];
  /** Roll-ups that it collects, with the cell. */
  readonly collects: readonly { readonly budget: string; readonly cell: number }[];
  /** The worksheet that it opens, by literal name, with the cell. */
  readonly opens: readonly { readonly name: string; readonly cell: number }[];
  /** Whether it takes, confirms, contributes or collects by a name that only its run knows. */
  readonly isOpen: boolean;
}

export const noTies: Ties = { takes: [], contributes: [], collects: [], opens: [], isOpen: false };

const calls = ["take", "confirm", "contribute", "collect", "worksheet"] as const;
const speaking = new RegExp(`\\b(?:${calls.join("|")})\\s*\\(`);

/** Reads `worksheet("name")`, `….take({ symbol: ["sheet.name", unit] })`, `….confirm("sheet.name", …)`, `….contribute("mass", …)` and `….collect("mass", …)`. */
export function tiesOf(notebook: Notebook): Ties {
  // Few cells have ties: those that never say so need no compiler.
  const cells = codeCells(notebook).flatMap(({ source }, index) => (speaking.test(source) ? [{ source, cell: index + 1 }] : []));
  if (cells.length === 0) return noTies;
  const ts = loadTypeScript();
  const found = cells.flatMap(({ source, cell }) =>
    named(ts, ts.createSourceFile("cell.ts", source, ts.ScriptTarget.ES2022, true)).map((one) => ({ ...one, cell })),
  );
  const texts = (call: (typeof calls)[number]) =>
    found.flatMap(({ text, ...one }) => (one.call === call && text !== undefined ? [{ text, ...one }] : []));
  return {
    takes: [...texts("take"), ...texts("confirm")].flatMap(({ text, cell }) => takeOf(text, cell)).toSorted((a, b) => a.cell - b.cell),
    contributes: [...new Set(texts("contribute").map(({ text }) => text))],
    collects: texts("collect").map(({ text, cell }) => ({ budget: text, cell })),
    opens: texts("worksheet").map(({ text, cell }) => ({ name: text, cell })),
    isOpen: found.some(({ text }) => text === undefined),
  };
}

function takeOf(text: string, cell: number): Take[] {
  const dot = text.indexOf(".");
  return dot > 0 ? [{ sheet: text.slice(0, dot), name: text.slice(dot + 1), cell }] : [];
}

/** Name in a take's place of everything that a sheet contributes to a roll-up. */
export const rollUp = (budget: string): string => `roll-up ${budget}`;

/** The takes of every sheet of a book, those from sheets that contribute to what it collects among them. */
export function bookTakes(sheets: readonly { readonly name: string; readonly ties: Ties }[]): Map<string, Take[]> {
  return new Map(
    sheets.map(({ name, ties }) => {
      const collected = ties.collects.flatMap(({ budget, cell }) =>
        sheets
          .filter((other) => other.name !== name && other.ties.contributes.includes(budget))
          .map((other) => ({ sheet: other.name, name: rollUp(budget), cell })),
      );
      return [name, [...ties.takes, ...collected]];
    }),
  );
}

/** `text`: undefined where the name is not written out. */
interface Named {
  readonly call: string;
  readonly text: string | undefined;
}

function named(ts: typeof TypeScript, file: TypeScript.SourceFile): Named[] {
  const found: Named[] = [];
  const visit = (node: TypeScript.Node): void => {
    if (ts.isCallExpression(node) && ts.isPropertyAccessExpression(node.expression)) {
      const call = node.expression.name.text;
      const [first] = node.arguments;
      if (call === "take" && first !== undefined) found.push(...firstTexts(ts, first).map((text) => ({ call, text })));
      else if ((calls as readonly string[]).includes(call) && first !== undefined) found.push({ call, text: literal(ts, first) });
    }
    if (ts.isCallExpression(node) && ts.isIdentifier(node.expression) && node.expression.text === "worksheet") {
      const [first] = node.arguments;
      if (first !== undefined && ts.isStringLiteralLike(first)) found.push({ call: "worksheet", text: first.text });
    }
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}

const literal = (ts: typeof TypeScript, node: TypeScript.Node | undefined): string | undefined =>
  node !== undefined && ts.isStringLiteralLike(node) ? node.text : undefined;

/** The first texts of the lists that are an object's values. */
function firstTexts(ts: typeof TypeScript, argument: TypeScript.Node): (string | undefined)[] {
  if (!ts.isObjectLiteralExpression(argument)) return [undefined];
  return argument.properties.map((property) => {
    if (!ts.isPropertyAssignment(property) || !ts.isArrayLiteralExpression(property.initializer)) return undefined;
    return literal(ts, property.initializer.elements[0]);
  });
}
