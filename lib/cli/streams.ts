/** Where a command writes, and what becomes of it: an output that did not arrive is never a success. */

import { whyNotWritten } from "../kernel/write";
import { terminalText } from "../quantity/terminal-text";
import { exitCodes } from "./usage";

export interface Streams {
  readonly out: (text: string) => void;
  readonly error: (text: string) => void;
  /** To standard output with the control characters that the caller draws with. */
  readonly draw: (text: string) => void;
}

/** The streams of this process. Ends it, every file whole, where standard output takes no more. */
export function processStreams(): Streams {
  process.stdout.on("error", (error: NodeJS.ErrnoException) => {
    // A reader that has gone asked for no more: quiet, as of a program that the signal of the pipe ends.
    if (error.code === "EPIPE") process.exit(exitCodes.unread);
    process.stderr.write(`standard output took no more: ${whyNotWritten(error)}; what this command had to say is not complete\n`);
    process.exit(exitCodes.unusable);
  });
  // Where nothing can be told, the exit code alone tells.
  process.stderr.on("error", () => process.exit(exitCodes.unusable));
  return streamsTo(
    (text) => process.stdout.write(text),
    (text) => process.stderr.write(text),
  );
}

/** What a terminal would obey is shown, except what the caller draws with. */
export function streamsTo(stdout: (text: string) => unknown, stderr: (text: string) => unknown): Streams {
  return {
    out: (text) => void stdout(terminalText(text)),
    error: (text) => void stderr(terminalText(text)),
    draw: (text) => void stdout(text),
  };
}

/** When all that was written has arrived, or the process has ended because it did not. */
export async function written(): Promise<void> {
  for (const stream of [process.stdout, process.stderr]) await new Promise<void>((done) => stream.write("", () => done()));
  // The system's answer, or a signal, is told as an event of its own. From within an event the first turn comes before the next look at them.
  for (let turns = 0; turns < 2; turns++) await new Promise((turn) => setImmediate(turn));
}
