/**
 * Order statistics and quantiles of draws, exact: of many values only those in one class of a histogram are sorted.
 * A quantile p of n values is the ⌈p·n⌉-th smallest (JCGM 101:2008 7.7 without interpolation).
 */

/** Classes of the histogram: about four values each, as long as the counts stay in the nearest cache. */
const classesFor = (count: number): number => Math.min(4096, count >> 2);

/** Fewer values are sorted outright. */
const sortedUpTo = 256;

/** The finite ones among the values. */
export function finiteValues(values: Float64Array): Float64Array {
  for (let i = 0; i < values.length; i++) {
    if (!Number.isFinite(values[i])) return values.filter((value) => Number.isFinite(value));
  }
  return values;
}

/** The p-quantile of finite values; NaN of none. */
export function quantile(values: Float64Array, p: number): number {
  return orderStatistic(values, Math.min(values.length, Math.max(1, Math.ceil(p * values.length - 1e-9))));
}

/** The rank-th smallest of finite values, rank from 1. */
export function orderStatistic(values: Float64Array, rank: number): number {
  if (values.length === 0) return Number.NaN;
  const { low, high } = extent(values);
  if (values.length <= sortedUpTo || low === high) return values.slice().sort()[rank - 1] as number;
  const classes = classesFor(values.length);
  const scale = (classes * (1 - 1e-12)) / (high - low);
  const counts = new Uint32Array(classes);
  for (let i = 0; i < values.length; i++) {
    const index = (((values[i] as number) - low) * scale) | 0;
    counts[index] = (counts[index] as number) + 1;
  }
  let before = 0;
  let index = 0;
  while (before + (counts[index] as number) < rank) before += counts[index++] as number;
  const inside = new Float64Array(counts[index] as number);
  let filled = 0;
  for (let i = 0; i < values.length; i++)
    if (((((values[i] as number) - low) * scale) | 0) === index) inside[filled++] = values[i] as number;
  return inside.sort()[rank - 1 - before] as number;
}

/**
 * The shortest interval that holds a share of finite values, the lowest of equally short ones. JCGM 101:2008 5.3.4 and 7.7.4: of
 * M values sorted, the least difference between values p·M places apart.
 */
export function shortestInterval(values: Float64Array, share: number): { readonly low: number; readonly high: number } {
  const sorted = values.slice().sort();
  const apart = Math.min(sorted.length - 1, Math.ceil(share * sorted.length - 1e-9));
  let first = 0;
  for (let i = 1; i + apart < sorted.length; i++) {
    if ((sorted[i + apart] as number) - (sorted[i] as number) < (sorted[first + apart] as number) - (sorted[first] as number)) first = i;
  }
  return { low: sorted[first] ?? Number.NaN, high: sorted[first + apart] ?? Number.NaN };
}

/** Mean and standard deviation about it, in two passes. */
export function moments(values: Float64Array): { readonly mean: number; readonly deviation: number } {
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i] as number;
  const mean = sum / values.length;
  let squares = 0;
  for (let i = 0; i < values.length; i++) squares += ((values[i] as number) - mean) * ((values[i] as number) - mean);
  return { mean, deviation: Math.sqrt(squares / Math.max(1, values.length - 1)) };
}

function extent(values: Float64Array): { low: number; high: number } {
  let low = Infinity;
  let high = -Infinity;
  for (let i = 0; i < values.length; i++) {
    const value = values[i] as number;
    if (value < low) low = value;
    if (value > high) high = value;
  }
  return { low, high };
}

/** Pearson's coefficient of pairs that are drawn together, of those with both values; undefined where one of the two does not vary. */
export function correlation(a: Float64Array, b: Float64Array): number | undefined {
  const rows = Array.from({ length: Math.min(a.length, b.length) }, (_, row) => row).filter(
    (row) => Number.isFinite(a[row]) && Number.isFinite(b[row]),
  );
  const [x, y] = [a, b].map((column) => Float64Array.from(rows, (row) => column[row] as number)) as [Float64Array, Float64Array];
  const [p, q] = [moments(x), moments(y)];
  if (rows.length < 2 || !(p.deviation > 0) || !(q.deviation > 0)) return undefined;
  const sum = x.reduce((total, value, k) => total + (value - p.mean) * ((y[k] as number) - q.mean), 0);
  return Math.max(-1, Math.min(1, sum / ((rows.length - 1) * p.deviation * q.deviation)));
}
