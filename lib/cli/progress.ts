/** What the reader of a terminal sees while sheets run: a line for each that is done, in the book's order, and below them those that run. */

export interface Terminal {
  readonly isTTY?: boolean;
  readonly columns?: number;
  write(text: string): unknown;
}

interface Line {
  state: string;
  readonly started: number;
  ended?: number;
}

export class Progress {
  /** Sheets whose line is not written yet, in the book's order. */
  private readonly waiting: string[];
  private readonly lines = new Map<string, Line>();
  private readonly width: number;
  private readonly redraws: boolean;
  private ticker: NodeJS.Timeout | undefined;

  constructor(
    private readonly terminal: Terminal,
    labels: readonly string[],
    private readonly now: () => number = () => performance.now(),
  ) {
    this.waiting = [...labels];
    this.width = Math.max(...labels.map(({ length }) => length), 0);
    this.redraws = terminal.isTTY === true;
  }

  start(label: string): void {
    this.lines.set(label, { state: "starting", started: this.now() });
    if (!this.redraws) return;
    this.draw();
    this.ticker ??= setInterval(() => this.draw(), 100);
    this.ticker.unref();
  }

  update(label: string, state: string): void {
    const line = this.lines.get(label);
    if (line === undefined) return;
    line.state = state;
    if (this.redraws) this.draw();
  }

  end(label: string, state: string): void {
    const started = this.lines.get(label)?.started ?? this.now();
    this.lines.set(label, { state, started, ended: this.now() });
    this.writeDone();
    if ([...this.lines.values()].some(({ ended }) => ended === undefined)) return;
    clearInterval(this.ticker);
    this.ticker = undefined;
  }

  /** Lines of those done whose forerunners are done. */
  private writeDone(): void {
    for (let label = this.waiting[0]; label !== undefined; label = this.waiting[0]) {
      const line = this.lines.get(label);
      if (line?.ended === undefined) break;
      this.waiting.shift();
      this.terminal.write(`${this.redraws ? "\r\x1b[K" : ""}${label.padEnd(this.width)}  ${words(line, line.ended)}\n`);
    }
    if (this.redraws) this.draw();
  }

  private draw(): void {
    const running = this.waiting.flatMap((label) => {
      const line = this.lines.get(label);
      return line === undefined || line.ended !== undefined ? [] : [`${label}  ${words(line, this.now())}`];
    });
    if (running.length > 0) this.terminal.write(`\r\x1b[K${running.join("   ").slice(0, (this.terminal.columns ?? 80) - 1)}`);
  }
}

function words({ state, started }: Line, now: number): string {
  return `${state}  ${((now - started) / 1000).toFixed(1)} s`;
}
