/** Numbers evenly spaced from the first to the last, both among them: the points of a sweep. */
export function evenPoints(low: number, high: number, count: number): number[] {
  return Array.from({ length: count }, (_, i) => low + ((high - low) * i) / (count - 1));
}
