/** A small book, the real command line on it, and what a fault must leave alone. */
import { spawn, spawnSync } from "node:child_process";
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { join, relative } from "node:path";
import { afterAll, expect } from "vitest";
import { formatNotebook, readNotebook } from "../../lib/kernel/notebook";
import { notebookOf } from "../kernel/fixture";
import { root } from "./run";

export const cli = join(root, "dist/cli.js");

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

export interface Said {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

const folders: string[] = [];
afterAll(() => {
  for (const folder of folders) rmSync(folder, { recursive: true, force: true });
});

export class FaultBook {
  readonly folder: string;

  constructor(sheets: Readonly<Record<string, readonly string[]>>, designText = design) {
    mkdirSync(join(root, "build/test"), { recursive: true });
    this.folder = mkdtempSync(join(root, "build/test/faults-"));
    folders.push(this.folder);
    this.write("data/design.yaml", designText);
    for (const [name, cells] of Object.entries(sheets)) this.sheet(name, ...cells);
    this.list(...Object.keys(sheets));
  }

  file(name: string): string {
    return join(this.folder, name);
  }

  read(name: string): string {
    return readFileSync(this.file(name), "utf8");
  }

  write(name: string, text: string): void {
    mkdirSync(join(this.file(name), ".."), { recursive: true });
    writeFileSync(this.file(name), text);
  }

  sheet(name: string, ...cells: readonly string[]): void {
    this.write(`notebooks/${name}`, formatNotebook(notebookOf(...cells)));
  }

  list(...names: readonly string[]): void {
    const lines = names.map((name) => `  - ${name}\n`).join("");
    this.write("notebooks/book.yaml", `title: Test\nrevision: "A"\ndesign: ../data/design.yaml\nworksheets:\n${lines}`);
  }

  run(...words: readonly string[]): Said {
    return this.workings("run", ...words);
  }

  workings(...words: readonly string[]): Said {
    const { status, stdout, stderr } = spawnSync(process.execPath, [cli, ...words], {
      cwd: this.folder,
      encoding: "utf8",
      timeout: 90_000,
    });
    return { status, stdout, stderr };
  }

  start(...words: readonly string[]) {
    return spawn(process.execPath, [cli, ...words], { cwd: this.folder, stdio: "ignore" });
  }

  /** Every file but those named, with its bytes. */
  files(...without: readonly string[]): Record<string, string> {
    const names = readdirSync(this.folder, { recursive: true, encoding: "utf8" }).filter((name) => statSync(this.file(name)).isFile());
    return Object.fromEntries(
      names
        .sort()
        .filter((name) => !without.includes(name))
        .map((name) => [relative(this.folder, this.file(name)), readFileSync(this.file(name), "latin1")]),
    );
  }

  hasRun(sheet: string): boolean {
    return readNotebook(this.file(`notebooks/${sheet}`)).cells.some((cell) => cell.cell_type === "code" && cell.outputs.length > 0);
  }

  has(name: string): boolean {
    return existsSync(this.file(name));
  }
}

/** A book that has run once, so that there is something to lose: its files before the fault. */
export function ranBook(
  sheets: Readonly<Record<string, readonly string[]>> = { "01-lamp.ipynb": healthy("lamp") },
  text = design,
): FaultBook {
  const book = new FaultBook(sheets, text);
  expect(book.run()).toMatchObject({ status: 0, stderr: "" });
  return book;
}
