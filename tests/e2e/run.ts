/** Runs the demo's worksheet on a design file through the runner, in a child process, and gives back what it computed. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { Evaluation } from "../../lib/analysis/evaluation";
import type { Analysis, Verdict } from "../../lib/analysis/result";
import { displaysOf } from "../../lib/book/displays";
import { Graph } from "../../lib/graph/graph";
import { runNotebook } from "../../lib/kernel/host";
import type { Notebook } from "../../lib/kernel/notebook";
import { formatSheetError } from "../../lib/kernel/sheet-error";
import type { Display } from "../../lib/sheet/block";
import "../../lib/physics";

export const root = resolve(__dirname, "../..");
export const sheetPath = join(root, "notebooks/03-indicators.ipynb");
export const designPath = join(root, "data/bittern/design.yaml");
export const designText = () => readFileSync(designPath, "utf8");

export interface Fresh {
  readonly notebook: Notebook;
  readonly displays: readonly Display[];
  /** Evaluates the graph that the run put into the notebook's outputs, at full precision. */
  readonly evaluation: Evaluation;
  /** As stored in the outputs, 12 digits. */
  readonly stored: ReadonlyMap<string, Analysis>;
  readonly verdicts: ReadonlyMap<string, Verdict>;
}

/** A worksheet on the design text given; nothing on disk changes. Throws where a cell fails. */
export async function freshRun(design: string, sheet = sheetPath): Promise<Fresh> {
  const folder = mkdtempSync(join(tmpdir(), "design-"));
  const file = join(folder, "design.yaml");
  writeFileSync(file, design);
  try {
    const run = await runNotebook(sheet, {
      write: false,
      environment: { WORKINGS_DESIGN: file },
      child: join(root, "dist/kernel-child.js"),
    });
    if (!run.ok) throw new Error(formatSheetError(run.error));
    return freshOf(run.notebook);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

export function freshOf(notebook: Notebook): Fresh {
  const displays = displaysOf(notebook);
  const graph = Graph.from(displays.flatMap(({ nodes }) => nodes));
  const verdicts = displays.flatMap(({ block, verdicts = [] }) =>
    block.type === "requirement" ? verdicts.map((verdict) => [block.requirement, verdict] as const) : [],
  );
  return {
    notebook,
    displays,
    evaluation: new Evaluation(graph),
    stored: new Map(displays.flatMap(({ analyses }) => analyses.map((analysis) => [analysis.node, analysis] as const))),
    verdicts: new Map(verdicts),
  };
}
