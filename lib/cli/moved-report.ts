/** What a change moved, for a terminal: what was turned, verdicts, decisions, then every number under the sheet that it is from. */
import type { Varied } from "../document/live/vary";

/** Lines as long as a terminal has them; the meaning of a number comes last, where a long one does no harm. */
export function movedReport({ headline, changes, moved, verdicts, flags, assumptions, outside, problems }: Varied): string {
  const told = changes.map(({ path, before, after, note }) => `${path}: ${before} → ${after}${note === undefined ? "" : ` (${note})`}`);
  return [
    told.length > 0 ? told : ["nothing is changed: the design file says the same"],
    section("Cannot be computed", problems),
    section(
      "Verdicts",
      verdicts.map(({ requirement, before, after }) => `${requirement}: ${before} → ${after}`),
    ) ?? ["no verdict flips"],
    section("Decisions in doubt", flags),
    section("Assumptions not confirmed", assumptions),
    section("Verdicts outside the range of a law", outside),
    numbers(moved),
    [headline],
  ]
    .filter((lines) => lines !== undefined)
    .map((lines) => `${lines.join("\n")}\n`)
    .join("\n");
}

function section(head: string, lines: readonly string[]): readonly string[] | undefined {
  return lines.length === 0 ? undefined : [head, ...lines.map((line) => `  ${line}`)];
}

function numbers(moved: Varied["moved"]): readonly string[] {
  if (moved.length === 0) return ["no number moves"];
  const width = (texts: readonly string[]) => Math.max(...texts.map((text) => text.length));
  const [name, before, after] = [moved.map((one) => one.name), moved.map((one) => one.before), moved.map((one) => one.after)].map(width);
  const sheets = [...new Set(moved.map((one) => sheetOf(one.name)))];
  const line = (one: Varied["moved"][number]) =>
    `  ${one.name.padEnd(name ?? 0)}  ${one.before.padStart(before ?? 0)} → ${one.after.padEnd(after ?? 0)}  ${one.meaning}`.trimEnd();
  return sheets.flatMap((sheet) => [`Numbers of ${sheet}`, ...moved.filter((one) => sheetOf(one.name) === sheet).map(line)]);
}

function sheetOf(name: string): string {
  return name.split(".")[0] ?? name;
}
