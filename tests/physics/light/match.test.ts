/** Sets of LEDs against draws and closed forms, and indicators that warm themselves against a balance of heat. */
import { describe, expect, it } from "vitest";
import { Evaluation } from "../../../lib/analysis/evaluation";
import { Graph } from "../../../lib/graph/graph";
import { curveArgument } from "../../../lib/graph/model";
import type { GraphNode } from "../../../lib/graph/node";
import { light, thermal } from "../../../lib/physics";
import { evenMatch, matchProbability } from "../../../lib/physics/light/match";
import { exact, given, within } from "../../graph/nodes";
import { law } from "../check-rows";
import { normalFrom, randomFrom } from "../control/power-states";

/** Share of sets of N within the ratio r: logarithms even over ln B, and a normal part. */
function drawn(N: number, B: number, sigma: number, r: number, sets = 100000): number {
  const random = randomFrom(N + Math.round(1000 * sigma));
  const normal = normalFrom(random);
  let alike = 0;
  for (let set = 0; set < sets; set++) {
    let [low, high] = [Infinity, -Infinity];
    for (let led = 0; led < N; led++) {
      const x = random() * Math.log(B) + sigma * normal();
      [low, high] = [Math.min(low, x), Math.max(high, x)];
    }
    alike += high - low <= Math.log(r) ? 1 : 0;
  }
  return alike / sets;
}

const probability = (N: number, B: number, sigma: number, r: number): number => light.matchProbability.evaluate({ N, B, sigma, r }).P;

describe("LEDs of one bin", () => {
  it.each([
    [2, 1.22, 0, 1.1],
    [3, 1.22, 0, 1.15],
    [3, 1.22, 0.05, 1.3],
    [3, 1, 0.08, 1.3],
    [5, 1.5, 0.1, 1.4],
    [12, 1.22, 0.02, 1.25],
  ])("%i with edges 1 : %f and a spread of %f are within 1 : %f as often as draws are", (N, B, sigma, r) => {
    const P = probability(N, B, sigma, r);
    const share = drawn(N, B, sigma, r);
    expect(Math.abs(P - share)).toBeLessThan(4.5 * Math.sqrt((P * (1 - P)) / 100000) + 1e-9);
  });

  it("without a spread follow the closed law, and are all alike within their bin's ratio", () => {
    for (const [N, r] of [
      [2, 1.1],
      [3, 1.15],
      [9, 1.2],
    ] as const) {
      expect(probability(N, 1.22, 0, r)).toBeCloseTo(law(light.binMatch, { N, r, B: 1.22 }), 12);
    }
    expect(law(light.binMatch, { N: 3, r: 1.3, B: 1.22 })).toBe(1);
    expect(law(light.binMatch, { N: 3, r: 1, B: 1.22 })).toBe(0);
    expect(law(light.binRatio, { d: 0.1 })).toBeCloseTo(1.2222, 4);
  });

  it("two of them without a bin follow the error function: 84.27 % within twice the deviation", () => {
    expect(matchProbability(2, 0, 0.1, 0.2)).toBeCloseTo(0.8427008, 7);
    expect(matchProbability(1, 0.2, 0.1, 0)).toBe(1);
    expect(matchProbability(3, 0, 0, 0)).toBe(1);
  });

  it("come from one law to the other without a step", () => {
    const narrow = (sigma: number): number => matchProbability(3, 0.2, sigma, 0.15);
    expect(Math.abs(narrow(0.00101) - narrow(0.00099))).toBeLessThan(2e-5);
    expect(narrow(0.00101)).toBeCloseTo(evenMatch(3, 0.75), 3);
    expect(narrow(0)).toBeCloseTo(evenMatch(3, 0.75), 14);
    const wide = (w: number): number => matchProbability(3, w, 0.1, 0.15);
    expect(wide(0.000501)).toBeCloseTo(wide(0.000499), 5);
  });

  it("are refused for half an LED, or a ratio below one", () => {
    expect(() => matchProbability(2.5, 0.1, 0.1, 0.1)).toThrow("a number whole");
    expect(() => matchProbability(3, 0.1, 0.1, -0.1)).toThrow("a ratio is at least 1");
  });

  it("in the graph have a probability that falls where the bin is wide and the pipe uneven", () => {
    const nodes: GraphNode[] = [
      given("N", 3, exact),
      given("B", 1.22, within(1.15, 1.3)),
      given("sigma", 0.05, within(0.03, 0.07)),
      given("r", 1.3, exact),
      {
        kind: "model",
        id: "P",
        model: light.matchProbability.name,
        output: "P",
        arguments: { N: "N", B: "B", sigma: "sigma", r: "r" },
        dimension: "1",
        unit: "%",
      },
    ];
    const { nominal, worst, warnings } = new Evaluation(Graph.from(nodes), { samples: 500 }).analysis("P");
    expect(nominal).toBe(probability(3, 1.22, 0.05, 1.3));
    expect(worst?.low).toBeCloseTo(probability(3, 1.3, 0.07, 1.3), 9);
    expect(worst?.high).toBeCloseTo(probability(3, 1.15, 0.03, 1.3), 9);
    expect(warnings).toEqual([]);
  });
});

describe("light.warmIndicator", () => {
  const table = (points: readonly (readonly [number, number])[]) =>
    curveArgument({ x: Float64Array.from(points, ([x]) => x), y: Float64Array.from(points, ([, y]) => y) });
  const lamp = {
    V_s: 4.5,
    R: 250,
    dV: 0,
    diode: table([
      [1.7, 0],
      [1.9, 1e-3],
      [2.1, 11e-3],
      [2.5, 31e-3],
    ]),
    k_V: -2e-3,
    T_0: 298.15,
    T_a: 318.15,
    R_th: 400,
    eta: 0.1,
    I_v0: 0.1,
    relative: table([
      [1e-3, 0.1],
      [10e-3, 1],
      [30e-3, 2.5],
    ]),
    alpha: -0.01,
  };

  it("balances heat and current: supply, resistor, shifted table and thermal path agree", () => {
    const { I, V_f, T_j, I_v } = light.warmIndicator.evaluate(lamp);
    expect(V_f + I * lamp.R).toBeCloseTo(lamp.V_s, 12);
    expect(lamp.diode.at(V_f - lamp.k_V * (T_j - lamp.T_0))).toBeCloseTo(I, 12);
    expect(T_j - lamp.T_a).toBeCloseTo(lamp.R_th * 0.9 * I * V_f, 6);
    expect(T_j).toBeCloseTo(law(light.ledJunction, { T_a: lamp.T_a, R_th: lamp.R_th, I, V_f, eta: 0.1 }), 6);
    expect(T_j).toBeCloseTo(law(thermal.temperatureBehind, { T_a: lamp.T_a, P: 0.9 * I * V_f, R: lamp.R_th }), 6);
    expect(I_v).toBeCloseTo(lamp.I_v0 * lamp.relative.at(I) * Math.exp(-0.01 * (T_j - lamp.T_0)), 9);
    expect(T_j - lamp.T_a).toBeGreaterThan(5);
  });

  it("without a thermal resistance is the cold operating point", () => {
    const cold = { ...lamp, T_a: lamp.T_0, R_th: 0 };
    const { I, T_j } = light.warmIndicator.evaluate(cold);
    expect(T_j).toBe(lamp.T_0);
    expect(I).toBeCloseTo(light.operatingPoint.evaluate({ V_s: lamp.V_s, R: lamp.R, dV: 0, diode: lamp.diode }).I, 15);
  });

  it("dims with its own heat by what the straight tables solve to in closed form", () => {
    // Between its rows the table is V = 1.88 + 20·I: a quadratic in I remains
    const near = { ...lamp, alpha: -0.01 };
    const { I } = light.warmIndicator.evaluate(near);
    const residue = (i: number): number => {
      const T = lamp.T_a + 0.9 * lamp.R_th * i * (lamp.V_s - i * lamp.R);
      return lamp.V_s - i * lamp.R - (1.88 + 20 * i + lamp.k_V * (T - lamp.T_0));
    };
    expect(residue(I)).toBeCloseTo(0, 9);
  });

  it("is refused where heat and current drive each other up", () => {
    const away = { ...lamp, V_s: 2.0, R: 0.5, k_V: -6e-3, R_th: 5000 };
    expect(() => light.warmIndicator.evaluate(away)).toThrow(/no steady temperature|beyond the last row/);
  });
});
