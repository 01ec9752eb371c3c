/**
 * Entry of the kernel's process: runs the cells of one notebook in the current folder and reports on descriptor 3.
 * Ends by itself; every way out other than "done" is reported as a failure, here or, if that is not possible, by the parent.
 */
import { readFileSync, writeSync } from "node:fs";
import { compileFailure, failureHere, type Scene, throwFailure } from "./failure";
import { scriptName } from "./positions";
import { channel, type Failure, type Job, type Message } from "./protocol";
import { openTslab, type Tslab } from "./tslab";

/** Library frames may lie between an error and the cell that asked for the work. */
Error.stackTraceLimit = 100;

const exit = process.exit.bind(process);

class Session {
  private cell = 0;
  private stage: "cell" | "settling" | "over" = "cell";
  private readonly job: Job;
  private readonly tslab: Tslab;

  constructor(job: Job) {
    this.job = job;
    this.captureStreams();
    this.tslab = openTslab(require);
    this.tslab.onDisplay((display, update) => send({ type: "display", display, update: update === true }));
    process.on("uncaughtException", (error) => this.fail(throwFailure("throw", error, this.scene())));
    process.on("unhandledRejection", (reason) => this.fail(throwFailure("rejection", reason, this.scene())));
    process.on("exit", (code) => this.exiting(code));
    process.on("beforeExit", () => this.idle());
  }

  async run(): Promise<void> {
    for (const { cell, id, source } of this.job.cells) {
      this.cell = cell;
      Object.assign(globalThis, { [Symbol.for("workings.cell")]: { notebook: this.job.notebook, index: cell, id } });
      send({ type: "cell", cell });
      const outcome = await this.tslab.execute(source, scriptName(cell));
      if (outcome.ok) continue;
      this.fail(compileFailure(outcome.converted, cell) ?? throwFailure("throw", outcome.thrown, this.scene()));
    }
    this.stage = "settling";
    send({ type: "settling" });
    // Not counted as open work: when nothing else is, Node says "beforeExit" at once.
    setTimeout(() => this.finish([openWork(this.job.grace)]), this.job.grace).unref();
  }

  private scene(): Scene {
    return { cell: this.cell, maps: this.tslab.maps, locals: this.tslab.locals };
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
    if (this.stage === "settling") this.finish([]);
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
    send({
      type: "failed",
      failure: failureHere("exit", `the cell ended the process (process.exit, code ${code}); a sheet must run to its end`, this.scene()),
    });
  }

  private finish(warnings: readonly string[]): void {
    if (this.stage === "over") return;
    this.stage = "over";
    send({ type: "done", warnings });
    exit(0);
  }

  private fail(failure: Failure): never {
    this.stage = "over";
    send({ type: "failed", failure });
    return exit(1);
  }
}

function openWork(grace: number): string {
  // Pipes to the parent are no work of the sheet.
  const kinds = [...new Set(process.getActiveResourcesInfo())]
    .filter((kind) => kind !== "PipeWrap")
    .sort()
    .join(", ");
  return `still open ${grace / 1000} s after the last cell (${kinds || "a promise"}): closed; what it would have shown later is not in the sheet`;
}

function send(message: Message): void {
  const bytes = Buffer.from(`${JSON.stringify(message)}\n`, "utf8");
  for (let sent = 0; sent < bytes.length; ) {
    try {
      sent += writeSync(channel, bytes, sent);
    } catch (error) {
      // The pipe is full: wait for the parent. Anything else means that there is no parent any more.
      if ((error as NodeJS.ErrnoException).code !== "EAGAIN") exit(1);
      Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 2);
    }
  }
}

void new Session(JSON.parse(readFileSync(0, "utf8")) as Job).run();
