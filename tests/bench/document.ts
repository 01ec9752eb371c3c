/** The document: how long it takes to make, and how large it is. */
import { readdirSync, statSync } from "node:fs";
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
  const megabytes = statSync(document).size / 1e6;
  const size: Criterion = { what: "size of the document", measured: megabytes, limit: 5, is: "at most", unit: "MB" };
  return [{ ...built, criteria: [...built.criteria, size] }];
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
