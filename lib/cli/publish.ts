/** `workings publish`: the document, from the outputs that the notebooks hold. */
import { resolve } from "node:path";
import type { BookFile } from "../book/book-file";
import { pageAssets } from "../document/assets";
import { csvFiles } from "../document/export/csv";
import { type MarkdownFiles, markdownFiles } from "../document/export/markdown-book";
import { prepareBook } from "../document/publish";
import { renderPage } from "../document/render-page";
import { missingPictures } from "../document/sheet/pictures";
import { hasRun } from "../kernel/notebook";
import { writeFolder, writeWhole } from "../kernel/write";
import { WorkingsError } from "../quantity/error";
import { buildPath, howItStands, inBook, openBook, staleLines } from "./context";
import type { Interrupt } from "./interrupt";
import { keepWhole } from "./keeping";
import { printPdf } from "./pdf";
import type { Streams } from "./streams";
import { type Command, exitCodes } from "./usage";

export async function publish({ options }: Command, streams: Streams, interrupt: Pick<Interrupt, "watch">): Promise<number> {
  const found = howItStands(options.book);
  found.standing.expectReadable();
  streams.error(staleLines(found));
  if (found.stale.size > 0 && options.stale !== true) {
    streams.error("nothing is published; workings publish --stale publishes it all the same, with a stamp on every page\n");
    return exitCodes.failed;
  }
  const { file, book, sheets } = openBook(found);
  for (const { notebook, worksheet } of sheets)
    if (!hasRun(notebook))
      throw new WorkingsError("usage", `${worksheet.file} has cells without outputs of a run: workings run ${worksheet.name} first`, {
        place: worksheet.file,
      });
  const missing = missingPictures(book);
  if (missing.length > 0) throw new WorkingsError("usage", `the document lacks what its text shows:\n${missing.join("\n")}`);
  const prepared = prepareBook(book);
  const page = pageAssets();
  const html = renderPage(prepared.content, page);
  interrupt.watch();
  keepWhole(file, book.evaluation);
  const path = options.output === undefined ? buildPath(file, `${fileName(book.design.name)}.html`) : resolve(options.output);
  const written = [write(file, path, html)];
  const stem = path.replace(/\.html?$/i, "");
  if (options.csv === true)
    for (const [name, text] of Object.entries(csvFiles(book))) written.push(write(file, `${stem}-${name}.csv`, text));
  if (options.markdown === true) written.push(writePages(file, stem, markdownFiles(prepared, page.style)));
  if (options.pdf === true) written.push(write(file, `${stem}.pdf`, printPdf(path)));
  streams.out(
    options.json
      ? `${JSON.stringify({ ok: true, stale: Object.fromEntries(book.stale), ...written[0], files: written }, null, 1)}\n`
      : written.map(({ file, kilobytes, changed }) => `${file}  ${kilobytes} kB${changed ? "" : ", as before"}\n`).join(""),
  );
  return exitCodes.done;
}

interface Written {
  readonly file: string;
  readonly changed: boolean;
  readonly kilobytes: number;
}

function write(book: BookFile, path: string, content: string | Uint8Array): Written {
  const changed = writeWhole(path, content);
  const file = inBook(book, path).startsWith("..") ? path : inBook(book, path);
  return { file, changed, kilobytes: Math.round(Buffer.byteLength(content) / 1000) };
}

function writePages(book: BookFile, folder: string, files: MarkdownFiles): Written {
  const changed = writeFolder(folder, files);
  const kilobytes = Math.round(Object.values(files).reduce((sum, content) => sum + Buffer.byteLength(content), 0) / 1000);
  return { file: `${inBook(book, folder).startsWith("..") ? folder : inBook(book, folder)}/`, changed, kilobytes };
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
