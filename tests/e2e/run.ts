/** Runs the demo's worksheet on a design file through the runner, in a child process, and gives back what it computed. */
import { cpSync, mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { Evaluation } from "../../lib/analysis/evaluation";
import { Graph } from "../../lib/graph/graph";
import { type RunResult, runNotebook } from "../../lib/kernel/host";
import { Kernel } from "../../lib/kernel/kernel";
import { codeCells, type Notebook } from "../../lib/kernel/notebook";
import { formatSheetError } from "../../lib/kernel/sheet-error";
import type { Display } from "../../lib/sheet/block";
import { kindOf } from "../../lib/sheet/kinds";
import "../../lib/physics";
import { storedDisplays } from "../../lib/sheet/stored";
import { quickEngine } from "../kernel/fixture";
import { root, testFolder } from "../root";

export const sheetPath = join(root, "notebooks/03-indicators.ipynb");
const designPath = join(root, "data/bittern/design.yaml");
export const designText = () => readFileSync(designPath, "utf8");

export interface Fresh {
  readonly notebook: Notebook;
  readonly displays: readonly Display[];
  /** Evaluates the graph that the run put into the notebook's outputs, at full precision. */
  readonly evaluation: Evaluation;
  /** Nominal values of what the sheet shows, by node. */
  readonly shown: ReadonlyMap<string, number>;
  /** Words of the verdicts that its cells print, by requirement. */
  readonly verdicts: Readonly<Record<string, string>>;
}

/** A kernel with a design file of its own: one process for all its runs, so that a run costs a third of what a new one would. */
class Slot {
  private readonly folder = mkdtempSync(join(testFolder, "design-"));
  private readonly kernel = new Kernel();
  private last: Promise<unknown> = Promise.resolve();
  private readonly engine = quickEngine(join(this.folder, "cells"));

  run(design: string, sheet: string): Promise<RunResult> {
    const file = join(this.folder, "design.yaml");
    const job = () => {
      writeFileSync(file, design);
      cpSync(join(root, "data/bittern/pilot"), join(this.folder, "pilot"), { recursive: true });
      const environment = { WORKINGS_DESIGN: file };
      return runNotebook(sheet, {
        write: false,
        environment,
        child: join(root, "dist/kernel-child.js"),
        kernel: this.kernel,
        ...this.engine,
      });
    };
    const next = this.last.then(job, job);
    this.last = next.catch(() => undefined);
    return next;
  }
}

/** Two, for two cores; made when they are first needed, for all files of this process. */
const slots: Slot[] = [];
let turn = 0;

/** A worksheet on the design text given; nothing on disk changes. Throws where a cell fails. */
export async function freshRun(design: string, sheet = sheetPath): Promise<Fresh> {
  const which = turn++ % 2;
  slots[which] ??= new Slot();
  const run = await slots[which].run(design, sheet);
  if (!run.ok) throw new Error(formatSheetError(run.error));
  return freshOf(run.notebook);
}

export function freshOf(notebook: Notebook): Fresh {
  const displays = storedDisplays(notebook, "sheet").map(({ display }) => display);
  const graph = Graph.from(displays.flatMap(({ nodes }) => nodes));
  const evaluation = new Evaluation(graph);
  const ids = displays.flatMap(
    ({ block }) =>
      kindOf(block)
        .numbers?.(block)
        .flatMap(({ nodes }) => nodes) ?? [],
  );
  return {
    notebook,
    displays,
    evaluation,
    shown: new Map(ids.toSorted().map((id) => [id, evaluation.nominal(id)])),
    verdicts: Object.fromEntries(plainTexts(notebook).flatMap(verdictOf)),
  };
}

/** What plain Jupyter shows of a notebook, an output at a time. */
export function plainTexts(notebook: Notebook): string[] {
  const outputs = codeCells(notebook).flatMap((cell) => cell.outputs);
  return outputs.map((output) => ("data" in output ? [output.data["text/plain"] ?? ""].flat().join("") : ""));
}

/** `cool: Stays cool.: holds (judged by worst case: …)`, the line of a requirement. */
export function verdictOf(line: string): [string, string][] {
  const [, id, word] = /^(\S+): .*: ([a-z][^:(]*?)(?:, outside .*)? \(judged by /.exec(line) ?? [];
  return id === undefined || word === undefined ? [] : [[id, word]];
}
