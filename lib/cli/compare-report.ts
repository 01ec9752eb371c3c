/** A comparison as a reader of a terminal, or of a review in Markdown, gets it: what matters most comes first. */
import type { Comparison } from "../book/compare/compare";
import { headline } from "../book/compare/headline";
import { type Section, sectionsOf } from "../book/compare/sections";

/** Rows in columns; the words of each come last, where long ones do no harm. */
export function compareText(comparison: Comparison): string {
  const head = [...sideLines(comparison), headline(comparison)].join("\n");
  const sections = sectionsOf(comparison).map(({ title, columns, rows, notes, isLastBelow = false }) => {
    const widths = columns.map((_, index) => Math.max(...rows.map((row) => (row[index] ?? "").length), 0));
    const lines = rows.flatMap((row) => {
      const beside = isLastBelow ? row.slice(0, -1) : row;
      const line = `  ${beside.map((cell, index) => cell.padEnd(widths[index] ?? 0)).join("  ")}`.trimEnd();
      return isLastBelow && row.at(-1) !== "" ? [line, `      ${row.at(-1)}`] : [line];
    });
    return [title, ...lines, ...notes.map((note) => `  ${note}`)].join("\n");
  });
  return `${[head, ...sections].join("\n\n")}\n`;
}

export function compareMarkdown(comparison: Comparison): string {
  const head = [`**${escaped(headline(comparison))}**`, ...sideLines(comparison).map(escaped)].join("\n\n");
  return `${[head, ...sectionsOf(comparison).map(markdownSection)].join("\n\n")}\n`;
}

function markdownSection({ title, columns, rows, notes }: Section): string {
  const line = (cells: readonly string[]) => `| ${cells.map((cell) => escaped(cell)).join(" | ")} |`;
  const table = rows.length === 0 ? [] : [[line(columns), `|${columns.map(() => " --- |").join("")}`, ...rows.map(line)].join("\n")];
  return [`### ${escaped(title)}`, ...table, ...(notes.length === 0 ? [] : [notes.map((note) => `- ${escaped(note)}`).join("\n")])].join(
    "\n\n",
  );
}

/** A given's note or an alternative's name is nobody's Markdown. */
function escaped(text: string): string {
  return text.replace(/[\\`*_[\]|<>#~]/g, "\\$&").replaceAll("\n", " ");
}

/** What is compared, and first of all what cannot be trusted of it. */
function sideLines({ before, after }: Comparison): string[] {
  return [
    `${before.name} → ${after.name}: ${after.title}, revision ${before.revision === after.revision ? after.revision : `${before.revision} → ${after.revision}`}`,
    ...[before, after].flatMap(({ name, stale, untrusted, unrecorded, isResultsFile }) => [
      ...Object.entries(stale).map(([sheet, reasons]) => `${name} is not fresh: ${sheet}: ${reasons.join("; ")}`),
      ...(untrusted.length === 0
        ? []
        : [`${name}: not compared by their numbers: ${untrusted.join(", ")}; workings run brings a book up to date`]),
      ...(unrecorded.length === 0
        ? []
        : [
            `${name}: no run on record of ${unrecorded.join(", ")}; the outputs agree with the design file, whether with their cells is not known`,
          ]),
      ...(isResultsFile ? [`${name} is a results file: it tells no givens and no decisions, so what carried a change is not known`] : []),
    ]),
  ];
}
