/** The commands, for the entry of the command line and for tests: one call a command, an exit code back. */
import type { Kernel } from "../kernel/kernel";
import { WorkingsError } from "../quantity/error";
import type { Interrupt } from "./interrupt";
import type { Streams } from "./streams";
import { exitCodes, help, parseCommand } from "./usage";

export async function main(
  words: readonly string[],
  streams: Streams,
  interrupt: Pick<Interrupt, "signal" | "watch">,
  kernels?: Kernel[],
): Promise<number> {
  const { signal } = interrupt;
  try {
    const command = parseCommand(words);
    if (command.name === "help") {
      streams.out(help);
      return exitCodes.done;
    }
    if (["run", "watch", "lab", "kernel"].includes(command.name)) interrupt.watch();
    if (command.name === "run") return await (await import("./run")).run(command, streams, signal, kernels);
    // Loaded only when asked for: the document's libraries take longer to load than a check takes.
    if (command.name === "watch") return await (await import("./watch/watch")).watch(command, streams, signal);
    if (command.name === "publish") return await (await import("./publish")).publish(command, streams, interrupt);
    if (command.name === "reference") return (await import("./reference")).reference(command, streams, interrupt);
    if (command.name === "why") return await (await import("./why")).why(command, streams);
    if (command.name === "vary") return await (await import("./why")).varyCommand(command, streams);
    if (command.name === "compare") return await (await import("./compare")).compare(command, streams);
    if (command.name === "kernel") return (await import("./lab")).kernel(command, streams);
    if (command.name === "lab") return await (await import("./lab")).lab(command, streams, signal);
    return await (await import("./check")).check(command, streams);
  } catch (error) {
    if (signal.aborted) return exitCodes.failed;
    if (error instanceof WorkingsError) {
      streams.error(`${error.message}\n`);
      return exitCodes.unusable;
    }
    streams.error(`a fault of workings itself, please report it:\n${error instanceof Error ? error.stack : String(error)}\n`);
    return exitCodes.internal;
  }
}
