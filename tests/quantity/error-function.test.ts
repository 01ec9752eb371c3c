import { describe, expect, it } from "vitest";
import { erfc } from "../../lib/quantity/error-function";
import { exact, fixed, ulpsFrom } from "./exact";

/** Towards zero, by products alone: a power of ten has other bits in another version of Node. */
const small = [1.3];
while (small.length < 40) small.push((small.at(-1) as number) * 0.316);

/** Arguments over every interval of the method. */
const xs = [...Array.from({ length: 6000 }, (_, i) => -7 + i * 0.002_353), ...small];

describe("the complement of the error function", () => {
  it("is within three units in the last place of the exact value, the tail included", () => {
    const worst = Math.max(...xs.map((x) => ulpsFrom(erfc(x), exact.erfc(fixed(x)))));
    expect(worst).toBeLessThan(3);
    expect(worst).toBeGreaterThan(0.3);
  });

  it("has the values of tables, and its ends", () => {
    // NIST DLMF 7.23; erfc(5) from M. Abramowitz and I. A. Stegun, table 7.3 (from memory).
    expect(1 - erfc(0.5)).toBeCloseTo(0.5204998778130465, 15);
    expect(erfc(5) / 1.5374597944280349e-12).toBeCloseTo(1, 13);
    expect([erfc(0), erfc(Infinity), erfc(-Infinity)]).toEqual([1, 0, 2]);
    expect(erfc(Number.NaN)).toBeNaN();
    expect(erfc(26)).toBeGreaterThan(0);
  });
});
