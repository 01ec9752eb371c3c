/** `workings publish`: the document, from the outputs that the notebooks hold. */
import { readFileSync } from "node:fs";
import { resolve } from "node:path";
import { Evaluation } from "../analysis/evaluation";
import type { Book } from "../book/book";
import { bookResults } from "../book/results";
import { pageAssets } from "../document/assets";
import { csvFiles } from "../document/export/csv";
import { type MarkdownFiles, markdownFiles } from "../document/export/markdown-book";
import { missingPictures, prepareBook } from "../document/publish";
import { renderPage } from "../document/render-page";
import type { Graph } from "../graph/graph";
import { hasRun } from "../kernel/notebook";
import { writeFolder, writeWhole } from "../kernel/write";
import { WorkingsError } from "../quantity/error";
import { fileBeside } from "../sheet/project";
import { buildPath, inBook, openBook, openDesign, readSheets } from "./context";
import type { Interrupt } from "./interrupt";
import { keepWhole, keptOf } from "./keeping";
import { printPdf } from "./pdf";
import type { Streams } from "./streams";
import { type Command, exitCodes } from "./usage";

export async function publish({ options }: Command, streams: Streams, interrupt: Pick<Interrupt, "watch">): Promise<number> {
  const book = openBook(options.book);
  const design = openDesign(book);
  const sheets = readSheets(book);
  for (const { notebook, worksheet } of sheets)
    if (!hasRun(notebook))
      throw new WorkingsError("usage", `${worksheet.file} has cells without outputs of a run: workings run ${worksheet.name} first`, {
        place: worksheet.file,
      });
  const inputs = sheets.map(({ name, notebook, worksheet }) => ({
    name,
    notebook,
    picture: (path: string) => readFileSync(fileBeside(worksheet.path, path, [book.root])),
  }));
  let evaluation: Evaluation | undefined;
  const evaluate = (graph: Graph): Evaluation => {
    evaluation = new Evaluation(graph, { from: keptOf(book) });
    return evaluation;
  };
  const prepared = prepareBook({ book, sheets: inputs, design, evaluate });
  const missing = missingPictures(prepared);
  if (missing.length > 0) throw new WorkingsError("usage", `the document lacks what its text shows:\n${missing.join("\n")}`);
  const page = pageAssets();
  const html = renderPage(prepared.content, page);
  interrupt.watch();
  if (evaluation !== undefined) keepWhole(book, evaluation);
  const path = options.output === undefined ? buildPath(book, `${fileName(design.name)}.html`) : resolve(options.output);
  const written = [write(book, path, html)];
  const stem = path.replace(/\.html?$/i, "");
  if (options.csv === true) {
    const tables = csvFiles({ sheets: inputs, design, results: bookResults(book, sheets) });
    for (const [name, text] of Object.entries(tables)) written.push(write(book, `${stem}-${name}.csv`, text));
  }
  if (options.markdown === true) written.push(writePages(book, stem, markdownFiles(prepared, page.style)));
  if (options.pdf === true) written.push(write(book, `${stem}.pdf`, printPdf(path)));
  streams.out(
    options.json
      ? `${JSON.stringify({ ok: true, ...written[0], files: written }, null, 1)}\n`
      : written.map(({ file, kilobytes, changed }) => `${file}  ${kilobytes} kB${changed ? "" : ", as before"}\n`).join(""),
  );
  return exitCodes.done;
}

interface Written {
  readonly file: string;
  readonly changed: boolean;
  readonly kilobytes: number;
}

function write(book: Book, path: string, content: string | Uint8Array): Written {
  const changed = writeWhole(path, content);
  const file = inBook(book, path).startsWith("..") ? path : inBook(book, path);
  return { file, changed, kilobytes: Math.round(Buffer.byteLength(content) / 1000) };
}

function writePages(book: Book, folder: string, files: MarkdownFiles): Written {
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
