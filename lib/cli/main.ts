/** Entry of the command line. Loaded by a test it starts nothing, and gives what a command is called with. */
import type { Kernel } from "../kernel/kernel";
import { Interrupt } from "./interrupt";
import { processStreams, type Streams, streamsTo, written } from "./streams";
import { runUnchanged } from "./unchanged";

export { streamsTo };

/** All the rest is a file of its own: loading it takes longer than seeing that nothing has changed. `kernels`: as of `run`. */
export async function start(
  words: readonly string[],
  streams: Streams,
  interrupt: Pick<Interrupt, "signal" | "watch">,
  kernels?: Kernel[],
): Promise<number> {
  return runUnchanged(words, streams) ?? (await (await import("./commands.js")).main(words, streams, interrupt, kernels));
}

if (require.main === module) {
  const interrupt = new Interrupt();
  void start(process.argv.slice(2), processStreams(), interrupt).then(async (code) => {
    await written();
    process.exitCode = interrupt.exitCode ?? code;
  });
}
