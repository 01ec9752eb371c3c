/** The parts of a double: sign and exponent, upper half, powers of two. */

const value = new Float64Array(1);
const words = new Uint32Array(value.buffer);
value[0] = 1;
/** Where the word with sign and exponent stands: it differs with the order of bytes. */
const high = words[0] === 0 ? 1 : 0;

/** A number without the lower half of its bits, so that its square and its product with another such one are exact. */
export function upperHalf(x: number): number {
  value[0] = x;
  words[1 - high] = 0;
  return value[0];
}

/** Binary exponent of a positive normal number: the largest whole k with 2^k ≤ x. */
export function exponentOf(x: number): number {
  value[0] = x;
  return ((words[high] as number) >>> 20) - 1023;
}

/** 2^k for k from −1022 to 1023, by doubling and halving, which are exact. */
const powersOfTwo = new Float64Array(2046);
powersOfTwo[1022] = 1;
for (let k = 1; k <= 1023; k++) powersOfTwo[1022 + k] = (powersOfTwo[1021 + k] as number) * 2;
for (let k = 1; k <= 1022; k++) powersOfTwo[1022 - k] = (powersOfTwo[1023 - k] as number) / 2;

/** y·2^k for |k| up to 1100 and y about 1, or any y where neither leaves the normal numbers; rounded once. */
export function scaled(y: number, k: number): number {
  if (k > 1023) return y * 2 * scaled(1, k - 1);
  if (k < -1022) return scaled(y, k + 1000) * (powersOfTwo[22] as number);
  return y * (powersOfTwo[k + 1022] as number);
}
