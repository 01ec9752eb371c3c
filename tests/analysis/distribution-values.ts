/** Values of the distributions' functions over their arguments, for comparing the bits that different engines give. */
import { normalProbability, normalQuantile } from "../../lib/analysis/normal";
import { studentQuantile, studentScores } from "../../lib/analysis/student";
import { binomialAtMost, logFactorial } from "../../lib/physics/numerics/binomial";
import { erfc } from "../../lib/quantity/error-function";

/** Arguments are made by sums and products alone: a power of ten has other bits in another version of Node. */
export function distributionValues(): number[] {
  const values: number[] = [];
  for (let i = 0; i < 6000; i++) values.push(erfc(-7 + i * 0.002_353));
  for (let i = 0, x = 1.3; i < 40; i++, x *= 0.316) values.push(erfc(x));
  for (const freedom of [1, 2.5, 5, 18, 300]) {
    const score = studentScores(freedom);
    for (let i = 0; i < 400; i++) values.push(studentQuantile((i + 0.5) / 400, freedom), score(i / 50 - 4));
  }
  for (let i = 0; i < 400; i++) values.push(normalProbability(i / 50 - 4), normalQuantile((i + 0.5) / 400), logFactorial(i));
  for (let k = 0; k < 60; k++) values.push(binomialAtMost(k, 60, 0.3), binomialAtMost(k, 2000, 0.01));
  return values;
}

/** The bits as text; a function without a name of this file, so that a page can be given it. */
export function bitsOf(values: readonly number[]): string {
  const words = new Uint32Array(Float64Array.from(values).buffer);
  return words.reduce((text, word) => text + word.toString(16).padStart(8, "0"), "");
}
