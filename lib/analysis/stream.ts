/**
 * Random streams that depend on a key and a position only, so that a given draws the same values in any sheet,
 * order, block size, thread or page. Value i of a stream is a hash of i under the two words of its key: two rounds
 * of a 32-bit mixer (constants found by T. Ettinger's search for low avalanche bias), the second key word between
 * them, so that no two streams are shifts or permutations of one another. Integer products only: same bits everywhere.
 */
import { hashText } from "../graph/hash";
import type { NodeId } from "../graph/node";

export class Stream {
  readonly #first: number;
  readonly #second: number;

  constructor(seed: number, id: NodeId) {
    const [first, second] = hashText(`${seed} ${id}`);
    this.#first = first | 0;
    this.#second = second | 0;
  }

  /** Value i, uniform in (0, 1), never 0 or 1: (h + ½)·2⁻³². */
  uniform(i: number): number {
    return mixed(i, this.#first, this.#second);
  }

  /** Fills out[0..n) with values `start` to `start + n`. */
  fill(out: Float64Array, start: number, n: number): void {
    const first = this.#first;
    const second = this.#second;
    for (let i = 0; i < n; i++) out[i] = mixed(start + i, first, second);
  }
}

function mixed(i: number, first: number, second: number): number {
  let x = (i + first) | 0;
  x = Math.imul(x ^ (x >>> 16), 0x21f0aaad);
  x = Math.imul(x ^ (x >>> 15), 0x735a2d97);
  x = ((x ^ (x >>> 15)) + second) | 0;
  x = Math.imul(x ^ (x >>> 16), 0x7feb352d);
  x = Math.imul(x ^ (x >>> 15), 0x846ca68b);
  return ((x ^ (x >>> 16)) >>> 0) * 2.3283064365386963e-10 + 1.1641532182693481e-10;
}
