/** Times contenders in turns, so that a slow spell of the machine meets all of them; what they answer is compared. */

export interface Timed {
  /** For one unit of the row's work. */
  readonly seconds: number;
  /** What the contender computed, to be held against the others. */
  readonly answer: readonly number[];
}

export interface Contender {
  readonly name: string;
  run(): Timed | Promise<Timed>;
  /** How far its answers may lie from the first contender's, as a share of them. Default 1e-9. */
  readonly within?: number;
}

export interface Measured {
  readonly name: string;
  readonly seconds: number;
  /** Its time over that of the first contender: the median of the turns' ratios. Absent where nothing is compared. */
  readonly ratio?: number;
}

/** One contender's turn: `calls` runs of a job that does `work` units, each. */
export function timed(job: () => readonly number[], { calls = 1, work = 1 } = {}): Timed {
  const start = performance.now();
  let answer: readonly number[] = [];
  for (let i = 0; i < calls; i++) answer = job();
  return { seconds: (performance.now() - start) / 1000 / calls / work, answer };
}

/** Medians over `turns`, after one turn that does not count. Throws where a contender's answer is another one. */
export async function takeTurns(contenders: readonly Contender[], turns: number): Promise<Measured[]> {
  const times: number[][] = contenders.map(() => []);
  for (let turn = -1; turn < turns; turn++) {
    const results: Timed[] = [];
    for (const contender of contenders) results.push(await contender.run());
    agree(contenders, results);
    if (turn >= 0) for (const [i, { seconds }] of results.entries()) times[i]?.push(seconds);
  }
  const first = times[0] ?? [];
  return contenders.map(({ name }, i) => {
    const own = times[i] ?? [];
    return { name, seconds: median(own), ratio: median(own.map((seconds, turn) => seconds / (first[turn] ?? Number.NaN))) };
  });
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1
    ? (sorted[middle] ?? Number.NaN)
    : ((sorted[middle - 1] ?? Number.NaN) + (sorted[middle] ?? Number.NaN)) / 2;
}

function agree(contenders: readonly Contender[], results: readonly Timed[]): void {
  const expected = results[0]?.answer ?? [];
  for (const [i, { answer }] of results.entries()) {
    const { name, within = 1e-9 } = contenders[i] as Contender;
    const wrong = expected.findIndex((value, k) => !(Math.abs((answer[k] ?? Number.NaN) - value) <= within * Math.abs(value)));
    if (answer.length === expected.length && wrong < 0) continue;
    throw new Error(`${name} answers ${answer.join(" ")} where ${contenders[0]?.name} answers ${expected.join(" ")}`);
  }
}
