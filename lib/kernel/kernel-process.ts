/**
 * The parent's side of one kernel process: starts it, gives it jobs, collects outputs, keeps time. Whatever way a job
 * ends, its promise resolves with either "done" or a failure. After a failure no process is left.
 */
import { type ChildProcess, spawn } from "node:child_process";
import type { Readable, Writable } from "node:stream";
import { largestOutput, Outputs } from "./outputs";
import { channel, type Engine, type Failure, type Job, jobs, type Message, type Used } from "./protocol";

/** Two notebooks with the same setting can share a process. */
export interface Setting {
  /** Path of the built child script. */
  readonly script: string;
  readonly folder: string;
  /** What runs the cells in it: tslab, or this process by itself, where they come compiled. */
  readonly engine: Engine;
  /** JavaScript heap, MiB. */
  readonly heap: number;
  readonly environment: Readonly<Record<string, string>>;
}

export interface JobOptions {
  /** Time limit of a cell, ms. Also for what runs on after the last cell. */
  readonly cellLimit: number;
  /** Until the first cell, ms: from the start of the process, where it is new. */
  readonly startLimit: number;
  readonly signal?: AbortSignal | undefined;
  readonly onCell?: ((cell: number) => void) | undefined;
}

export interface Ran {
  readonly outputs: Outputs;
  readonly warnings: readonly string[];
  /** Present where it did not fail. */
  readonly used?: Used;
  readonly failure?: Failure;
  /** Whether a cell was started. */
  readonly begun: boolean;
}

/** What is new is collected a quarter as often as usual, which saves a fifteenth of a book's time for 64 MiB more. */
const youngHeap = ["--min-semi-space-size=32", "--max-semi-space-size=32"];

/** How long after the process has ended its last messages may take to arrive, ms: a grandchild may hold the pipe open. */
const drain = 500;

/** One job on its way. */
interface Task {
  readonly options: JobOptions;
  readonly outputs: Outputs;
  readonly resolve: (ran: Ran) => void;
  readonly abort: () => void;
  cell: number;
  verdict?: { readonly warnings: readonly string[]; readonly used?: Used; readonly failure?: Failure };
}

export class KernelProcess {
  private readonly child: ChildProcess;
  private readonly kill = () => killGroup(this.child);
  private task: Task | undefined;
  private timer: NodeJS.Timeout | undefined;
  private rest = "";
  /** What the process itself wrote, outside the cells' streams: V8's last words. */
  private lastWords = "";
  private ended: Failure | undefined;

  constructor(readonly setting: Setting) {
    // Neither colours in what cells print, nor somebody's preloaded modules.
    const { FORCE_COLOR: _, NODE_OPTIONS: __, ...inherited } = process.env;
    const memory = [`--max-old-space-size=${setting.heap}`, ...youngHeap];
    this.child = spawn(process.execPath, [...memory, setting.script, `--${setting.engine}`], {
      cwd: setting.folder,
      env: { ...inherited, ...setting.environment },
      stdio: ["ignore", "pipe", "pipe", "pipe", "pipe"],
      // A process group of its own: Ctrl-C reaches the parent alone, and what cells started is ended with them.
      detached: true,
    });
    process.on("exit", this.kill);
    this.listen();
  }

  /** Whether it waits for a job. */
  get isIdle(): boolean {
    return this.ended === undefined && this.task === undefined;
  }

  run(job: Job, options: JobOptions): Promise<Ran> {
    return new Promise((resolve) => {
      const abort = () => this.stop({ kind: "interrupted", message: "interrupted" });
      this.task = { options, outputs: new Outputs(), resolve, abort, cell: 0 };
      this.startTimer(options.startLimit, "the kernel did not start");
      options.signal?.addEventListener("abort", abort, { once: true });
      (this.child.stdio[jobs] as Writable | undefined)?.write(`${JSON.stringify(job)}\n`);
      if (this.ended !== undefined) this.end(this.ended);
      else if (options.signal?.aborted) abort();
    });
  }

  /** Kills the process, which may be done at any time while it has no job. */
  close(): void {
    process.off("exit", this.kill);
    this.kill();
    this.release();
  }

  private listen(): void {
    const messages = this.child.stdio[channel] as Readable;
    messages.setEncoding("utf8");
    messages.on("data", (text: string) => this.receive(text));
    for (const stream of this.child.stdio) stream?.on("error", () => undefined);
    for (const stream of [this.child.stdout, this.child.stderr]) {
      stream?.setEncoding("utf8").on("data", (text: string) => (this.lastWords = (this.lastWords + text).slice(-4000)));
    }
    this.child.on("error", (error) => this.end({ kind: "death", message: `the kernel's process could not be started: ${error.message}` }));
    this.child.on("exit", (code, signal) => {
      clearTimeout(this.timer);
      const end = () => this.end(deathOf(code, signal, this.lastWords, this.setting.heap));
      if (messages.readableEnded) return end();
      messages.on("end", end);
      this.timer = setTimeout(end, drain);
    });
  }

  private receive(text: string): void {
    const lines = (this.rest + text).split("\n");
    this.rest = lines.pop() ?? "";
    for (const line of lines) if (line !== "" && this.task !== undefined) this.handle(this.task, JSON.parse(line) as Message);
  }

  private handle(task: Task, message: Message): void {
    if (task.verdict !== undefined) return;
    if (message.type === "cell") this.startCell(task, message.cell);
    else if (message.type === "settling")
      this.startTimer(task.options.cellLimit, "what the sheet left running after its last cell did not end");
    else if (message.type === "stream") task.outputs.stream(task.cell, message.name, message.text);
    else if (message.type === "display") task.outputs.display(task.cell, message.display, message.update);
    else {
      task.verdict =
        message.type === "failed" ? { warnings: [], failure: message.failure } : { warnings: message.warnings, used: message.used };
      if (message.again) this.settle(task, task.verdict);
    }
    if (task.outputs.size > largestOutput)
      this.stop(
        blame(
          task,
          "output",
          `printed or showed more than ${largestOutput / 1024 / 1024} million characters; look for a loop that does not end`,
        ),
      );
  }

  private startCell(task: Task, cell: number): void {
    task.cell = cell;
    this.startTimer(task.options.cellLimit, "the cell did not end");
    task.options.onCell?.(cell);
  }

  private startTimer(limit: number, what: string): void {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => {
      if (this.task) this.stop(blame(this.task, "timeout", `${what} within ${limit / 1000} s and was stopped`));
    }, limit);
  }

  /** A cell in an endless loop hears no polite signal. */
  private stop(failure: Failure): void {
    if (this.task) this.task.verdict ??= { warnings: [], failure };
    this.kill();
  }

  private settle(task: Task, { warnings, used, failure }: NonNullable<Task["verdict"]>): void {
    clearTimeout(this.timer);
    this.task = undefined;
    task.options.signal?.removeEventListener("abort", task.abort);
    task.resolve({ outputs: task.outputs, warnings, begun: task.cell > 0, ...(used && { used }), ...(failure && { failure }) });
  }

  private end(death: Failure): void {
    this.ended = death;
    process.off("exit", this.kill);
    this.kill();
    this.release();
    if (this.task) this.settle(this.task, this.task.verdict ?? { warnings: [], failure: blame(this.task, death.kind, death.message) });
  }

  private release(): void {
    clearTimeout(this.timer);
    for (const stream of this.child.stdio) stream?.destroy();
    this.child.unref();
  }
}

function blame({ cell }: Task, kind: Failure["kind"], message: string): Failure {
  return cell === 0 ? { kind, message } : { kind, cell, message };
}

/** The process and whatever it has started; nothing when they have all ended. */
function killGroup({ pid }: ChildProcess): void {
  if (pid === undefined) return;
  try {
    process.kill(-pid, "SIGKILL");
  } catch (error) {
    if (!["ESRCH", "EPERM"].includes((error as NodeJS.ErrnoException).code ?? "")) throw error;
  }
}

function deathOf(code: number | null, signal: string | null, lastWords: string, heap: number): Failure {
  if (/heap out of memory|heap limit/i.test(lastWords)) {
    return { kind: "death", message: `the sheet needs more memory than its limit of ${heap} MiB` };
  }
  const how = signal === null ? `with exit code ${code}` : `by signal ${signal}`;
  const words = lastWords.trim().split("\n").slice(0, 4).join("\n");
  return {
    kind: "death",
    message: `the kernel's process ended ${how} before the sheet was done${words === "" ? "" : `; it said:\n${words}`}`,
  };
}
