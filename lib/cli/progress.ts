/** What the reader of a terminal sees while sheets run: one line a sheet, redrawn on a terminal, written once elsewhere. */
import { terminalText } from "../quantity/terminal-text";

interface Terminal {
  readonly isTTY?: boolean;
  readonly columns?: number;
  write(text: string): unknown;
}

export class Progress {
  private started = 0;
  private label = "";
  private state = "";
  private ticker: NodeJS.Timeout | undefined;
  private readonly redraws: boolean;

  constructor(
    private readonly terminal: Terminal,
    private readonly width: number,
    private readonly now: () => number = () => performance.now(),
  ) {
    this.redraws = terminal.isTTY === true;
  }

  start(label: string): void {
    this.label = label.padEnd(this.width);
    this.state = "starting";
    this.started = this.now();
    if (!this.redraws) return;
    this.draw();
    this.ticker = setInterval(() => this.draw(), 100);
    this.ticker.unref();
  }

  update(state: string): void {
    this.state = state;
    if (this.redraws) this.draw();
  }

  end(state: string): void {
    clearInterval(this.ticker);
    this.state = state;
    this.terminal.write(`${this.redraws ? "\r\x1b[K" : ""}${this.line()}\n`);
  }

  private draw(): void {
    this.terminal.write(`\r\x1b[K${this.line().slice(0, (this.terminal.columns ?? 80) - 1)}`);
  }

  private line(): string {
    return terminalText(`${this.label}  ${this.state}  ${((this.now() - this.started) / 1000).toFixed(1)} s`);
  }
}
