/** What a run has to do: the order of the sheets, which of them still stand, and which cannot run because another failed. */
import type { BookFile, Worksheet } from "../book/book-file";
import { runOrder } from "../book/order";
import type { Standing } from "../book/standing";

export interface Plan {
  /** In the order in which they run. */
  readonly sheets: readonly Worksheet[];
  /** The sheets before it in that order that must be done when it starts: others may run at the same time. */
  after(name: string): readonly string[];
  /** Why a sheet does not run, if it does not: it is fresh, or takes from one that failed. */
  reasonToSkip(name: string, failed: ReadonlySet<string>): { readonly text: string; readonly failed: boolean } | undefined;
}

/** `chosen` sheets run; those among them that still stand do not, unless `forced`. What they take from comes first where it is stale. */
export function planRun({ worksheets }: BookFile, chosen: readonly Worksheet[], forced: boolean, standing: Standing): Plan {
  const known = worksheets.map((worksheet) => ({ name: worksheet.name, worksheet, takes: standing.takes.get(worksheet.name) ?? [] }));
  const named = new Set(chosen.map(({ name }) => name));
  const wanted = new Set([...named].flatMap((name) => [name, ...standing.upstream(name)]));
  const sheets = runOrder(known)
    .filter(({ name }) => wanted.has(name))
    .map(({ worksheet }) => worksheet);
  const readsAny = new Set(sheets.map(({ name }) => name).filter((name) => standing.readsAny(name)));
  return {
    sheets,
    after(name) {
      const sources = new Set(standing.sources(name));
      const before = sheets.slice(
        0,
        sheets.findIndex((sheet) => sheet.name === name),
      );
      // What a sheet may read must not be written meanwhile.
      return before.map((sheet) => sheet.name).filter((other) => readsAny.has(name) || readsAny.has(other) || sources.has(other));
    },
    reasonToSkip(name, failed) {
      const source = standing.takes.get(name)?.find(({ sheet }) => failed.has(sheet));
      if (source !== undefined) return { text: `not run: it takes from ${source.sheet}, which failed`, failed: true };
      return !(forced && named.has(name)) && standing.doubts(name).length === 0 ? { text: "fresh", failed: false } : undefined;
    },
  };
}
