/** The commands of the build in this process: what the command line does, without the start of a process for each. */
import { createRequire } from "node:module";
import { join } from "node:path";
import type { Kernel } from "../../lib/kernel/kernel";
import { root } from "../root";

export const cli = join(root, "dist/cli.js");

export interface Said {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

let busy: string | undefined;

/**
 * Of the two books used last, as of a book that is watched: a process of its own for each run would cost more than the run.
 * They end with this process.
 */
const kernels = new Map<string, Kernel[]>();
const booksOpen = 2;

function closeKernels(folder: string): void {
  for (const kernel of kernels.get(folder) ?? []) kernel.close();
  kernels.delete(folder);
}

function kernelsOf(folder: string): Kernel[] {
  const own = kernels.get(folder) ?? [];
  kernels.delete(folder);
  kernels.set(folder, own);
  for (const other of [...kernels.keys()].slice(0, -booksOpen)) closeKernels(other);
  return own;
}

/** As called in that folder. One at a time: the folder is that of the whole process. */
export async function command(folder: string, ...words: readonly string[]): Promise<Said> {
  if (busy !== undefined) throw new Error(`workings ${words.join(" ")} was called while workings ${busy} was going on`);
  busy = words.join(" ");
  const { start, streamsTo } = createRequire(cli)(cli) as typeof import("../../lib/cli/main");
  const said = { stdout: "", stderr: "" };
  const streams = streamsTo(
    (text) => (said.stdout += text),
    (text) => (said.stderr += text),
  );
  const before = process.cwd();
  process.chdir(folder);
  try {
    const status = await start(words, streams, { signal: new AbortController().signal, watch: () => undefined }, kernelsOf(folder));
    return { status, ...said };
  } finally {
    process.chdir(before);
    busy = undefined;
  }
}
