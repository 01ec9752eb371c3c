/** What a given or a decision reaches, sheet by sheet, for a terminal. */
import type { Reach, ReachedResult, ReachedSheet } from "../book/reach";
import type { LinkedCell } from "../prose/linked-cells";

export function reachReport({ path, meaning, stated, step, sheets }: Reach, links: readonly LinkedCell[]): string {
  const head = `${path} = ${stated}${meaning === "" ? "" : `  (${meaning})`}`;
  if (sheets.length === 0) return `${head}\nno sheet reads it: neither outputs nor cells name it\n`;
  const total = (of: (sheet: ReachedSheet) => readonly unknown[]) => sheets.reduce((sum, sheet) => sum + of(sheet).length, 0);
  const text = links.reduce((sum, link) => sum + link.links.length, 0);
  const counts = [
    counted(sheets.length, "sheet"),
    counted(
      total((sheet) => sheet.requirements),
      "requirement",
    ),
    counted(
      total((sheet) => sheet.results),
      "published result",
    ),
    counted(
      total((sheet) => sheet.plots),
      "plot",
    ),
    counted(
      total((sheet) => sheet.budgets),
      "budget",
    ),
    `${counted(text, "link")} in text`,
  ].filter((part) => !part.startsWith("0 "));
  const told = [
    `${head}\nreaches ${counts.join(", ")}${step === undefined ? "" : `; results are given at ${step}`}`,
    ...sheets.map((sheet) =>
      sheetText(
        sheet,
        links.filter((link) => link.sheet === sheet.sheet),
      ),
    ),
  ];
  return `${told.join("\n\n")}\n`;
}

function sheetText(sheet: ReachedSheet, links: readonly LinkedCell[]): string {
  const { cells, outputs, stale, through, results, others } = sheet;
  const known = [
    cells.length > 0 ? `named in ${counted(cells.length, "cell", false)} ${cells.join(", ")}` : "",
    cells.length === 0 && through.length > 0 ? `takes from ${through.join(", ")}, which names it` : "",
    outputs === "left out" ? "its outputs do not stand beside those of others and are left out" : "",
    outputs === "silent" && cells.length > 0 ? "its outputs do not know it: run it to see what it moves" : "",
    stale.length > 0 && outputs === "reached" ? `what follows is of its last run: ${stale.join("; ")}` : "",
  ].filter(Boolean);
  const list = (word: string, names: readonly string[]) => (names.length === 0 ? [] : [`  ${word}: ${names.join(", ")}`]);
  return [
    `${sheet.sheet}${known.length > 0 ? `  (${known.join("; ")})` : ""}`,
    ...list("requirements", sheet.requirements),
    ...resultLines(results),
    ...(others > 0 ? [`  ${counted(others, "further result")} within the sheet`] : []),
    ...list("decisions", sheet.decisions),
    ...list("assumptions", sheet.assumptions),
    ...list("budgets", sheet.budgets),
    ...list("plots", sheet.plots),
    ...list("drawings", sheet.drawings),
    ...list(
      "text",
      links.map(({ cell, links: targets }) => `cell ${cell} (${targets.join(" ")})`),
    ),
  ].join("\n");
}

function resultLines(results: readonly ReachedResult[]): string[] {
  const rows = results.map(({ name, meaning, worth }) => [
    name,
    worth === undefined ? "not moved, as the book is decided" : worthText(worth),
    meaning,
  ]);
  const widths = [0, 1].map((column) => Math.max(0, ...rows.map((row) => (row[column] ?? "").length)));
  return rows.map((row) => `  ${row.map((cell, column) => cell.padEnd(widths[column] ?? 0)).join("  ")}`.trimEnd());
}

/** `15 h; at 360 mAh 13.5 h; at 440 mAh 16.5 h` */
function worthText({ now, at }: NonNullable<ReachedResult["worth"]>): string {
  return [now, ...at.map(({ input, result }) => `at ${input} ${result}`)].join("; ");
}

function counted(count: number, word: string, isNumbered = true): string {
  return `${isNumbered ? `${count} ` : ""}${word}${count === 1 ? "" : "s"}`;
}
