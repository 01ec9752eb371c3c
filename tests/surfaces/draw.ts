/** Draws from a seed: the linear congruential generator of Numerical Recipes (32 bits), its high bits. */
export class Draw {
  private state: number;

  constructor(seed: number) {
    this.state = seed >>> 0;
    for (let turn = 0; turn < 3; turn++) this.next();
  }

  chance(probability: number): boolean {
    return this.next() < probability;
  }

  /** Both ends included. */
  whole(low: number, high: number): number {
    return low + Math.floor(this.next() * (high - low + 1));
  }

  /** Three digits. */
  between(low: number, high: number): number {
    return Number((low + this.next() * (high - low)).toPrecision(3));
  }

  one<T>(list: readonly T[]): T {
    return list[this.whole(0, list.length - 1)] as T;
  }

  /** As many of the list as asked for, in its order. */
  some<T>(list: readonly T[], count: number): T[] {
    const left = list.map((_, index) => index);
    while (left.length > count) left.splice(this.whole(0, left.length - 1), 1);
    return left.map((index) => list[index] as T);
  }

  private next(): number {
    this.state = (Math.imul(this.state, 1664525) + 1013904223) >>> 0;
    return this.state / 2 ** 32;
  }
}
