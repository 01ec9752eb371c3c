/** `workings reference`: every public formula and model in one document, its examples run on the way. */
import { join, resolve } from "node:path";
import { readExamples } from "../design/examples";
import { exampleTexts, pageAssets } from "../document/assets";
import { renderReference } from "../document/reference/reference";
import { writeWhole } from "../kernel/write";
import { WorkingsError } from "../quantity/error";
import { findBook } from "../sheet/find-book";
import { openBookFile } from "./context";
import type { Interrupt } from "./interrupt";
import type { Streams } from "./streams";
import { type Command, exitCodes } from "./usage";

export function reference({ options }: Command, streams: Streams, interrupt: Pick<Interrupt, "watch">): number {
  const file = options.output === undefined ? join(folderOf(options.book), "build", "physics.html") : resolve(options.output);
  const html = renderReference({ examples: readExamples(exampleTexts()), style: pageAssets().style });
  interrupt.watch();
  const changed = writeWhole(file, html);
  const kilobytes = Math.round(Buffer.byteLength(html) / 1000);
  streams.out(
    options.json
      ? `${JSON.stringify({ ok: true, file, changed, kilobytes }, null, 1)}\n`
      : `${file}  ${kilobytes} kB${changed ? "" : ", as before"}\n`,
  );
  return exitCodes.done;
}

/** The book's folder; the folder here where there is no book, which the reference does not need. */
function folderOf(named: string | undefined): string {
  try {
    findBook(process.cwd());
  } catch (error) {
    if (named === undefined && error instanceof WorkingsError) return process.cwd();
  }
  return openBookFile(named).root;
}
