/** Scalar arithmetic against a general library in the same run; absolute figures depend on the machine. */
import { unit as mathUnit } from "mathjs";
import { expect, it } from "vitest";
import { quantity } from "../../lib/quantity/parse";
import { ampere, mW, volt, watt } from "../../lib/units";

/** Calls of `job` a second; the best of three turns. */
function rate(job: () => void, calls: number): number {
  let best = 0;
  for (let turn = 0; turn < 3; turn++) {
    const start = performance.now();
    for (let i = 0; i < calls; i++) job();
    best = Math.max(best, (1000 * calls) / (performance.now() - start));
  }
  return best;
}

it("multiply, add, convert and compare run at least eight times as fast as mathjs units", () => {
  const [v, i, p] = [volt(3), ampere(0.2), watt(0.1)];
  const ours = rate(() => {
    const total = v.mul(i).plus(p);
    if (total.in(mW) < 0 || total.lessThan(p)) throw new Error("wrong");
  }, 200_000);
  const [V, I, P] = [mathUnit(3, "V"), mathUnit(0.2, "A"), mathUnit(0.1, "W")];
  const theirs = rate(() => {
    const product = V.multiply(I);
    const total = mathUnit(product.toNumber("W") + P.toNumber("W"), "W");
    if (total.toNumber("mW") < 0 || total.toNumber("W") < P.toNumber("W")) throw new Error("wrong");
  }, 4_000);
  console.log(`quantity ${(ours / 1e6).toFixed(1)} M/s, mathjs ${(theirs / 1e6).toFixed(3)} M/s, ratio ${(ours / theirs).toFixed(0)}`);
  expect(ours / theirs).toBeGreaterThan(8);
});

it("reads at least 50 000 datasheet strings a second", () => {
  const texts = ["4.7 kΩ ±1 %", "100nF", "12 nV/√Hz", "25 °C", "50 ppm/°C", "1.5 W/(m·K)", "3.0 V to 4.2 V", "82 dB SPL"];
  const speed = texts.length * rate(() => texts.forEach((text) => void quantity(text)), 4_000);
  console.log(`${(speed / 1e3).toFixed(0)} k strings/s`);
  expect(speed).toBeGreaterThan(50_000);
});
