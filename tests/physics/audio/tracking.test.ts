/** Two tracks on one shaft: Kirchhoff's equations by ngspice, all corners, limiting cases. */
import { describe, expect, it } from "vitest";
import { audio } from "../../../lib/physics";
import { law } from "../check-rows";
import { ngspicePresent, ngspiceValues } from "../ngspice";

const skip = !ngspicePresent && process.env["CI"] !== "true";
const dB = (k: number): number => 20 * Math.log10(k);

describe("a volume control of two tracks", () => {
  it.skipIf(skip)("has the gains of ngspice, and their quotient", () => {
    for (const [x_1, x_2] of [
      [0.1, 0.12],
      [0.5, 0.48],
      [0.9, 0.91],
    ] as const) {
      const [R_1, R_2, R_L] = [11e3, 9e3, 20e3];
      const track = (n: number, x: number, R: number) => [
        `R_a${n} in w${n} ${(1 - x) * R}`,
        `R_b${n} w${n} 0 ${x * R}`,
        `R_L${n} w${n} 0 ${R_L}`,
      ];
      const cards = ["* tracks", "V_1 in 0 1", ...track(1, x_1, R_1), ...track(2, x_2, R_2)];
      const found = ngspiceValues(
        [...cards, ".control", "set numdgt=12", "op", "print v(w1)", "print v(w2)", "quit", ".endc", ".end", ""].join("\n"),
      );
      const [a, b] = [found["v(w1)"] as number, found["v(w2)"] as number];
      expect(law(audio.trackGain, { x: x_1, R_L, R_p: R_1 }) / a).toBeCloseTo(1, 8);
      expect(law(audio.trackingError, { x_1, x_2, R_1, R_2, R_L }) / (a / b)).toBeCloseTo(1, 8);
    }
  });

  it("is in step for like tracks, whatever their resistance where nothing loads them", () => {
    expect(law(audio.trackingError, { x_1: 0.3, x_2: 0.3, R_1: 1e4, R_2: 1e4, R_L: 2e4 })).toBe(1);
    expect(law(audio.trackingError, { x_1: 0.3, x_2: 0.3, R_1: 8e3, R_2: 12e3, R_L: 1e12 })).toBeCloseTo(1, 8);
    expect([0, 1].map((x) => law(audio.trackGain, { x, R_L: 2e4, R_p: 1e4 }))).toEqual([0, 1]);
  });

  it("is furthest apart at the corners of its ganging error, 3 dB at a tenth of the travel with 3.4 % of it", () => {
    const [x, e] = [0.1, 0.034];
    let most = 0;
    for (let i = -50; i <= 50; i++)
      for (let j = Math.max(-50, i - 50); j <= Math.min(50, i + 50); j++) most = Math.max(most, (x + (e * i) / 100) / (x + (e * j) / 100));
    const k = law(audio.greatestTracking, { x, e });
    expect(Math.abs(k / ((x + e / 2) / (x - e / 2)) - 1)).toBeLessThan(1e-12);
    expect(k).toBeGreaterThanOrEqual(most - 1e-12);
    expect(dB(k)).toBeCloseTo(2.98, 2);
    expect(law(audio.leastTrackPosition, { e, k })).toBeCloseTo(x, 12);
    expect(law(audio.greatestTracking, { x: 0.5, e: 0 })).toBe(1);
  });
});
