/**
 * One stage of a step in time: the root of α·Q(x) + F(x) = rhs for a circuit that bends in straight pieces. In each
 * combination of regions the equations are linear, so their inverse is kept and met again at the cost of a product.
 */

import { invert, product } from "../numerics/matrix";
import { addCharge, type Bend, type CircuitSystem, difference, regionOf, stampPair } from "./system";

/** Solves α·Q(x) + F(x) = rhs, keeping the inverse of every α and combination of regions that it has met. */
export class StageSolver {
  readonly #system: CircuitSystem;
  readonly #inverses = new Map<number, Map<number, Float64Array>>();
  readonly #regions: Int8Array;
  readonly #load: Float64Array;

  constructor(system: CircuitSystem) {
    this.#system = system;
    this.#regions = new Int8Array(system.bends.length);
    this.#load = new Float64Array(system.size);
  }

  /** Writes x; false where the regions do not settle. Starts with the regions of the last solution. */
  solve(alpha: number, rhs: Float64Array, x: Float64Array): boolean {
    for (let round = 0; round <= mostRounds; round++) {
      this.#solveRegion(alpha, rhs, x);
      if (!this.#adjust(x)) return true;
    }
    return this.#follow(alpha, rhs, x);
  }

  /**
   * Where jumping from region to region runs in a circle: from x straight towards the solution of its region, to the
   * first corner on the way, over that one corner, and on (J. Katzenelson, Bell System Technical Journal 44, 1965,
   * 1605; from memory).
   */
  #follow(alpha: number, rhs: Float64Array, x: Float64Array): boolean {
    const target = new Float64Array(x.length);
    for (let corner = 0; corner <= mostCorners; corner++) {
      this.#solveRegion(alpha, rhs, target);
      const { share, index, region } = this.#firstCorner(x, target);
      for (let i = 0; i < x.length; i++) x[i] = (x[i] as number) + share * ((target[i] as number) - (x[i] as number));
      if (index < 0) return true;
      this.#regions[index] = region;
    }
    return false;
  }

  /** The share of the way from x to `target` at which the first element leaves its region, and for which; index −1 for none. */
  #firstCorner(x: Float64Array, target: Float64Array): { share: number; index: number; region: number } {
    const found = { share: 1, index: -1, region: 0 };
    const { bends } = this.#system;
    for (let i = 0; i < bends.length; i++) {
      const { a, b, corners } = bends[i] as Bend;
      const [from, to] = [difference(x, a, b), difference(target, a, b)];
      const up = to > from;
      const region = this.#regions[i] as number;
      const next = region + (up ? 1 : -1);
      if (next < -1 || next > 1) continue;
      const corner = corners[Math.max(region, next) === 1 ? 1 : 0];
      if (up ? to <= corner : to >= corner) continue;
      const share = Math.max(0, (corner - from) / (to - from));
      if (share < found.share) Object.assign(found, { share, index: i, region: next });
    }
    return found;
  }

  #solveRegion(alpha: number, rhs: Float64Array, x: Float64Array): void {
    const inverse = this.inverse(alpha);
    this.#loadFor(alpha, rhs);
    product(inverse, this.#system.size, this.#load, x);
  }

  /** (α·∂Q + ∂F)⁻¹ in the present regions. */
  inverse(alpha: number): Float64Array {
    const known = this.#inverses.get(alpha) ?? new Map<number, Float64Array>();
    if (known.size === 0) this.#inverses.set(alpha, known);
    let key = 0;
    for (let i = 0; i < this.#regions.length; i++) key = 3 * key + (this.#regions[i] as number) + 1;
    const found = known.get(key);
    if (found !== undefined) return found;
    const inverse = invert(this.#matrix(alpha), this.#system.size);
    known.set(key, inverse);
    return inverse;
  }

  #matrix(alpha: number): Float64Array {
    const { size, G, C, bends } = this.#system;
    const matrix = new Float64Array(G.length);
    for (let i = 0; i < matrix.length; i++) matrix[i] = (G[i] as number) + alpha * (C[i] as number);
    for (let i = 0; i < bends.length; i++) {
      const { of, a, b, slopes } = bends[i] as Bend;
      stampPair(matrix, size, a, b, (of === "Q" ? alpha : 1) * (slopes[(this.#regions[i] as number) + 1] as number));
    }
    return matrix;
  }

  #loadFor(alpha: number, rhs: Float64Array): void {
    this.#load.set(rhs);
    const { bends } = this.#system;
    for (let i = 0; i < bends.length; i++) {
      const { of, a, b, offsets } = bends[i] as Bend;
      const weight = of === "Q" ? alpha : 1;
      addCharge(this.#load, a, b, -weight * (offsets[(this.#regions[i] as number) + 1] as number));
    }
  }

  /** Moves the regions to those of x; true where one moved. */
  #adjust(x: Float64Array): boolean {
    const { bends } = this.#system;
    let moved = false;
    for (let i = 0; i < bends.length; i++) {
      const bend = bends[i] as Bend;
      const region = regionOf(bend, difference(x, bend.a, bend.b));
      if (region === this.#regions[i]) continue;
      this.#regions[i] = region;
      moved = true;
    }
    return moved;
  }
}

const mostRounds = 6;
const mostCorners = 40;
