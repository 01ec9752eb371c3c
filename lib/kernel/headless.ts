/**
 * The child's side: runs notebooks through one converter. Every way out of a notebook other than "done" is reported as
 * its failure, here or, if that is not possible, by the parent; the process then ends. After "done" it takes the next
 * job, unless the notebook has left something behind that the next one could see.
 */
import { readSync, writeSync } from "node:fs";
import type { EvaluationData } from "../analysis/found";
import type { RunningCell } from "../sheet/emit";
import { type CellEngine, type EngineRun, openEngine } from "./engine";
import { failureHere, type Scene, throwFailure } from "./failure";
import { keep, keptData } from "./kept";
import { framesOf } from "./positions";
import { channel, type Engine, type Failure, type Job, jobs, type Message, type Used } from "./protocol";
import { Reads } from "./reads";
import { Traces } from "./traces";

const exit = process.exit.bind(process);

export class Headless {
  private cell = 0;
  private stage: "cell" | "failing" | "settling" | "over" = "over";
  private failure: Failure | undefined;
  private grace: NodeJS.Timeout | undefined;
  private run: EngineRun | undefined;
  private keepFound: () => void = () => undefined;
  private readonly reads = new Reads(__dirname);
  private readonly asked = new Set<string>();
  private readonly engine: CellEngine;
  private readonly traces: Traces;
  private readonly unref: (timer: NodeJS.Timeout) => void;

  constructor(engine: Engine) {
    this.captureStreams();
    this.engine = openEngine(engine, (display, update) => send({ type: "display", display, update }));
    process.on("uncaughtException", (error) => this.fail(throwFailure("throw", error, this.scene())));
    process.on("unhandledRejection", (reason) => this.fail(throwFailure("rejection", reason, this.scene())));
    process.on("exit", (code) => this.exiting(code));
    process.on("beforeExit", () => this.idle());
    const { unref } = Object.getPrototypeOf(setTimeout(() => undefined, 0)) as NodeJS.Timeout;
    this.unref = (timer) => void unref.call(timer);
    this.traces = new Traces();
  }

  /** Waits for the parent's next job; ends the process when there is none. */
  next(): void {
    const line = readLine();
    if (line === undefined) exit(0);
    // Also keeps the event loop turning: it was empty until now.
    setImmediate(() => void this.start(JSON.parse(line as string) as Job));
  }

  private async start(job: Job): Promise<void> {
    this.stage = "cell";
    this.cell = 0;
    const run = this.engine.open();
    this.run = run;
    this.listenForFound(job);
    this.listenForUse(job);
    for (const jobCell of job.cells) {
      const { cell, id } = jobCell;
      this.cell = cell;
      const running: RunningCell = { notebook: job.notebook, index: cell, id, places: (stack) => framesOf(stack, run.maps) };
      Object.assign(globalThis, { [Symbol.for("workings.cell")]: running });
      send({ type: "cell", cell });
      const failure = await run.execute(jobCell);
      if (failure === undefined) continue;
      this.stage = "failing";
      this.failure = failure;
      return this.wait(() => this.fail(failure), 20);
    }
    this.stage = "settling";
    send({ type: "settling" });
    this.wait(() => this.leave([openWork(job.grace)]), job.grace);
  }

  /** The worksheet is given what its last run has found, and offers what it will have found; it is asked when the notebook is done. */
  private listenForFound({ keep: keeping, anew, design }: Job): void {
    this.keepFound = () => undefined;
    if (design !== undefined) Object.assign(globalThis, { [Symbol.for("workings.design")]: design });
    if (keeping === undefined) return;
    const offer = (found: () => EvaluationData) => {
      this.keepFound = () => keep(keeping, found());
    };
    const found = () => (anew === true ? undefined : keptData(keeping));
    Object.assign(globalThis, { [Symbol.for("workings.keep")]: offer, [Symbol.for("workings.found")]: found });
  }

  private listenForUse({ root }: Job): void {
    this.reads.begin(root);
    this.asked.clear();
    Object.assign(globalThis, {
      [Symbol.for("workings.asked")]: (asked: string) => void this.asked.add(asked),
      [Symbol.for("workings.collecting")]: (budget: string | undefined) => this.reads.collect(budget),
    });
  }

  private get used(): Used {
    return { asked: [...this.asked].sort(), files: this.reads.files, purposes: this.reads.purposes };
  }

  /** Not counted as open work: when nothing else is, Node says "beforeExit" at once. */
  private wait(over: () => void, milliseconds: number): void {
    this.grace = setTimeout(over, milliseconds);
    this.unref(this.grace);
  }

  private scene(): Scene {
    return { cell: this.cell, maps: this.run?.maps ?? new Map() };
  }

  /** As in the Jupyter kernel, whatever is printed belongs to the cell that started last. */
  private captureStreams(): void {
    for (const name of ["stdout", "stderr"] as const) {
      const decoder = new TextDecoder();
      process[name].write = (chunk: Uint8Array | string) => {
        send({ type: "stream", name, text: typeof chunk === "string" ? chunk : decoder.decode(chunk) });
        return true;
      };
    }
  }

  /** The event loop is empty. */
  private idle(): void {
    if (this.stage === "settling" || this.stage === "failing") this.finish();
    else if (this.stage === "cell")
      this.fail({
        kind: "stalled",
        cell: this.cell,
        message: "the cell awaits a promise that nothing is left to settle: no timer, file or connection is open",
      });
  }

  private exiting(code: number): void {
    if (this.stage === "over") return;
    this.stage = "over";
    const sentence = `the cell ended the process (process.exit, code ${code}); a sheet must run to its end`;
    send({ type: "failed", failure: this.failure ?? failureHere("exit", sentence, this.scene()), again: false });
  }

  /** A sheet that failed in a cell and left nothing behind spares the next one the start of a process as well. */
  private finish(): void {
    const { failure } = this;
    clearTimeout(this.grace);
    if (failure === undefined) this.keepFound();
    for (const key of ["workings.cell", "workings.design", "workings.keep", "workings.found", "workings.asked", "workings.collecting"])
      Reflect.deleteProperty(globalThis, Symbol.for(key));
    const left = this.engine.hasOwnFiles ? "files of its own" : this.traces.left();
    if (left === undefined && !isFull()) {
      this.stage = "over";
      this.run = undefined;
      this.failure = undefined;
      this.traces.forgetModules();
      send(failure === undefined ? { type: "done", warnings: [], used: this.used, again: true } : { type: "failed", failure, again: true });
      this.next();
    } else if (failure === undefined) this.leave([]);
    else this.fail(failure);
  }

  private leave(warnings: readonly string[]): void {
    if (this.stage === "over") return;
    this.stage = "over";
    send({ type: "done", warnings, used: this.used, again: false });
    exit(0);
  }

  /** The first failure is the one that is told. */
  private fail(failure: Failure): never {
    this.stage = "over";
    send({ type: "failed", failure: this.failure ?? failure, again: false });
    return exit(1);
  }
}

/** What a sheet may use must not depend on what ran before it. */
function isFull(): boolean {
  const limit = process.execArgv.map((word) => /^--max-old-space-size=(\d+)$/.exec(word)?.[1]).find((found) => found !== undefined);
  return limit !== undefined && process.memoryUsage().heapUsed > (Number(limit) * 1024 * 1024) / 2;
}

function openWork(grace: number): string {
  // Pipes to the parent are no work of the sheet.
  const kinds = [...new Set(process.getActiveResourcesInfo())]
    .filter((kind) => kind !== "PipeWrap")
    .sort()
    .join(", ");
  return `still open ${grace / 1000} s after the last cell (${kinds || "a promise"}): closed; what it would have shown later is not in the sheet`;
}

/** Waiting in a read, and not for an event, leaves the event loop to the sheet alone. Undefined when the parent is done. */
function readLine(): string | undefined {
  const parts: Buffer[] = [];
  for (;;) {
    const part = Buffer.alloc(65536);
    const size = readSome(part);
    if (size === 0) return undefined;
    const end = part.subarray(0, size).indexOf(10);
    parts.push(part.subarray(0, end < 0 ? size : end));
    // The parent sends the next job only when this one is done: nothing follows the line.
    if (end >= 0) return Buffer.concat(parts).toString("utf8");
  }
}

function readSome(part: Buffer): number {
  for (;;) {
    try {
      return readSync(jobs, part);
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== "EAGAIN") return 0;
      pause();
    }
  }
}

function send(message: Message): void {
  const bytes = Buffer.from(`${JSON.stringify(message)}\n`, "utf8");
  for (let sent = 0; sent < bytes.length; ) {
    try {
      sent += writeSync(channel, bytes, sent);
    } catch (error) {
      // The pipe is full: wait for the parent. Anything else means that there is no parent any more.
      if ((error as NodeJS.ErrnoException).code !== "EAGAIN") exit(1);
      pause();
    }
  }
}

function pause(): void {
  Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 2);
}
