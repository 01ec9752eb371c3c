/** Runs the sheets of a plan, side by side where they may, and tells of each in the order of the plan. */
import type { Worksheet } from "../book/book-file";
import type { Standing } from "../book/standing";
import { type RunOptions, type RunResult, runNotebook } from "../kernel/host";
import type { Kernel } from "../kernel/kernel";
import { WorkingsError } from "../quantity/error";
import type { Plan } from "./plan";
import type { Progress } from "./progress";
import { sideBySide } from "./side-by-side";

interface Skipped {
  readonly worksheet: Worksheet;
  readonly text: string;
  /** Because a sheet that it takes from has failed. */
  readonly failed: boolean;
}

export interface Ran {
  readonly worksheet: Worksheet;
  readonly result: RunResult;
  readonly milliseconds: number;
}

/** All in the order of the plan. */
export interface SheetRuns {
  readonly ran: readonly Ran[];
  readonly skipped: readonly Skipped[];
  /** What there is to tell where the record could not be kept. */
  readonly unremembered: readonly string[];
  /** Sheets whose outputs are of a design, or of another sheet, that is no more. */
  readonly overtaken: readonly string[];
}

export interface Surroundings {
  /** One for each sheet that may run at a time. */
  readonly kernels: readonly Kernel[];
  readonly progress: Progress;
  readonly signal: AbortSignal;
  readonly standing: Standing;
  readonly options: (worksheet: Worksheet) => RunOptions;
  /** Whether outputs are written and recorded. */
  readonly writes: boolean;
  readonly tell: (sheet: string, result: RunResult) => void;
}

interface Outcome {
  readonly line: string;
  readonly ran?: Ran;
  readonly skipped?: Skipped;
  readonly told?: string;
  readonly isOvertaken?: boolean;
}

export async function runSheets(plan: Plan, around: Surroundings): Promise<SheetRuns> {
  const outcomes = new Map<string, Outcome>();
  const tell = inOrder(plan, outcomes, around);
  await sideBySide(
    plan.sheets.map(({ name }) => ({ name, after: plan.after(name) })),
    around.kernels.length,
    async (name, place) => {
      const worksheet = plan.sheets.find((sheet) => sheet.name === name) as Worksheet;
      outcomes.set(name, await outcomeOf(worksheet, around.kernels[place] as Kernel, plan, outcomes, around));
      tell(false);
    },
    () => around.signal.aborted,
  );
  tell(true);
  const all = plan.sheets.flatMap(({ name }) => outcomes.get(name) ?? []);
  return {
    ran: all.flatMap(({ ran }) => ran ?? []),
    skipped: all.flatMap(({ skipped }) => skipped ?? []),
    unremembered: all.flatMap(({ told }) => told ?? []),
    overtaken: all.flatMap(({ ran, isOvertaken }) => (ran !== undefined && isOvertaken === true ? [ran.worksheet.name] : [])),
  };
}

/** Tells of the sheets that are done and have none before them that is not; of all that are done at the end, when some have not run. */
function inOrder(plan: Plan, outcomes: ReadonlyMap<string, Outcome>, { progress, tell }: Surroundings): (atEnd: boolean) => void {
  const untold = plan.sheets.map(({ name }) => name);
  return (atEnd) => {
    for (let name = untold[0]; name !== undefined; name = untold[0]) {
      const outcome = outcomes.get(name);
      if (outcome === undefined && !atEnd) return;
      untold.shift();
      if (outcome === undefined) continue;
      const { line, ran } = outcome;
      progress.write(line, () => (ran === undefined ? undefined : tell(ran.worksheet.name, ran.result)));
    }
  };
}

async function outcomeOf(
  worksheet: Worksheet,
  kernel: Kernel,
  plan: Plan,
  outcomes: ReadonlyMap<string, Outcome>,
  { progress, signal, standing, options, writes }: Surroundings,
): Promise<Outcome> {
  const { name } = worksheet;
  const begun = performance.now();
  progress.start(name);
  const failed = [...outcomes]
    .filter(([, { ran, skipped }]) => ran?.result.ok === false || skipped?.failed === true)
    .map(([other]) => other);
  const reason = plan.reasonToSkip(name, new Set(failed));
  if (reason !== undefined) return { line: progress.end(name, reason.text), skipped: { worksheet, ...reason } };
  const result = await runNotebook(worksheet.path, {
    ...options(worksheet),
    kernel,
    signal,
    onCell: (cell, total) => progress.update(name, `cell ${cell} of ${total}`),
    onWrite: () => standing.forget(name),
  });
  const line = progress.end(name, stateOf(result, writes));
  const ran = { worksheet, result, milliseconds: Math.round(performance.now() - begun) };
  if (!writes) return { line, ran };
  const { told, moved = [] } = remember(standing, name, result);
  return { line, ran, isOvertaken: moved.length > 0, ...(told !== undefined && { told }) };
}

/** The record may be lost at any time: a full disk under it is no failure of a sheet. Returns what there is to tell, and files that changed under the sheet. */
function remember(standing: Standing, name: string, result: RunResult): { readonly told?: string; readonly moved?: readonly string[] } {
  try {
    if (!result.ok) {
      if (result.error.kind !== "interrupted") standing.failed(name, result.error.message.split("\n")[0] ?? "");
      return {};
    }
    const moved = standing.remember(name, result.notebook, result.used);
    if (moved.length === 0) return {};
    return { moved, told: `${moved.join(", ")} changed while ${name} ran: its outputs are of what it read then; run it again` };
  } catch (error) {
    if (error instanceof WorkingsError && error.code === "write") return { told: `${error.message} The sheets count as not run.` };
    throw error;
  }
}

function stateOf(result: RunResult, writes: boolean): string {
  if (!result.ok) return result.error.kind === "interrupted" ? "interrupted" : "failed";
  if (!writes) return "done, not written";
  return result.changed ? "done, outputs changed" : "done, as before";
}
