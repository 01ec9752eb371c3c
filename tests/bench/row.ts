/** A row of the benchmark: what was timed, against whom, and the limits that it must keep. */
import type { Measured } from "./measure";

export interface Criterion {
  /** `time over that of the hand-written loop`. */
  readonly what: string;
  readonly measured: number;
  readonly limit: number;
  readonly is: "at most" | "at least" | "below";
  /** `×`, `s`, `MB`. */
  readonly unit: string;
}

export interface Row {
  readonly title: string;
  /** The unit in which times are shown. */
  readonly unit: "s" | "ms" | "µs" | "ns";
  readonly times: readonly Measured[];
  readonly criteria: readonly Criterion[];
  /** Peers that are not installed here, and what else the reader must know. */
  readonly notes: readonly string[];
}

export function holds({ measured, limit, is }: Criterion): boolean {
  if (is === "below") return measured < limit;
  return is === "at most" ? measured <= limit : measured >= limit;
}

/** Our time over the named contender's. */
export function slowerThan(times: readonly Measured[], name: string, limit: number): Criterion[] {
  const other = times.find((one) => one.name === name);
  return other?.ratio ? [{ what: `time over that of: ${name}`, measured: 1 / other.ratio, limit, is: "at most", unit: "×" }] : [];
}

/** The named contender's time over ours. */
export function fasterThan(times: readonly Measured[], name: string, limit: number): Criterion[] {
  const other = times.find((one) => one.name === name);
  return other?.ratio ? [{ what: `speed over that of: ${name}`, measured: other.ratio, limit, is: "at least", unit: "×" }] : [];
}
