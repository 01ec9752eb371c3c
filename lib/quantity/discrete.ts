/** Mean and standard deviation of one of a list of values; `shares` sum to 1, absent where all are equally likely. */
export function discreteMoments(
  values: readonly number[],
  shares: readonly number[] = values.map(() => 1 / values.length),
): { readonly mean: number; readonly deviation: number } {
  const mean = values.reduce((sum, value, i) => sum + value * (shares[i] as number), 0);
  const variance = values.reduce((sum, value, i) => sum + (value - mean) * (value - mean) * (shares[i] as number), 0);
  return { mean, deviation: Math.sqrt(variance) };
}
