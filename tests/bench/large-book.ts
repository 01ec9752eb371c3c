/** A book of many sheets: the demo's, copied under other names, each copy with its own decisions, readings and roll-ups on the same givens. */
import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import { parse, stringify } from "yaml";
import { copyBook, sheetFiles } from "./place";

interface Cells {
  readonly cells: { readonly cell_type: string; source: string[] | string; outputs?: unknown[]; execution_count?: number | null }[];
}

/** Its folder. Copies have their number after the name: `battery2`. A sheet that collects, and so reads all others, is there once. */
export function largeBook(name: string, copies: number): string {
  const folder = copyBook(name);
  const originals = sheetFiles(folder);
  const copyable = originals.filter((path) => !readFileSync(path, "utf8").includes(".collect("));
  const sheets = copyable.map((path) => basename(path, ".ipynb").replace(/^\d+-/, ""));
  const files = originals.map((path) => basename(path));
  for (let copy = 2; copy <= copies; copy++)
    for (const path of copyable) {
      const file = `${copy}${basename(path, ".ipynb")}${copy}.ipynb`;
      writeFileSync(join(folder, "notebooks", file), copied(readFileSync(path, "utf8"), sheets, copy));
      files.push(file);
    }
  const book = join(folder, "notebooks/book.yaml");
  const { groups, ...rest } = parse(readFileSync(book, "utf8")) as { readonly groups: Readonly<Record<string, readonly string[]>> };
  writeFileSync(book, stringify({ ...rest, worksheets: files, groups: grown(groups, sheets, copies) }));
  addToDesign(join(folder, "data/bittern/design.yaml"), sheets, copies);
  rmSync(join(folder, "build"), { recursive: true, force: true });
  return folder;
}

/** Copies stand in the groups of their originals. */
function grown(groups: Readonly<Record<string, readonly string[]>>, sheets: readonly string[], copies: number) {
  const names = (name: string) => [
    name,
    ...(sheets.includes(name) ? Array.from({ length: copies - 1 }, (_, index) => `${name}${index + 2}`) : []),
  ];
  return Object.fromEntries(Object.entries(groups).map(([title, own]) => [title, own.flatMap(names)]));
}

function copied(text: string, sheets: readonly string[], copy: number): string {
  const notebook = JSON.parse(text) as Cells;
  const one = sheets.join("|");
  const named = (source: string) => source.replace(new RegExp(`"(${one})\\.`, "g"), `"$1${copy}.`);
  for (const cell of notebook.cells) {
    if (cell.cell_type !== "code") continue;
    Object.assign(cell, { outputs: [], execution_count: null });
    cell.source = [cell.source]
      .flat()
      .join("")
      .replace(new RegExp(`worksheet\\("(${one})"\\)`), `worksheet("$1${copy}")`)
      .replace(/\.(contribute|collect|reading)\("([\w-]+)"/g, `.$1("$2${copy}"`)
      .replace(/\.take\(\{[^}]*\}\)|\.confirm\("[^"]*"/g, named);
  }
  return JSON.stringify(notebook, null, 1);
}

interface Readings {
  readonly decisions: Record<string, unknown>;
  readonly readings: Record<string, { readonly result: string }>;
}

/** Each copy's own decisions, and its own readings of its own results. */
function addToDesign(path: string, sheets: readonly string[], copies: number): void {
  const design = parse(readFileSync(path, "utf8")) as Readings;
  const decisions = Object.entries(design.decisions).filter(([sheet]) => sheets.includes(sheet));
  const readings = Object.entries(design.readings).filter(([, { result }]) => sheets.includes(result.split(".")[0] as string));
  for (let copy = 2; copy <= copies; copy++) {
    for (const [sheet, taken] of decisions) design.decisions[`${sheet}${copy}`] = structuredClone(taken);
    for (const [id, reading] of readings)
      design.readings[`${id}${copy}`] = { ...structuredClone(reading), result: reading.result.replace(".", `${copy}.`) };
  }
  writeFileSync(path, stringify(design, { lineWidth: 0 }));
}
