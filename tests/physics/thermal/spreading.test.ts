/** Spreading of heat: the exact series of a round source on a round plate, and the limiting cases. */
import { describe, expect, it } from "vitest";
import { thermal } from "../../../lib/physics";
import { isFull } from "../../full";

/** Bessel's functions of the first kind by their integral, (1/π)·∫cos(n·s − x·sin s) ds: trapezoids converge at once. */
function bessel(n: 0 | 1, x: number): number {
  const steps = 2 * Math.ceil(20 + x);
  let sum = 0;
  for (let i = 0; i < steps; i++)
    sum += Math.cos(n * ((2 * Math.PI * (i + 0.5)) / steps) - x * Math.sin((2 * Math.PI * (i + 0.5)) / steps));
  return sum / steps;
}

/** The m-th zero of J_1, by Newton's steps from π·(m + 1/4). */
function zero(m: number): number {
  let x = Math.PI * (m + 0.25);
  for (let i = 0; i < 6; i++) x -= bessel(1, x) / (bessel(0, x) - bessel(1, x) / x);
  return x;
}

/** Zeros of J_1 with J_0 there. */
const zeros = Array.from({ length: 600 }, (_, i) => zero(i + 1)).map((delta) => ({ delta, J: bessel(0, delta) }));

/** Spreading to the middle and to the mean of a source of even heat, by separation of variables. */
function series(a: number, b: number, t: number, k: number, h: number) {
  let [most, mean] = [0, 0];
  const epsilon = a / b;
  for (const { delta, J } of zeros) {
    const [through, loss] = [Math.tanh((delta * t) / b), (delta * k) / (h * b)];
    const phi = (through + loss) / (1 + loss * through);
    const j = bessel(1, delta * epsilon);
    most += (2 * j * phi) / (delta * delta * J * J);
    mean += (4 * j * j * phi) / (epsilon * delta ** 3 * J * J);
  }
  return { R_max: most / (Math.PI * k * a), R_avg: mean / (Math.PI * k * a) };
}

const of = (a: number, b: number, t: number, k: number, h: number) =>
  thermal.spreading.evaluate({ A_s: Math.PI * a * a, A_p: Math.PI * b * b, t, k, h });

describe("thermal.spreading", () => {
  it("is the exact series of a round source on a round plate within 13 %, of poor conductors at most a third above", () => {
    for (const epsilon of isFull ? [0.1, 0.2, 0.4, 0.6] : [0.1, 0.6]) {
      for (const t of [0.5e-3, 2e-3, 10e-3]) {
        for (const [k, h, over] of [
          [0.3, 10, 1 / 3],
          [20, 10, 0.13],
          [200, 10, 0.13],
          [200, 1000, 0.13],
        ] as const) {
          const exact = series(epsilon * 0.02, 0.02, t, k, h);
          const ours = of(epsilon * 0.02, 0.02, t, k, h);
          for (const [name, ratio] of [
            ["all", ours.R / (exact.R_max + ours.R_t + ours.R_h)],
            ["most", ours.R_max / exact.R_max],
            ["mean", ours.R_avg / exact.R_avg],
          ] as const) {
            expect(ratio - 1, `${name}, ${epsilon} ${t} ${k} ${h}`).toBeLessThan(over);
            expect(ratio - 1, `${name}, ${epsilon} ${t} ${k} ${h}`).toBeGreaterThan(-0.13);
          }
        }
      }
    }
  });

  it("of a tiny source on a thick body is 1/(π·k·a) in the middle, of one that covers the plate nothing", () => {
    const { R_max, R_avg } = of(1e-4, 0.1, 0.1, 200, 1e4);
    expect(R_max * Math.PI * 200 * 1e-4).toBeCloseTo(1, 2);
    // Carslaw and Jaeger: 8/(3·π²·k·a) of the mean; the closed form has 1/(2·√π)
    expect(Math.abs((R_avg * 200 * 1e-4) / (8 / (3 * Math.PI ** 2)) - 1)).toBeLessThan(0.05);
    const whole = of(0.02, 0.02, 1e-3, 200, 10);
    expect([whole.R_max, whole.R_avg]).toEqual([0, 0]);
    expect(whole.R).toBeCloseTo(1e-3 / (200 * Math.PI * 4e-4) + 1 / (10 * Math.PI * 4e-4), 12);
  });

  it("grows as the plate gets thinner or poorer, and refuses a source larger than the plate", () => {
    expect(of(2e-3, 0.02, 1e-3, 200, 10).R_max).toBeLessThan(of(2e-3, 0.02, 0.3e-3, 200, 10).R_max);
    expect(of(2e-3, 0.02, 1e-3, 200, 10).R_max).toBeLessThan(of(2e-3, 0.02, 1e-3, 0.3, 10).R_max);
    expect(() => of(0.03, 0.02, 1e-3, 200, 10)).toThrow("does not fit a plate");
  });
});
