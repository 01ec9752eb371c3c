/**
 * The extremes of a function over the unit cube. Corners alone miss extremes inside (a matched load, a resonance), so
 * points on lines through the nominal, points of a low-discrepancy sequence and climbs from the best of them are
 * tried too: each climb polls every coordinate at many step lengths at once, as one block. No proof: a peak narrower
 * than the points are apart can be missed. Sequence: additive recurrence with powers of the root of x^(d+1) = x + 1.
 */

export interface Objective {
  readonly dimensions: number;
  /** Values at n points, one column a dimension, each in 0 to 1; a column of its own. NaN where there is no value. */
  evaluate(columns: readonly Float64Array[], n: number): Float64Array;
}

export interface SearchOptions {
  /** Largest number of dimensions for which every corner is tried. */
  readonly corners: number;
  /** Points of the sequence. */
  readonly points: number;
  /** Rounds of a climb at most. */
  readonly rounds: number;
  readonly steps: readonly number[];
}

export interface Extreme {
  readonly value: number;
  readonly at: readonly number[];
}

export interface Extremes {
  readonly low: Extreme;
  readonly high: Extreme;
  /** Whether an extreme lies inside the limits, beyond what corners show. */
  readonly inside: boolean;
  readonly tried: number;
  /** Points without a value. */
  readonly failed: number;
}

type Point = readonly number[];

/**
 * Searches from `nominal`, a point of the cube that is tried too. `near` are the extremes of a function that is nearly the same: climbs
 * then start from those and from the best point on a line through the nominal alone.
 */
export function findExtremes(
  objective: Objective,
  nominal: Point,
  options: SearchOptions,
  near?: Pick<Extremes, "low" | "high">,
): Extremes {
  const search = new Search(objective, options);
  const d = objective.dimensions;
  const axes = axisPoints(nominal);
  const axisValues = search.values(axes);
  const corners = d <= options.corners && near === undefined ? allCorners(d) : guessedCorners(nominal, axes, axisValues);
  if (near !== undefined) corners.push(near.low.at, near.high.at);
  const cornerValues = search.values(corners);
  const inner = near === undefined ? [nominal, ...sequence(d, options.points)] : [nominal];
  const innerValues = search.values(inner);
  const others = [...inner, ...axes];
  const otherValues = Float64Array.of(...innerValues, ...axisValues);
  const { failed } = search;
  const span = spanOf([cornerValues, otherValues]);
  const extreme = (sign: 1 | -1): { found: Extreme; inside: boolean } => {
    const corner = search.climb(bestOf(corners, cornerValues, sign), sign, span);
    const starts = startsAmong(others, otherValues, sign, near === undefined ? climbs : 1);
    // Beside a known extreme, a climb from a worse place is worth its price only where it starts from a better one.
    const hopeful = near === undefined ? starts : starts.filter(({ value }) => value * sign > corner.value * sign);
    const other = pick([corner, ...hopeful.map((start) => search.climb(start, sign, span))], sign);
    const better = corner.value * sign >= other.value * sign - 1e-9 * span ? corner : other;
    const found = search.snap(better, sign, span);
    return { found, inside: found.at.some((t) => t > 0 && t < 1) };
  };
  const low = extreme(-1);
  const high = extreme(1);
  return { low: low.found, high: high.found, inside: low.inside || high.inside, tried: corners.length + others.length, failed };
}

/** Climbs from points inside for each extreme, and how far apart they start in some coordinate. */
const climbs = 3;
const apart = 0.25;

class Search {
  failed = 0;
  readonly #objective: Objective;
  readonly #options: SearchOptions;

  constructor(objective: Objective, options: SearchOptions) {
    this.#objective = objective;
    this.#options = options;
  }

  values(points: readonly Point[]): Float64Array {
    return this.#evaluate(
      Array.from({ length: this.#objective.dimensions }, (_, k) => columnOf(points, k)),
      points.length,
    );
  }

  #evaluate(columns: readonly Float64Array[], n: number): Float64Array {
    const values = this.#objective.evaluate(columns, n);
    for (let i = 0; i < values.length; i++) {
      if (Number.isFinite(values[i])) continue;
      this.failed++;
      values[i] = Number.NaN;
    }
    return values;
  }

  /** Moves uphill (sign 1) or downhill (−1) until no step of any length along any coordinate helps. */
  climb(start: Extreme, sign: 1 | -1, span: number): Extreme {
    let best = start;
    for (let round = 0; round < this.#options.rounds; round++) {
      const next = this.#improve(best, sign);
      if (!((next.value - best.value) * sign > 1e-13 * span)) break;
      best = next;
    }
    return best;
  }

  /** The best single step, or all helpful steps together. */
  #improve(from: Extreme, sign: 1 | -1): Extreme {
    const polls = pollsAbout(from.at, this.#options.steps);
    const columns = from.at.map((t) => new Float64Array(polls.length).fill(t));
    polls.forEach(({ coordinate, moved }, i) => {
      (columns[coordinate] as Float64Array)[i] = moved;
    });
    const moves = bestMoves(polls, this.#evaluate(columns, polls.length), from, sign);
    const single = moves.reduce((a, b) => (b.value * sign > a.value * sign ? b : a), from);
    if (moves.length < 2) return single;
    const together = [1, 0.5, 0.25].map((part) =>
      from.at.map((t, k) => moves.reduce((sum, move) => sum + part * ((move.at[k] as number) - t), t)),
    );
    return pick([single, bestOf(together, this.values(together), sign)], sign);
  }

  /** Coordinates that do not matter are put at a limit, so that an extreme is called inside only where it is. */
  snap(found: Extreme, sign: 1 | -1, span: number): Extreme {
    let best = found;
    for (let k = 0; k < found.at.length; k++) {
      const t = best.at[k] as number;
      if (t <= 0 || t >= 1) continue;
      const ends = [0, 1].map((end) => best.at.map((other, j) => (j === k ? end : other)));
      const end = bestOf(ends, this.values(ends), sign);
      if (end.value * sign >= best.value * sign - 1e-9 * span) best = end;
    }
    return best;
  }
}

function columnOf(points: readonly Point[], k: number): Float64Array {
  const column = new Float64Array(points.length);
  for (let i = 0; i < points.length; i++) column[i] = points[i]?.[k] as number;
  return column;
}

/** A step along one coordinate, to `moved`. */
interface Poll {
  readonly coordinate: number;
  readonly moved: number;
}

function pollsAbout(at: Point, steps: readonly number[]): Poll[] {
  const polls: Poll[] = [];
  at.forEach((t, coordinate) => {
    for (const step of steps) {
      if (t > 0) polls.push({ coordinate, moved: Math.max(0, t - step) });
      if (t < 1) polls.push({ coordinate, moved: Math.min(1, t + step) });
    }
  });
  return polls;
}

/** The best helpful step along each coordinate that has one. */
function bestMoves(polls: readonly Poll[], values: Float64Array, from: Extreme, sign: 1 | -1): Extreme[] {
  const best = new Map<number, { readonly value: number; readonly moved: number }>();
  polls.forEach(({ coordinate, moved }, i) => {
    const value = values[i] as number;
    if (value * sign > (best.get(coordinate) ?? from).value * sign) best.set(coordinate, { value, moved });
  });
  return [...best].map(([coordinate, { value, moved }]) => ({ value, at: from.at.map((t, k) => (k === coordinate ? moved : t)) }));
}

function bestOf(points: readonly Point[], values: Float64Array, sign: 1 | -1): Extreme {
  return pick(
    points.map((at, i) => ({ at, value: values[i] as number })),
    sign,
  );
}

/** Starts of climbs: the best point, and the best of those far from it and from one another. */
function startsAmong(points: readonly Point[], values: Float64Array, sign: 1 | -1, count: number): Extreme[] {
  const starts: Extreme[] = [];
  let rest = points.map((at, i) => ({ at, value: values[i] as number }));
  while (starts.length < count && rest.length > 0) {
    const start = pick(rest, sign);
    starts.push(start);
    rest = rest.filter(({ at }) => at.some((t, k) => Math.abs(t - (start.at[k] as number)) > apart));
  }
  return starts;
}

/** The first of the best; a point without a value never is. */
function pick(found: readonly Extreme[], sign: 1 | -1): Extreme {
  return found.reduce((a, b) => (b.value * sign > a.value * sign || !Number.isFinite(a.value) ? b : a));
}

function allCorners(d: number): Point[] {
  return Array.from({ length: 1 << d }, (_, bits) => Array.from({ length: d }, (_, k) => (bits >> k) & 1));
}

/** Parts of a line through the nominal that are tried along each coordinate; both ends first. */
const axisParts = [0, 1, 1 / 8, 1 / 4, 3 / 8, 1 / 2, 5 / 8, 3 / 4, 7 / 8];

function axisPoints(nominal: Point): Point[] {
  return nominal.flatMap((_, k) => axisParts.map((part) => nominal.map((t, j) => (j === k ? part : t))));
}

/** For many dimensions: the corners towards which the function rises and falls along each line, and their opposites. */
function guessedCorners(nominal: Point, axes: readonly Point[], values: Float64Array): Point[] {
  const rising = nominal.map((_, k) => ((values[k * axisParts.length + 1] as number) >= (values[k * axisParts.length] as number) ? 1 : 0));
  const corners = [rising, rising.map((t) => 1 - t), nominal.map(() => 0), nominal.map(() => 1)];
  return axes.length === 0 ? [[]] : corners;
}

function sequence(d: number, count: number): Point[] {
  const root = positiveRoot(d);
  const steps: number[] = [];
  for (let k = 0, step = 1 / root; k < d; k++, step /= root) steps.push(step);
  return Array.from({ length: count }, (_, i) => steps.map((step) => (0.5 + (i + 1) * step) % 1));
}

/** The root of x^(d+1) = x + 1 above 1, by halving. */
function positiveRoot(d: number): number {
  let low = 1;
  let high = 2;
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    let power = 1;
    for (let k = 0; k <= d; k++) power *= middle;
    if (power > middle + 1) high = middle;
    else low = middle;
  }
  return low;
}

function spanOf(columns: readonly Float64Array[]): number {
  let low = Infinity;
  let high = -Infinity;
  for (const column of columns) {
    for (const value of column) {
      if (value < low) low = value;
      if (value > high) high = value;
    }
  }
  return high > low ? high - low : Number.MIN_VALUE;
}
