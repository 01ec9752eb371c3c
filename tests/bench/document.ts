/** The document: how long it takes to make, and how large it is. */
import { readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { type Contender, takeTurns } from "./measure";
import { copyBook, outputFolder, seconds, sheetFiles, workings } from "./place";
import { pythonWith } from "./python";
import { type Criterion, fasterThan, type Row } from "./row";

export async function documentRows(): Promise<Row[]> {
  const folder = copyBook("document");
  const sheets = sheetFiles(folder);
  workings(folder, "run");
  const built = await building(folder, sheets);
  const build = join(folder, "build");
  const document = join(build, readdirSync(build).find((file) => file.endsWith(".html")) as string);
  return [{ ...built, criteria: [...built.criteria, ...sizes(document, sheets)] }];
}

/** Of the document, of what a sheet adds to it, and of the largest notebook. */
function sizes(document: string, sheets: readonly string[]): Criterion[] {
  const html = readFileSync(document, "utf8");
  const shared = (html.match(/<(script id="program"|style)\b[^>]*>.*?<\/(?:script|style)>/gs) ?? []).join("");
  const share = (Buffer.byteLength(html) - Buffer.byteLength(shared)) / sheets.length;
  const notebook = Math.max(...sheets.map((file) => statSync(file).size));
  const bytes = (what: string, measured: number, limit: number): Criterion => ({
    what,
    measured: measured / 1e6,
    limit,
    is: "at most",
    unit: "MB",
  });
  return [
    bytes("size of the document", statSync(document).size, 5),
    bytes("a sheet's share of the document, without program and style", share, 0.2),
    bytes("size of the largest notebook", notebook, 0.35),
  ];
}

async function building(folder: string, sheets: readonly string[]): Promise<Row> {
  const python = pythonWith("nbconvert");
  const html = ["-m", "nbconvert", "--to", "html", "--output-dir", join(outputFolder, "nbconvert"), ...sheets];
  const contenders: Contender[] = [
    { name: "workings publish", run: () => ({ seconds: workings(folder, "publish"), answer: [] }) },
    ...(python === undefined ? [] : [{ name: "nbconvert --to html", run: () => ({ seconds: seconds(folder, python, html), answer: [] }) }]),
  ];
  const times = await takeTurns(contenders, 3);
  return {
    title: `The document of ${sheets.length} worksheets, made`,
    unit: "s",
    times,
    criteria: fasterThan(times, "nbconvert --to html", 1),
    notes: python === undefined ? ["nbconvert is not installed here"] : [],
  };
}
