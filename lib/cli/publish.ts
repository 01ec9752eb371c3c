/** `workings publish`: the document, from the outputs that the notebooks hold. */
import { resolve } from "node:path";
import { publishBook } from "../document/publish";
import { hasRun } from "../kernel/notebook";
import { writeWhole } from "../kernel/write";
import { WorkingsError } from "../quantity/error";
import { buildPath, inBook, openBook, openDesign, readSheets, type Streams } from "./context";
import { type Command, exitCodes } from "./usage";

export async function publish({ options }: Command, streams: Streams): Promise<number> {
  const book = openBook(options.book);
  const design = openDesign(book);
  const sheets = readSheets(book);
  for (const { notebook, worksheet } of sheets)
    if (!hasRun(notebook))
      throw new WorkingsError("usage", `${worksheet.file} has cells without outputs of a run: workings run ${worksheet.name} first`, {
        place: worksheet.file,
      });
  const html = await publishBook({ book, sheets: sheets.map(({ name, notebook }) => ({ name, notebook })), design });
  const path = options.output === undefined ? buildPath(book, `${fileName(design.name)}.html`) : resolve(options.output);
  const changed = writeWhole(path, html);
  const shown = inBook(book, path).startsWith("..") ? path : inBook(book, path);
  const kilobytes = Math.round(Buffer.byteLength(html) / 1000);
  streams.out(
    options.json
      ? `${JSON.stringify({ ok: true, file: shown, changed, kilobytes }, null, 1)}\n`
      : `${shown}  ${kilobytes} kB${changed ? "" : ", as before"}\n`,
  );
  return exitCodes.done;
}

/** Letters, digits and hyphens of the product's name. */
function fileName(name: string): string {
  return (
    name
      .toLowerCase()
      .normalize("NFC")
      .replace(/[^\p{L}\p{N}]+/gu, "-")
      .replace(/^-|-$/g, "") || "book"
  );
}
