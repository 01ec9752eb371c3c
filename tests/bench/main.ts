/**
 * Speed and size beside the limits that the project sets itself, each against peers in the same run: `npm run bench`, or
 * `npm run bench -- monte-carlo budget` for some rows. Every group runs in a process of its own, so that what the engine
 * learned from one does not bear on the next. Results also go to build/bench.json. Exit code 1 where a limit is missed.
 */
import { execFileSync } from "node:child_process";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { arch, cpus } from "node:os";
import { join } from "node:path";
import { bookRows } from "./book";
import { budgetRows } from "./budget";
import { documentRows } from "./document";
import { modelRows } from "./models";
import { monteCarloRows } from "./monte-carlo";
import { pageRows } from "./page";
import { outputFolder } from "./place";
import { recalculationRows } from "./recalculation";
import { holds, type Row } from "./row";
import { scalarRows } from "./scalar";
import { stringRows } from "./strings";
import { formatRow } from "./table";
import { watchRows } from "./watch";

const groups: Readonly<Record<string, () => Promise<Row[]>>> = {
  "monte-carlo": monteCarloRows,
  scalar: scalarRows,
  strings: stringRows,
  models: modelRows,
  budget: budgetRows,
  recalculation: recalculationRows,
  book: bookRows,
  document: documentRows,
  watch: watchRows,
  page: pageRows,
};

const [mark, ...names] = process.argv.slice(2);

if (mark === "--group") {
  const rows = await (groups[names[0] ?? ""] as () => Promise<Row[]>)();
  writeFileSync(names[1] as string, JSON.stringify(rows));
} else {
  const wanted = mark === undefined ? Object.keys(groups) : [mark, ...names];
  const unknown = wanted.filter((name) => groups[name] === undefined);
  if (unknown.length > 0) throw new Error(`there is no group ${unknown.join(", ")}; there are ${Object.keys(groups).join(", ")}`);
  process.exitCode = runAll(wanted);
}

function runAll(wanted: readonly string[]): number {
  mkdirSync(outputFolder, { recursive: true });
  const machine = `Node ${process.versions.node}, ${cpus().length} cores, ${cpus()[0]?.model.trim() ?? arch()}`;
  console.log(`${machine}\n`);
  const rows = wanted.flatMap((name) => {
    const own = runGroup(name);
    for (const row of own) console.log(formatRow(row));
    return own;
  });
  writeFileSync(join(outputFolder, "../bench.json"), `${JSON.stringify({ machine, rows }, null, 1)}\n`);
  const missed = rows.flatMap(({ criteria }) => criteria).filter((criterion) => !holds(criterion)).length;
  console.log(missed === 0 ? "every limit holds" : `${missed} limits do not hold`);
  return missed === 0 ? 0 : 1;
}

/** The rows of a group, from a process of its own. */
function runGroup(name: string): Row[] {
  const file = join(outputFolder, `${name}.json`);
  execFileSync(process.execPath, [process.argv[1] as string, "--group", name, file], { stdio: "inherit" });
  return JSON.parse(readFileSync(file, "utf8")) as Row[];
}
