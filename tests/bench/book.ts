/** Running the book: cold, with nothing to do, one sheet stale; and the first cell in Jupyter. */
import { spawnSync } from "node:child_process";
import { readFileSync, writeFileSync } from "node:fs";
import { basename, join } from "node:path";
import { type Contender, type Measured, median, takeTurns } from "./measure";
import { copyBook, jupyterEnvironment, jupyterPython, sheetFiles, workings } from "./place";
import { type Criterion, fasterThan, type Row } from "./row";

const missing = "nbclient is not installed here";

export async function bookRows(): Promise<Row[]> {
  const folder = copyBook("book");
  const sheets = sheetFiles(folder);
  // The sheets may need one another's outputs before nbclient can run them one by one.
  workings(folder, "run", "--all");
  return [await cold(folder, sheets), nothingStale(folder), oneStale(folder, sheets), ...firstCell(folder, sheets)];
}

async function cold(folder: string, sheets: readonly string[]): Promise<Row> {
  const python = jupyterPython();
  const environment = jupyterEnvironment();
  const contenders: Contender[] = [
    { name: "workings run --all", run: () => ({ seconds: workings(folder, "run", "--all"), answer: [] }) },
    ...(python === undefined ? [] : [{ name: "nbclient with tslab", run: () => nbclient(python, sheets, environment) }]),
  ];
  const times = await takeTurns(contenders, 1);
  return {
    title: `The whole book, ${sheets.length} worksheets, cold`,
    unit: "s",
    times,
    criteria: fasterThan(times, "nbclient with tslab", 6),
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

function nothingStale(folder: string): Row {
  const times = [once("workings run", () => workings(folder, "run"), 5)];
  return { title: "The whole book, nothing stale", unit: "s", times, criteria: [total(times[0]?.seconds ?? Number.NaN, 0.7)], notes: [] };
}

/** A comment more in the first code cell makes a sheet stale; run by name it takes the same, with no other sheet looked at. */
function oneStale(folder: string, sheets: readonly string[]): Row {
  const path = sheets.at(-1) as string;
  const name = basename(path, ".ipynb").replace(/^\d+-/, "");
  let change = 0;
  const stale = (...words: string[]) => {
    touch(path, `// bench ${change++}`);
    return workings(folder, "run", ...words);
  };
  const [whole, own] = [once("workings run", () => stale(), 3), once(`workings run ${name}`, () => stale(name), 3)];
  const times = [own, { ...whole, ratio: whole.seconds / own.seconds }];
  return {
    title: `One worksheet of ${sheets.length} stale (${name})`,
    unit: "s",
    times,
    criteria: [{ what: "time over that of the sheet alone", measured: whole.seconds / own.seconds, limit: 1.15, is: "at most", unit: "×" }],
    notes: [],
  };
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
