/**
 * Random streams whose values are spread evenly: of each block of rows exactly one lies in every one of as many equal parts of (0, 1), in
 * an order of its own (Latin hypercube sampling: M. D. McKay, R. J. Beckman and W. J. Conover, Technometrics 21, 1979, 239-245). Keyed
 * as `Stream` is, so that a given draws the same whatever is drawn beside it. Blocks are independent of one another.
 */
import type { NodeId } from "../graph/node";
import { Stream } from "./stream";

/** Rows of a block. */
export const stratifiedRows = 500;

export class StratifiedStream {
  readonly #within: Stream;
  readonly #order: Stream;
  #block = -1;
  readonly #places = new Int32Array(stratifiedRows);

  constructor(seed: number, id: NodeId) {
    this.#within = new Stream(seed, id);
    this.#order = new Stream(seed, `${id} order`);
  }

  /** Fills out[0..n) with values `start` to `start + n`, multiples of 2⁻³³ inside (0, 1). */
  fill(out: Float64Array, start: number, n: number): void {
    for (let i = 0; i < n; i++) {
      const row = start + i;
      const block = Math.floor(row / stratifiedRows);
      if (block !== this.#block) this.#shuffle(block);
      const place = this.#places[row - block * stratifiedRows] as number;
      const u = (place + this.#within.uniform(row)) / stratifiedRows;
      out[i] = (Math.floor(u * 2 ** 32) + 0.5) * 2 ** -32;
    }
  }

  /** R. Durstenfeld's shuffle, 1964. */
  #shuffle(block: number): void {
    const places = this.#places;
    for (let i = 0; i < stratifiedRows; i++) places[i] = i;
    for (let i = stratifiedRows - 1; i > 0; i--) {
      const j = Math.floor(this.#order.uniform(block * stratifiedRows + i) * (i + 1));
      const place = places[i] as number;
      places[i] = places[j] as number;
      places[j] = place;
    }
    this.#block = block;
  }
}
