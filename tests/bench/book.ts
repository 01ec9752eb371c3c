/** Running a book of sixteen sheets: cold, with nothing to do, one sheet stale, one given changed; and the first cell in Jupyter. */
import { spawnSync } from "node:child_process";
import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { largeBook } from "./large-book";
import { type Contender, type Measured, median, takeTurns } from "./measure";
import { jupyterEnvironment, jupyterPython, said, sheetFiles, workings } from "./place";
import { type Criterion, fasterThan, type Row } from "./row";

const missing = "nbclient is not installed here";

export async function bookRows(): Promise<Row[]> {
  const folder = largeBook("book", 3);
  const sheets = sheetFiles(folder);
  // The sheets may need one another's outputs before nbclient can run them one by one.
  workings(folder, "run");
  return [
    nothingStale(folder, sheets),
    oneStale(folder, sheets),
    oneGiven(folder, sheets),
    await cold(folder, sheets),
    ...firstCell(folder, sheets),
  ];
}

async function cold(folder: string, sheets: readonly string[]): Promise<Row> {
  const python = jupyterPython();
  const environment = jupyterEnvironment();
  const contenders: Contender[] = [
    {
      name: "workings run --all, nothing kept",
      run: () => {
        rmSync(join(folder, "build"), { recursive: true, force: true });
        return { seconds: workings(folder, "run", "--all"), answer: [] };
      },
    },
    ...(python === undefined ? [] : [{ name: "nbclient with tslab", run: () => nbclient(python, sheets, environment) }]),
  ];
  const times = await takeTurns(contenders, 1);
  return {
    title: `The whole book, ${sheets.length} worksheets, cold`,
    unit: "s",
    times,
    criteria: fasterThan(times, "nbclient with tslab", 8),
    notes: python === undefined ? [missing] : [],
  };
}

/** The whole of what a Python user waits for: start of Python, a kernel a sheet, all cells. */
function nbclient(python: string, sheets: readonly string[], environment: Readonly<Record<string, string>>) {
  const start = performance.now();
  execute(python, executeScript, sheets, environment);
  return { seconds: (performance.now() - start) / 1000, answer: [] };
}

function execute(python: string, script: string, args: readonly string[], environment: Readonly<Record<string, string>>): string {
  const { FORCE_COLOR: _, ...own } = process.env;
  const { status, stdout, stderr } = spawnSync(python, ["-c", script, ...args], { encoding: "utf8", env: { ...own, ...environment } });
  if (status !== 0) throw new Error(`nbclient failed\n${stderr}`);
  return stdout;
}

function nothingStale(folder: string, sheets: readonly string[]): Row {
  workings(folder, "run");
  const times = [once("workings run", () => workings(folder, "run"), 5)];
  const title = `A book of ${sheets.length} worksheets, nothing stale`;
  return { title, unit: "s", times, criteria: [total(times[0]?.seconds ?? Number.NaN, 0.5)], notes: [] };
}

/** A comment more in the first code cell of the last sheet makes it stale, and changes none of its results. */
function oneStale(folder: string, sheets: readonly string[]): Row {
  const path = sheets.at(-1) as string;
  let change = 0;
  const runs = Array.from({ length: 3 }, () => {
    touch(path, `// bench ${change++}`);
    return ranSheets(folder);
  });
  return {
    title: `One worksheet of ${sheets.length} stale`,
    unit: "s",
    times: [
      { name: "workings run", seconds: median(runs.map(({ seconds }) => seconds)) },
      { name: "the sheet itself", seconds: median(runs.map(({ longest }) => longest)) },
    ],
    criteria: [
      {
        what: "time beside the sheet's own",
        measured: median(runs.map(({ seconds, longest }) => seconds - longest)),
        limit: 1.5,
        is: "at most",
        unit: "s",
      },
    ],
    notes: [],
  };
}

/** The capacity of the small cell, which one sheet of each copy reads. */
function oneGiven(folder: string, sheets: readonly string[]): Row {
  const design = join(folder, "data/bittern/design.yaml");
  const text = readFileSync(design, "utf8");
  if (!text.includes("350 mAh")) throw new Error("the design has no capacity of 350 mAh any more");
  const runs = [351, 352, 353].map((capacity) => {
    writeFileSync(design, text.replace("350 mAh", `${capacity} mAh`));
    return ranSheets(folder);
  });
  writeFileSync(design, text);
  workings(folder, "run");
  return {
    title: `One given of a book of ${sheets.length} worksheets changed`,
    unit: "s",
    times: [
      { name: "workings run", seconds: median(runs.map(({ seconds }) => seconds)) },
      { name: "the slowest sheet", seconds: median(runs.map(({ longest }) => longest)) },
    ],
    criteria: [total(median(runs.map(({ longest }) => longest)), 1, "at most")],
    notes: [`${runs[0]?.count} sheets ran`],
  };
}

/** What `workings run` takes, s, how many sheets ran, and the longest of them, s. */
function ranSheets(folder: string): { readonly seconds: number; readonly longest: number; readonly count: number } {
  const start = performance.now();
  const { sheets } = JSON.parse(said(folder, "run", "--json")) as { sheets: { milliseconds?: number }[] };
  const seconds = (performance.now() - start) / 1000;
  const ran = sheets.flatMap(({ milliseconds }) => milliseconds ?? []);
  if (ran.length === 0) throw new Error("no sheet was stale");
  return { seconds, longest: Math.max(...ran) / 1000, count: ran.length };
}

function touch(path: string, comment: string): void {
  const notebook = JSON.parse(readFileSync(path, "utf8")) as { cells: { cell_type: string; source: string[] | string }[] };
  const cell = notebook.cells.find(({ cell_type }) => cell_type === "code");
  if (cell === undefined) throw new Error(`${path} has no code`);
  cell.source = [`${comment}\n`, ...[cell.source].flat().filter((line) => !line.startsWith("// bench"))];
  writeFileSync(path, JSON.stringify(notebook, null, 1));
}

function firstCell(folder: string, sheets: readonly string[]): Row[] {
  const python = jupyterPython();
  const title = "The first cell of a worksheet in Jupyter, the kernel being up";
  if (python === undefined) return [{ title, unit: "s", times: [], criteria: [], notes: [missing] }];
  const path = sheets.at(-1) as string;
  workings(folder, "kernel");
  const own = { JUPYTER_PATH: join(folder, "build/jupyter") };
  const time = (kernel: string, environment: Readonly<Record<string, string>>) =>
    Number(execute(python, firstCellScript, [path, kernel], environment));
  const ours = once("the kernel of Workings", () => time("tslab", own), 3);
  const plain = once("plain tslab kernel", () => time("tslab-bench", jupyterEnvironment()), 3);
  return [{ title, unit: "s", times: [ours, plain], criteria: [total(ours.seconds, 0.6, "at most")], notes: [] }];
}

function once(name: string, time: () => number, turns: number): Measured {
  return { name, seconds: median(Array.from({ length: turns }, time)) };
}

function total(seconds: number, limit: number, is: Criterion["is"] = "below"): Criterion {
  return { what: "time", measured: seconds, limit, is, unit: "s" };
}

const executeScript = `
import os, sys
import nbformat
from nbclient import NotebookClient
for path in sys.argv[1:]:
    notebook = nbformat.read(path, as_version=4)
    NotebookClient(notebook, kernel_name="tslab-bench", timeout=300, startup_timeout=60,
                   resources={"metadata": {"path": os.path.dirname(path)}}).execute()
`;

const firstCellScript = `
import os, sys, time
import nbformat
from nbclient import NotebookClient
notebook = nbformat.read(sys.argv[1], as_version=4)
client = NotebookClient(notebook, kernel_name=sys.argv[2], timeout=300, startup_timeout=60,
                        resources={"metadata": {"path": os.path.dirname(sys.argv[1])}})
index = next(i for i, cell in enumerate(notebook.cells) if cell.cell_type == "code")
with client.setup_kernel():
    start = time.perf_counter()
    client.execute_cell(notebook.cells[index], index)
    print(time.perf_counter() - start)
`;
