/** The function whose extremes are searched: a result over the unit cube of its inputs' limits, with a count of what it costs. */
import type { GuideKind } from "./guides";
import type { Points } from "./points";

/** What is searched. Columns hold parts of the way, 0 to 1, one column a coordinate, as long as `n` or longer. NaN: no value. */
export interface Law {
  readonly dimensions: number;
  /** What a row costs, in additions. */
  readonly operations: number;
  /** Whether rows call models, so that they are what is counted. */
  readonly isCostly: boolean;
  readonly guides: readonly GuideKind[];
  evaluate(columns: readonly Float64Array[], n: number): Float64Array;
  /** The result, and a column of each guide. */
  evaluateGuided(columns: readonly Float64Array[], n: number): { readonly values: Float64Array; readonly guides: readonly Float64Array[] };
  /** At all 2^d corners (bit k of the row: coordinate k at 1); and whether the law is shown to have its extremes there. */
  corners(): { readonly values: Float64Array; readonly areExtremes: boolean };
}

/** A law whose evaluations are counted, infinite values left out. */
export class Objective implements Law {
  readonly dimensions: number;
  readonly operations: number;
  readonly isCostly: boolean;
  readonly guides: readonly GuideKind[];
  spent = 0;
  tried = 0;
  failed = 0;
  readonly #law: Law;

  constructor(law: Law) {
    this.#law = law;
    this.dimensions = law.dimensions;
    this.operations = law.operations;
    this.isCostly = law.isCostly;
    this.guides = law.guides;
  }

  readonly values = (points: Points): Float64Array => this.evaluate(points.columns, points.n);

  evaluate(columns: readonly Float64Array[], n: number): Float64Array {
    return this.#counted(this.#law.evaluate(columns, n));
  }

  evaluateGuided(columns: readonly Float64Array[], n: number): { values: Float64Array; guides: readonly Float64Array[] } {
    const { values, guides } = this.#law.evaluateGuided(columns, n);
    return { values: this.#counted(values), guides };
  }

  corners(): { values: Float64Array; areExtremes: boolean } {
    const { values, areExtremes } = this.#law.corners();
    return { values: this.#counted(values), areExtremes };
  }

  #counted(values: Float64Array): Float64Array {
    this.spent += values.length * (this.isCostly ? 1 : this.operations);
    this.tried += values.length;
    for (let i = 0; i < values.length; i++) {
      if (Number.isFinite(values[i])) continue;
      this.failed++;
      values[i] = Number.NaN;
    }
    return values;
  }
}
