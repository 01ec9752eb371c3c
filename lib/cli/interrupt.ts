/**
 * Ctrl-C and other requests to end. Until a command writes files or starts processes a signal ends it on the spot, as of any program;
 * from `watch` on it is noted: the command ends at the next place where every file is whole.
 */
import { constants } from "node:os";

const watched = ["SIGINT", "SIGTERM", "SIGHUP"] as const;

export class Interrupt {
  private readonly controller = new AbortController();
  private received: (typeof watched)[number] | undefined;
  private watching = false;

  get signal(): AbortSignal {
    return this.controller.signal;
  }

  /** As shells count: 130 after SIGINT, 143 after SIGTERM; undefined where none came. */
  get exitCode(): number | undefined {
    return this.received === undefined ? undefined : 128 + constants.signals[this.received];
  }

  watch(): void {
    if (this.watching) return;
    this.watching = true;
    for (const name of watched)
      process.on(name, () => {
        this.received ??= name;
        this.controller.abort();
      });
  }
}
