/**
 * What the reader of a terminal sees while sheets run: a line for each when it is done, in the order of the run, and on a terminal below
 * them a line of those that run, redrawn.
 */
import { terminalText } from "../quantity/terminal-text";
import type { Streams } from "./streams";

interface Terminal {
  readonly isTTY?: boolean;
  readonly columns?: number;
  write(text: string): unknown;
}

export function terminalOf(streams: Pick<Streams, "draw">): Terminal {
  return { isTTY: process.stdout.isTTY === true, columns: process.stdout.columns ?? 80, write: streams.draw };
}

interface Running {
  state: string;
  readonly started: number;
}

export class Progress {
  private readonly running = new Map<string, Running>();
  private readonly redraws: boolean;
  private ticker: NodeJS.Timeout | undefined;

  constructor(
    private readonly terminal: Terminal,
    private readonly width: number,
    private readonly now: () => number = () => performance.now(),
  ) {
    this.redraws = terminal.isTTY === true;
  }

  start(label: string): void {
    this.running.set(label, { state: "starting", started: this.now() });
    if (!this.redraws) return;
    this.draw();
    this.ticker ??= setInterval(() => this.draw(), 100);
    this.ticker.unref();
  }

  update(label: string, state: string): void {
    const running = this.running.get(label);
    if (running === undefined) return;
    running.state = state;
    if (this.redraws) this.draw();
  }

  /** Its clock stops. Returns the line that `write` shows when its turn has come. */
  end(label: string, state: string): string {
    const started = this.running.get(label)?.started ?? this.now();
    this.running.delete(label);
    if (this.running.size === 0) {
      clearInterval(this.ticker);
      this.ticker = undefined;
    }
    return this.line(label, { state, started });
  }

  /** `more` tells what belongs below the line. */
  write(line: string, more: () => void = () => undefined): void {
    this.terminal.write(`${this.redraws ? "\r\x1b[K" : ""}${line}\n`);
    more();
    if (this.redraws && this.running.size > 0) this.draw();
  }

  private draw(): void {
    const text = [...this.running].map(([label, running]) => this.line(label, running)).join("   ");
    this.terminal.write(`\r\x1b[K${text.slice(0, (this.terminal.columns ?? 80) - 1)}`);
  }

  private line(label: string, { state, started }: Running): string {
    return terminalText(`${label.padEnd(this.width)}  ${state}  ${((this.now() - started) / 1000).toFixed(1)} s`);
  }
}
