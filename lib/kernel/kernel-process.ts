/**
 * The parent's side of one kernel process: starts it, gives it one job, collects outputs, keeps time. Whatever way the
 * process ends, the promise resolves with either "done" or a failure, and no process is left.
 */
import { type ChildProcess, spawn } from "node:child_process";
import type { Readable } from "node:stream";
import { largestOutput, Outputs } from "./outputs";
import { channel, type Failure, type Job, type Message } from "./protocol";

export interface Limits {
  /** A cell, ms. Also for what runs on after the last cell. */
  readonly cell: number;
  /** From the start of the process to its first cell, ms. */
  readonly start: number;
  /** JavaScript heap, MiB. */
  readonly heap: number;
}

export interface Ran {
  readonly outputs: Outputs;
  readonly warnings: readonly string[];
  readonly failure?: Failure;
}

export interface KernelOptions {
  /** Path of the built child script. */
  readonly script: string;
  readonly folder: string;
  readonly limits: Limits;
  readonly environment: Readonly<Record<string, string>>;
  readonly signal?: AbortSignal | undefined;
  readonly onCell?: ((cell: number) => void) | undefined;
}

export function runInKernel(job: Job, options: KernelOptions): Promise<Ran> {
  return new Promise((resolve) => new KernelProcess(job, options, resolve));
}

/** How long after the process has ended its last messages may take to arrive, ms: a grandchild may hold the pipe open. */
const drain = 500;

class KernelProcess {
  private readonly child: ChildProcess;
  private readonly outputs = new Outputs();
  private readonly options: KernelOptions;
  private readonly resolve: (ran: Ran) => void;
  private readonly abort = () => this.stop({ kind: "interrupted", message: "interrupted" });
  private readonly kill = () => killGroup(this.child);
  private timer: NodeJS.Timeout | undefined;
  private cell = 0;
  private rest = "";
  /** What the process itself wrote, outside the cells' streams: V8's last words. */
  private lastWords = "";
  private verdict: { warnings: readonly string[]; failure?: Failure } | undefined;
  private over = false;

  constructor(job: Job, options: KernelOptions, resolve: (ran: Ran) => void) {
    this.options = options;
    this.resolve = resolve;
    // Neither colours in what cells print, nor somebody's preloaded modules.
    const { FORCE_COLOR: _, NODE_OPTIONS: __, ...inherited } = process.env;
    this.child = spawn(process.execPath, [`--max-old-space-size=${options.limits.heap}`, options.script], {
      cwd: options.folder,
      env: { ...inherited, ...options.environment },
      stdio: ["pipe", "pipe", "pipe", "pipe"],
      // A process group of its own: Ctrl-C reaches the parent alone, and what cells started is ended with them.
      detached: true,
    });
    process.on("exit", this.kill);
    this.listen();
    this.startTimer(options.limits.start, "the kernel did not start");
    options.signal?.addEventListener("abort", this.abort, { once: true });
    this.child.stdin?.on("error", () => undefined);
    this.child.stdin?.end(JSON.stringify(job));
    if (options.signal?.aborted) this.abort();
  }

  private listen(): void {
    const messages = this.child.stdio[channel] as Readable;
    messages.setEncoding("utf8");
    messages.on("data", (text: string) => this.receive(text));
    messages.on("error", () => undefined);
    for (const stream of [this.child.stdout, this.child.stderr]) {
      stream?.setEncoding("utf8").on("data", (text: string) => (this.lastWords = (this.lastWords + text).slice(-4000)));
    }
    this.child.on("error", (error) => this.end({ kind: "death", message: `the kernel's process could not be started: ${error.message}` }));
    this.child.on("exit", (code, signal) => {
      clearTimeout(this.timer);
      const end = () => this.end(deathOf(code, signal, this.lastWords, this.options.limits.heap));
      if (messages.readableEnded) return end();
      messages.on("end", end);
      this.timer = setTimeout(end, drain);
    });
  }

  private receive(text: string): void {
    const lines = (this.rest + text).split("\n");
    this.rest = lines.pop() ?? "";
    for (const line of lines) if (line !== "") this.handle(JSON.parse(line) as Message);
  }

  private handle(message: Message): void {
    if (this.verdict !== undefined) return;
    if (message.type === "cell") this.startCell(message.cell);
    else if (message.type === "settling") this.settle();
    else if (message.type === "stream") this.outputs.stream(this.cell, message.name, message.text);
    else if (message.type === "display") this.outputs.display(this.cell, message.display, message.update);
    else this.verdict = message.type === "done" ? { warnings: message.warnings } : { warnings: [], failure: message.failure };
    if (this.outputs.size > largestOutput)
      this.stop(
        this.blame(
          "output",
          `printed or showed more than ${largestOutput / 1024 / 1024} million characters; look for a loop that does not end`,
        ),
      );
  }

  private startCell(cell: number): void {
    this.cell = cell;
    this.startTimer(this.options.limits.cell, "the cell did not end");
    this.options.onCell?.(cell);
  }

  private settle(): void {
    this.startTimer(this.options.limits.cell, "what the sheet left running after its last cell did not end");
  }

  private startTimer(limit: number, what: string): void {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.stop(this.blame("timeout", `${what} within ${limit / 1000} s and was stopped`)), limit);
  }

  private blame(kind: Failure["kind"], message: string): Failure {
    return this.cell === 0 ? { kind, message } : { kind, cell: this.cell, message };
  }

  /** A cell in an endless loop hears no polite signal. */
  private stop(failure: Failure): void {
    this.verdict ??= { warnings: [], failure };
    this.kill();
  }

  private end(death: Failure): void {
    if (this.over) return;
    this.over = true;
    clearTimeout(this.timer);
    this.options.signal?.removeEventListener("abort", this.abort);
    process.off("exit", this.kill);
    this.kill();
    for (const stream of this.child.stdio) stream?.destroy();
    const { warnings, failure } = this.verdict ?? { warnings: [], failure: { ...this.blame("death", death.message), kind: death.kind } };
    this.resolve({ outputs: this.outputs, warnings, ...(failure && { failure }) });
  }
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
