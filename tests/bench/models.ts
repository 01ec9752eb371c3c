/** One call of the models that worksheets evaluate most, against the time that each may take: a block calls them once for every row. */
import { curveArgument } from "../../lib/graph/model";
import { battery, enclosure, light } from "../../lib/physics";
import { takeTurns, timed } from "./measure";
import type { Row } from "./row";

const diode = curveArgument({
  x: Float64Array.of(2.618, 2.658, 2.698, 2.754, 2.799, 2.85, 2.885, 2.938, 3.037, 3.196),
  y: Float64Array.of(5e-5, 1e-4, 2e-4, 5e-4, 1e-3, 2e-3, 3e-3, 5e-3, 1e-2, 2e-2),
  interpolation: "log-y",
});
const relative = curveArgument({
  x: Float64Array.of(5e-5, 5e-4, 1e-3, 2e-3, 5e-3, 2e-2),
  y: Float64Array.of(0.034, 0.298, 0.555, 1, 2.12, 6.3),
  interpolation: "linear",
});
const ocv = curveArgument({
  x: Float64Array.of(0, 0.05, 0.1, 0.2, 0.4, 0.6, 0.8, 0.9, 1),
  y: Float64Array.of(3, 3.45, 3.6, 3.7, 3.78, 3.87, 4.02, 4.1, 4.2),
  interpolation: "linear",
});
const cell = { Q: 1440, R: 0.5, V_c: 3.2, s_0: 1, ocv };
const plate = { F: 40, D: 1.87, a: 0.032, b: 0.054, u: 0.0104, v: 0.0104 };
const warm = { I_v0: 0.056, relative, alpha: -0.002, T: 300, T_0: 298.15 };

/** Limit in µs. */
const models: readonly (readonly [name: string, limit: number, call: () => number])[] = [
  ["light.operatingPoint", 2, () => light.operatingPoint.evaluate({ V_s: 3.0, R: 75, dV: 0.05, diode }).I],
  [
    "light.shockleyOperatingPoint",
    10,
    () => light.shockleyOperatingPoint.evaluate({ V_s: 3.3, R: 220, I_s: 1e-17, n: 2, R_s: 8, T: 298.15 }).I,
  ],
  ["light.intensity", 10, () => light.intensity.evaluate({ I: 1.7e-3, ...warm }).I_v],
  ["light.currentForIntensity", 10, () => light.currentForIntensity.evaluate({ I_v: 0.04, ...warm }).I],
  ["battery.runtimeAtPower", 200, () => battery.runtimeAtPower.evaluate({ ...cell, P: 0.1 }).t],
  ["battery.runtimeAtCurrent", 200, () => battery.runtimeAtCurrent.evaluate({ ...cell, I: 0.03 }).t],
  ["battery.constantPowerLoad", 200, () => battery.constantPowerLoad.evaluate({ V_oc: 3.7, R: 0.5, P: 0.1 }).I],
  ["battery.rectifiedMean", 200, () => battery.rectifiedMean.evaluate({ C: 4 }).k],
  ["enclosure.supportedPatchDeflection", 400, () => enclosure.supportedPatchDeflection.evaluate(plate).w],
  ["enclosure.clampedPatchDeflection", 400, () => enclosure.clampedPatchDeflection.evaluate(plate).w],
];

export async function modelRows(): Promise<Row[]> {
  const rows: Row[] = [];
  for (const [name, limit, call] of models) {
    const times = await takeTurns([{ name, run: () => timed(() => [call()], { calls: 2000 }) }], 9);
    const measured = (times[0]?.seconds ?? Number.NaN) * 1e6;
    rows.push({
      title: `One call of ${name}`,
      unit: "µs",
      times: times.map(({ ratio: _, ...time }) => time),
      criteria: [{ what: "time of a call", measured, limit, is: "at most", unit: "µs" }],
      notes: [],
    });
  }
  return rows;
}
