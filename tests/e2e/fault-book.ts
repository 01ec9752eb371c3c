/** A small book, and what a fault must leave alone. */
import { expect } from "vitest";
import { formatNotebook } from "../../lib/kernel/notebook";
import { notebookOf } from "../kernel/fixture";
import { TestBook } from "./test-book";

export const opening = (name: string) =>
  `import { worksheet } from "workings";\nimport { mA, mW, volt } from "workings/units";\nconst sheet = worksheet("${name}");`;

export const healthy = (name: string): readonly string[] => [
  opening(name),
  'const h = sheet.given({ V: ["high", volt], I: ["current", mA] });\nconst P = sheet.derive("P = V*I", h, mW, "power");\nsheet.publish({ P: P });',
];

export const design = `product: { name: Lamp, revision: "1" }
sources:
  own: { type: document, title: Made up for this test }
givens:
  high: { value: 5 V ±2 %, meaning: the high rail, source: own }
  current: { value: 2 mA ±10 %, meaning: current, source: own }
  none: { value: 0 V, meaning: nothing, source: own }
  curve:
    table: { columns: [voltage in V, current in mA], interpolation: linear, rows: [[1, 1], [2, 2], [3, 4]] }
    meaning: a curve
    source: own
`;

export class FaultBook extends TestBook {
  constructor(sheets: Readonly<Record<string, readonly string[]>>, designText = design) {
    super();
    this.write("data/design.yaml", designText);
    for (const [name, cells] of Object.entries(sheets)) this.sheet(name, ...cells);
    this.list(...Object.keys(sheets));
  }

  sheet(name: string, ...cells: readonly string[]): void {
    this.write(`notebooks/${name}`, formatNotebook(notebookOf(...cells)));
  }

  list(...names: readonly string[]): void {
    const lines = names.map((name) => `  - ${name}\n`).join("");
    this.write("notebooks/book.yaml", `title: Test\nrevision: "A"\ndesign: ../data/design.yaml\nworksheets:\n${lines}`);
  }

  hasRun(sheet: string): boolean {
    return this.notebook(sheet).cells.some((cell) => cell.cell_type === "code" && cell.outputs.length > 0);
  }
}

/** A book that has run once, so that there is something to lose: its files before the fault. */
export async function ranBook(
  sheets: Readonly<Record<string, readonly string[]>> = { "01-lamp.ipynb": healthy("lamp") },
  text = design,
): Promise<FaultBook> {
  const book = new FaultBook(sheets, text);
  expect(await book.run()).toMatchObject({ status: 0, stderr: "" });
  return book;
}
