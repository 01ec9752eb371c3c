/** The local extremes that the climbs of a search have ended at. */
import type { Climbed } from "./climb";
import { distance, type Found, isBetter } from "./points";

export class Optima {
  /** One of each place, climbs that did not arrive left out. */
  readonly list: Found[] = [];
  /** Climbs from points spread evenly, and at how many different extremes they ended. */
  spread = 0;
  /** Of those that came to within a thousandth of the span of the best. */
  readonly #ends: Climbed[] = [];
  readonly #sign: 1 | -1;
  readonly #span: number;
  /** Corners that were all tried count as one. */
  readonly #cornersKnown: boolean;
  #best: Climbed | undefined;

  constructor(sign: 1 | -1, span: number, cornersKnown: boolean) {
    this.#sign = sign;
    this.#span = span;
    this.#cornersKnown = cornersKnown;
  }

  get best(): Climbed {
    return this.#best as Climbed;
  }

  add(found: Climbed): void {
    if (this.#best === undefined || isBetter(found, this.#best, this.#sign)) this.#best = found;
    if (found.arrived && this.list.every((other) => distance(other.at, found.at) > 1e-3)) this.list.push(found);
  }

  addSpread(found: Climbed): void {
    this.spread++;
    this.#ends.push(found);
    this.add(found);
  }

  /** Different values that the spread climbs ended at; equal values may be one ridge. */
  get different(): number {
    const values: number[] = [];
    let corners = 0;
    for (const { value, at } of this.#ends) {
      if (this.#cornersKnown && at.every((t) => t === 0 || t === 1)) corners = 1;
      else if (values.every((other) => Math.abs(other - value) > 1e-3 * this.#span)) values.push(value);
    }
    return values.length + corners;
  }

  /** Extremes to be expected in all, W·(N − 1)/(N − W − 2), of N climbs that ended at W different ones. */
  get expected(): number {
    const [n, w] = [this.spread, this.different];
    return n > w + 2 ? (w * (n - 1)) / (n - w - 2) : Infinity;
  }

  /** Whether less than half an extreme more is expected than was found. */
  get isComplete(): boolean {
    return this.expected < this.different + 0.5;
  }

  /** The best extremes, best first, far from one another. */
  leading(count: number): Found[] {
    const places: Found[] = [this.best];
    const order = [...this.list].sort((a, b) => this.#sign * (b.value - a.value));
    for (const found of order) {
      if (places.length >= count) break;
      if (places.every((other) => distance(other.at, found.at) > 0.1)) places.push(found);
    }
    return places;
  }
}
