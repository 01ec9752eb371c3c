/** The second route of cells given by rows: ngspice counts the charge in a capacitor and reads the rows with its own pwl function. */
import { describe, expect, it } from "vitest";
import { curveArgument } from "../../../lib/graph/model";
import { battery } from "../../../lib/physics";
import { reference } from "../check-rows";
import { ngspicePresent, ngspiceRows } from "../ngspice";

const skip = !ngspicePresent && process.env["CI"] !== "true";
const polymer = reference("cells").table("lithium-polymer");
const table = (x: readonly number[], y: readonly number[]) => curveArgument({ x: Float64Array.from(x), y: Float64Array.from(y) });
const ocv = table(polymer.x, polymer.y);

const close = ".options RELTOL=1e-6 VNTOL=1e-9";

/** A source that follows rows of the voltage of a node. */
function follows(name: string, node: string, x: readonly number[], y: readonly number[]): string {
  return `B_${name} ${name} 0 V = pwl(v(${node}), ${x.map((at, i) => `${at}, ${y[i]}`).join(", ")})`;
}

describe("a rested cell in ngspice", () => {
  // 1 F from 1 V, emptied by 1 A: its voltage is the share of charge, its open-circuit voltage that of the rows
  const emptied = ["* cell", "C_s s 0 1 IC=1", "I_s s 0 1", follows("oc", "s", polymer.x, polymer.y), close, ".tran 5m 1 0 5m UIC"];

  it.skipIf(skip)("has the open-circuit voltage of battery.openCircuitVoltage within 0.1 mV while it is emptied", () => {
    const rows = ngspiceRows([...emptied, ".print tran v(s) v(oc)", ".end", ""].join("\n")).filter(([, s = 0]) => s > 0 && s <= 1);
    expect(rows.length).toBeGreaterThan(150);
    for (const [, s = 0, V = 0] of rows)
      expect(Math.abs(battery.openCircuitVoltage.evaluate({ s, ocv }).V_oc - V), `${s}`).toBeLessThan(1e-4);
  });

  it.skipIf(skip)("has the state of charge of battery.stateOfCharge within 0.01 % of its capacity", () => {
    const back = follows("back", "oc", polymer.y, polymer.x);
    const rows = ngspiceRows([...emptied, back, ".print tran v(oc) v(back)", ".end", ""].join("\n")).filter(([, , s = 0]) => s > 1e-3);
    expect(rows.length).toBeGreaterThan(150);
    for (const [, V_oc = 0, s = 0] of rows.filter(([, V = 0]) => V <= (polymer.y.at(-1) ?? 0)))
      expect(Math.abs(battery.stateOfCharge.evaluate({ V_oc, ocv }).s - s), `${V_oc} V`).toBeLessThan(1e-4);
  });

  it("is left at the state of charge of its open-circuit voltage by a current so small that it drops nothing", () => {
    for (const V_oc of [3.4, 3.7, 3.85, 4.1]) {
      const { s_end } = battery.runtimeAtCurrent.evaluate({ I: 1e-6, Q: 1440, R: 0, V_c: V_oc, s_0: 1, ocv });
      expect(battery.stateOfCharge.evaluate({ V_oc, ocv }).s).toBeCloseTo(s_end, 12);
    }
  });
});

describe("a cell against temperature in ngspice", () => {
  const kelvins = [253.15, 263.15, 273.15, 283.15, 298.15, 318.15];
  const resistance = [4.1, 2.9, 2, 1.45, 1, 0.82];
  const capacity = [0.55, 0.7, 0.84, 0.93, 1, 1.01];
  const sweep = [close, "V_T T 0 253.15", ".dc V_T 253.15 318.15 0.5", ".end", ""];

  it.skipIf(skip)("has the resistance and the capacity of its rows within 0.01 %, from −20 °C to 45 °C", () => {
    const cards = [
      "* temperature",
      follows("R", "T", kelvins, resistance),
      follows("Q", "T", kelvins, capacity),
      ".print dc v(T) v(R) v(Q)",
    ];
    const rows = ngspiceRows([...cards, ...sweep].join("\n"));
    expect(rows.length).toBeGreaterThan(120);
    for (const [T = 0, , factor = 0, share = 0] of rows) {
      const { R } = battery.resistanceAtTemperature.evaluate({ R_0: 0.35, T, factor: table(kelvins, resistance) });
      const { Q_T } = battery.capacityAtTemperature.evaluate({ Q: 1440, T, factor: table(kelvins, capacity) });
      expect(Math.abs(R / (0.35 * factor) - 1), `R at ${T} K`).toBeLessThan(1e-4);
      expect(Math.abs(Q_T / (1440 * share) - 1), `Q at ${T} K`).toBeLessThan(1e-4);
    }
  });

  it("is not read beyond its rows", () => {
    expect(() => battery.resistanceAtTemperature.evaluate({ R_0: 0.35, T: 243.15, factor: table(kelvins, resistance) })).toThrow(
      expect.objectContaining({ code: "table-range" }),
    );
    expect(() => battery.capacityAtTemperature.evaluate({ Q: 1440, T: 323.15, factor: table(kelvins, capacity) })).toThrow(
      expect.objectContaining({ code: "table-range" }),
    );
  });
});
