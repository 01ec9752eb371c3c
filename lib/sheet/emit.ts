/** Sends one MIME bundle to whatever runs the cell: our runner, any tslab kernel, or nothing (plain Node). */
import type { EvaluationData } from "../analysis/found";
import { terminalText } from "../quantity/terminal-text";

export type MimeBundle = Readonly<Record<string, unknown>>;
interface DisplayData {
  data: MimeBundle;
  metadata: Record<string, never>;
  transient: Record<string, never>;
}
type Sink = (message: DisplayData) => void;

/** A place in the cells of a notebook, all 1-based. */
export interface Place {
  readonly cell: number;
  readonly line: number;
}

/** One execution of a cell, where the runner tells. */
export interface RunningCell {
  readonly notebook: string;
  /** 1-based: among the code cells, or in Jupyter in the order of execution. */
  readonly index: number;
  /** Undefined where a front end does not tell it. */
  readonly id?: string;
  /** Set by the runner when the same cell is executed again. */
  superseded?: boolean;
  /** The places in cells that a stack trace names, innermost first. */
  readonly places?: (stack: string) => readonly Place[];
}

const sinkKey = Symbol.for("workings.display");
const cellKey = Symbol.for("workings.cell");

/** Undefined in a kernel that does not tell which cell it runs. */
export function runningCell(): RunningCell | undefined {
  return (globalThis as Record<symbol, unknown>)[cellKey] as RunningCell | undefined;
}

const keepKey = Symbol.for("workings.keep");

/** Tells a kernel that keeps them how to ask for what a worksheet's evaluation has found. */
export function offerFound(found: () => EvaluationData): void {
  const keeper = (globalThis as Record<symbol, unknown>)[keepKey];
  if (typeof keeper === "function") keeper(found);
}

const foundKey = Symbol.for("workings.found");

/** What the last run of this sheet has found, where a kernel keeps it. */
export function foundBefore(): EvaluationData | undefined {
  const kept = (globalThis as Record<symbol, unknown>)[foundKey];
  return typeof kept === "function" ? (kept() as EvaluationData | undefined) : undefined;
}

/** Shows the bundle as the output of the running cell; does nothing where no kernel listens. */
export function emit(bundle: MimeBundle): void {
  const data = Object.entries(bundle).map(([type, shown]) => [
    type,
    type.startsWith("text/") && typeof shown === "string" ? terminalText(shown) : shown,
  ]);
  findSink()?.({ data: Object.fromEntries(data), metadata: {}, transient: {} });
}

/** Whether anything listens to what is emitted. */
export const isHeard = (): boolean => findSink() !== undefined;

function findSink(): Sink | undefined {
  const own = (globalThis as Record<symbol, unknown>)[sinkKey];
  return typeof own === "function" ? (own as Sink) : tslabSink();
}

/**
 * tslab's own display functions send one MIME type at a time; the function behind them takes a whole bundle.
 * It is looked up among the loaded modules because the kernel's tslab need not be the one this package depends on.
 */
function tslabSink(): Sink | undefined {
  if (typeof require !== "function" || require.cache === undefined) return undefined;
  for (const [path, module] of Object.entries(require.cache)) {
    if (!/[\\/]tslab[\\/]dist[\\/]jupyter\.js$/.test(path)) continue;
    const send = (module?.exports as { lastWriteDisplayData?: Sink | null } | undefined)?.lastWriteDisplayData;
    if (typeof send === "function") return send;
  }
  return undefined;
}
