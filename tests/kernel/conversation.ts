/** A conversation with a kernel, as a front end leads it: cells, completion, inspection, interrupt, shutdown. */
import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { once } from "node:events";
import { join } from "node:path";
import { jupyterEnvironment } from "./jupyter";
import { python } from "./python";

export interface Step {
  /** Completion and inspection are asked for at the end of the code. */
  readonly ask: "execute" | "complete" | "inspect";
  readonly code: string;
  /** As front ends tell it that tell which cell is run. */
  readonly cellId?: string;
  /** An interrupt that many seconds after the request. */
  readonly interruptAfter?: number;
}

interface Published {
  /** Of the message: stream, display_data, error … */
  readonly type: string;
  readonly name?: string;
  readonly text?: string;
  readonly data?: Readonly<Record<string, unknown>>;
  readonly ename?: string;
  readonly evalue?: string;
  readonly traceback?: readonly string[];
}

export interface Answer {
  /** Null where none came within a minute. */
  readonly reply: {
    readonly status: string;
    readonly matches?: readonly string[];
    readonly data?: Readonly<Record<string, string>>;
  } | null;
  readonly published: readonly Published[];
  /** From the request until reply and idle state were there. */
  readonly seconds: number;
}

export interface Conversation {
  readonly pid: number;
  /** From the start of the process until it answered, s. */
  readonly up: number;
  readonly answers: readonly Answer[];
  /** Exit code after the request to shut down; null where the process had to be killed. */
  readonly ended: number | null;
}

const script = join(__dirname, "jupyter-client.py");

/** Starts the kernel of that name registered in the folder `jupyterPath`, asks one thing after the other, and ends it. */
export function converse(jupyterPath: string, folder: string, steps: readonly Step[], kernel = "tslab"): Conversation {
  const { status, stdout, stderr } = spawnSync(python as string, [script, kernel, folder], {
    input: JSON.stringify(steps),
    env: jupyterEnvironment(jupyterPath),
    encoding: "utf8",
    maxBuffer: 256 * 1024 * 1024,
  });
  if (status !== 0) throw new Error(`the conversation ended with ${status}:\n${stderr}`);
  return JSON.parse(stdout) as Conversation;
}

/** The same, left while it goes on: the front end and the number of its kernel's process. */
export async function begin(
  jupyterPath: string,
  folder: string,
  steps: readonly Step[],
): Promise<{ readonly frontEnd: ChildProcess; readonly kernel: number }> {
  const frontEnd = spawn(python as string, [script, "tslab", folder], { env: jupyterEnvironment(jupyterPath), stdio: "pipe" });
  frontEnd.stdin.end(JSON.stringify(steps));
  const [line] = await once(frontEnd.stderr, "data");
  return { frontEnd, kernel: Number(String(line).trim()) };
}
