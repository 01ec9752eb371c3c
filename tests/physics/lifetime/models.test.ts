/** The models of lifetime: against draws, closed forms and the laws of cells; in a graph with spreads. */
import { describe, expect, it } from "vitest";
import { Evaluation } from "../../../lib/analysis/evaluation";
import { Graph } from "../../../lib/graph/graph";
import type { GivenNode, GraphNode } from "../../../lib/graph/node";
import { battery, lifetime } from "../../../lib/physics";
import { law, si } from "../check-rows";
import { randomFrom } from "../control/power-states";

const year = si("1 year");
const fade = { f: si("3 1/week"), L_N: 0.16, N_0: 300, z: 0.8, L_t: 0.04, t_0: si("12 month"), x: 1.2 };

/** What is left by the laws of battery. */
function left(t: number, cell = fade): number {
  const L_cyc = law(battery.cycleLoss, { ...cell, N: law(battery.cyclesInUse, { f: cell.f, t }) });
  return law(battery.retention, { L_cyc, L_cal: law(battery.calendarLoss, { ...cell, t }) });
}

describe("lifetime.timeToRetention", () => {
  it("is when the laws of cells say that the share is left", () => {
    const { t, N } = lifetime.timeToRetention.evaluate({ ...fade, k: 0.7 });
    expect(left(t)).toBeCloseTo(0.7, 12);
    expect(N).toBeCloseTo(law(battery.cyclesInUse, { f: fade.f, t }), 9);
    expect(t / year).toBeGreaterThan(2);
    expect(t / year).toBeLessThan(6);
    expect(law(lifetime.warrantyMargin, { k_age: left(2 * year), k_min: 0.7 })).toBeGreaterThan(0);
  });

  it("has closed forms: even cycles alone, calendar alone, and both with the square root", () => {
    const cycles = { ...fade, z: 1, L_t: 0 };
    expect(lifetime.timeToRetention.evaluate({ ...cycles, k: 0.84 }).N).toBeCloseTo(300, 8);
    const calendar = { ...fade, L_N: 0, x: 1 };
    expect(lifetime.timeToRetention.evaluate({ ...calendar, k: 0.92 }).t / fade.t_0).toBeCloseTo(4, 9);
    const roots = { ...fade, z: 0.5 };
    const slope = roots.L_N * Math.sqrt(roots.f / roots.N_0) + (roots.L_t * roots.x) / Math.sqrt(roots.t_0);
    expect(lifetime.timeToRetention.evaluate({ ...roots, k: 0.7 }).t).toBeCloseTo((0.3 / slope) ** 2, 0);
  });

  it("is nothing for a share of one, and is refused where a cell lasts a hundred years", () => {
    expect(lifetime.timeToRetention.evaluate({ ...fade, k: 1 }).t).toBe(0);
    expect(() => lifetime.timeToRetention.evaluate({ ...fade, L_N: 0, L_t: 0, k: 0.5 })).toThrow(
      "keeps more than 50 % for a hundred years",
    );
  });

  it("draws a curve through the same points", () => {
    const { k } = lifetime.fadeCurve.evaluate({ ...fade, t_1: 4 * year });
    Array.from(k.x).forEach((t, i) => {
      expect(k.y[i]).toBeCloseTo(left(t), 12);
    });
    expect(k.x[48]).toBe(4 * year);
  });
});

describe("lifetime.fadeCurve", () => {
  it("passes the stated losses at the stated cycles and ages, whatever its exponent", () => {
    for (const z of [0.5, 0.8, 1, 1.4]) {
      // 300 cycles take 700 days; at four times the age the calendar's loss has doubled
      const cycles = lifetime.fadeCurve.evaluate({ ...fade, z, L_t: 0, t_1: si("700 d") });
      expect(cycles.k.y[48], `z = ${z}`).toBeCloseTo(0.84, 9);
      expect(cycles.k.x[48]).toBeCloseTo(si("700 d"), 3);
      const calendar = lifetime.fadeCurve.evaluate({ ...fade, z, L_N: 0, x: 1, t_1: 4 * fade.t_0 });
      expect(calendar.k.y[48]).toBeCloseTo(0.92, 9);
    }
  });

  it("is what is left when the losses of every hour are taken away one after another", () => {
    const t_1 = 3 * year;
    const { k } = lifetime.fadeCurve.evaluate({ ...fade, t_1 });
    const hour = 3600;
    let [t, share, next] = [0, 1, 0];
    const off: number[] = [];
    for (; next < k.x.length; t += hour) {
      while (next < k.x.length && (k.x[next] as number) <= t) off.push(Math.abs((k.y[next++] as number) - share));
      // Rates in the middle of the hour: L·z·N^(z−1)/N_0^z a cycle, and x·L_t/(2·√(t·t_0)) a second
      const middle = t + hour / 2;
      const perCycle = (fade.L_N * fade.z * ((fade.f * middle) / fade.N_0) ** (fade.z - 1)) / fade.N_0;
      share -= hour * (fade.f * perCycle + (fade.x * fade.L_t) / (2 * Math.sqrt(middle * fade.t_0)));
    }
    expect(off.length).toBe(49);
    expect(Math.max(...off)).toBeLessThan(5e-4);
  });

  it("is new for ever without losses", () => {
    const { k } = lifetime.fadeCurve.evaluate({ ...fade, L_N: 0, L_t: 0, t_1: 4 * year });
    expect(Array.from(k.y).every((share) => share === 1)).toBe(true);
  });
});

describe("lifetime.unitsToStart", () => {
  const P = (n: number, N: number, Y: number, tries: number): number => {
    const random = randomFrom(n);
    let enough = 0;
    for (let i = 0; i < tries; i++) {
      let good = 0;
      for (let unit = 0; unit < n; unit++) good += random() < Y ? 1 : 0;
      enough += good >= N ? 1 : 0;
    }
    return enough / tries;
  };

  it("is the least number for which draws reach the probability", () => {
    const { n, spare } = lifetime.unitsToStart.evaluate({ N: 100, Y: 0.9, P: 0.95 });
    expect(spare).toBe(n - 100);
    expect(P(n, 100, 0.9, 20000)).toBeGreaterThan(0.945);
    expect(P(n - 1, 100, 0.9, 20000)).toBeLessThan(0.955);
    expect(lifetime.faultyUnits.evaluate({ n, p: 0.1, k: n - 100 }).P).toBeGreaterThanOrEqual(0.95);
    expect(lifetime.faultyUnits.evaluate({ n: n - 1, p: 0.1, k: n - 101 }).P).toBeLessThan(0.95);
  });

  it("is the number wanted at a yield of one, and near N/Y for many", () => {
    expect(lifetime.unitsToStart.evaluate({ N: 1000, Y: 1, P: 0.99 }).n).toBe(1000);
    expect(lifetime.unitsToStart.evaluate({ N: 0, Y: 0.5, P: 0.99 }).n).toBe(0);
    const { n } = lifetime.unitsToStart.evaluate({ N: 1e5, Y: 0.8, P: 0.5 });
    expect(Math.abs(n - 125000)).toBeLessThan(3);
    expect(() => lifetime.unitsToStart.evaluate({ N: 10, Y: 0, P: 0.9 })).toThrow("the yield must be above 0");
  });
});

describe("the models of lifetime in a graph", () => {
  function given(id: string, nominal: number, unit: string, dimension: string, share = 0): GivenNode {
    const spread =
      share === 0
        ? ({ kind: "exact" } as const)
        : ({ kind: "rectangular", low: nominal * (1 - share), high: nominal * (1 + share) } as const);
    return { kind: "given", id, path: id, text: `${nominal} ${unit}`, nominal, spread, unit, dimension, provenance: { source: "test" } };
  }
  const nodes: GraphNode[] = [
    given("f", fade.f, "1/s", "s⁻¹"),
    given("L_N", fade.L_N, "1", "1", 0.3),
    given("N_0", fade.N_0, "1", "1"),
    given("z", fade.z, "1", "1"),
    given("L_t", fade.L_t, "1", "1", 0.2),
    given("t_0", fade.t_0, "s", "s"),
    given("x", fade.x, "1", "1"),
    given("k", 0.7, "1", "1"),
  ];
  const inputs = Object.fromEntries(nodes.map(({ id }) => [id, id]));
  const node: GraphNode = {
    kind: "model",
    id: "t",
    model: lifetime.timeToRetention.name,
    output: "t",
    arguments: inputs,
    dimension: "s",
    unit: "year",
  };

  it("have the worst case at the corner of the greatest losses", () => {
    const { nominal, worst, interval, warnings } = new Evaluation(Graph.from([...nodes, node]), { samples: 2000 }).analysis("t");
    expect(nominal).toBe(lifetime.timeToRetention.evaluate({ ...fade, k: 0.7 }).t);
    expect(worst?.low).toBeCloseTo(lifetime.timeToRetention.evaluate({ ...fade, L_N: 0.16 * 1.3, L_t: 0.04 * 1.2, k: 0.7 }).t, 0);
    expect(interval?.low).toBeGreaterThan(worst?.low ?? Infinity);
    expect(interval?.high).toBeLessThan(worst?.high ?? 0);
    expect(warnings).toEqual([]);
  });
});
