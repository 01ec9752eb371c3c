import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { readReferences } from "../../../lib/design/reference";
import { evaluate } from "../../../lib/formula/evaluate";
import type { AnyFormula } from "../../../lib/formula/formula";
import { modelNamed } from "../../../lib/graph/model";
import type { GivenNode } from "../../../lib/graph/node";
import { charging } from "../../../lib/physics";
import { celsius } from "../../../lib/units";

const laws: readonly [string, AnyFormula][] = Object.entries(charging).flatMap(([name, law]) => ("expression" in law ? [[name, law]] : []));
const value = (law: AnyFormula, symbols: Readonly<Record<string, number>>): number => evaluate(law.expression, symbols);
const T = (t: number): number => celsius.toSI(t);
const bead = { R_0: 10e3, B: 3435, T_0: T(25) };

describe("laws of charging", () => {
  it.each(laws)("%s parses, fits its dimensions and states meaning, source and limits", (_name, law) => {
    expect(law.expression).toBeTypeOf("object");
    expect(law.meaning.length).toBeGreaterThan(20);
    expect(law.source).not.toBe("");
    expect(law.valid.every(({ low, high }) => low < high)).toBe(true);
  });

  it("are joined by models that are registered", () => {
    const models = Object.entries(charging).filter(([, law]) => "evaluate" in law);
    expect(models.length).toBe(10);
    for (const [name] of models) {
      const subject = name === "linearChargeTime" ? "battery" : "charging";
      expect(modelNamed(`${subject}.${name}`).name).toBe(`${subject}.${name}`);
    }
  });

  it("defer to the cell maker's data sheet and IEC 62133-2 where they concern what a cell may be given", () => {
    for (const law of [charging.coldMargin, charging.hotMargin]) expect(law.meaning).toContain("data sheet and IEC 62133-2");
    expect(charging.windowDivider.meaning).toContain("data sheet");
  });

  it("share the source between play and charge, and let the cell help beyond it", () => {
    const left = value(charging.sourceLeft, { I_s: 0.5, I_sys: 0.12 });
    expect(value(charging.linearDemand, { I_c: left, I_sys: 0.12 })).toBeCloseTo(0.5, 15);
    expect(value(charging.supplementCurrent, { I_sys: 0.12, I_s: 0.5 })).toBe(0);
    expect(value(charging.supplementCurrent, { I_sys: 0.62, I_s: 0.5 })).toBeCloseTo(0.12, 15);
    const I_c = value(charging.switchingChargeCurrent, { eta: 0.9, V_bus: 5, I_bus: left, V_cell: 3.8 });
    expect(value(charging.switchingDemand, { V_cell: 3.8, I_c, eta: 0.9, V_in: 5, I_sys: 0.12 })).toBeCloseTo(0.5, 15);
    expect(value(charging.sharedCellCurrent, { I_c: 0.28, P: 0.28 * 3.7, V: 3.7 })).toBeCloseTo(0, 15);
  });

  it("switchingChargerLoss is what goes in less what comes out, and none without loss", () => {
    expect(value(charging.switchingChargerLoss, { eta: 1, V_cell: 3.8, I: 0.3 })).toBe(0);
    expect(value(charging.switchingChargerLoss, { eta: 0.8, V_cell: 4, I: 0.5 })).toBeCloseTo(2.5 - 2, 15);
  });

  it("chargerHeadroom is what the cable leaves", () => {
    const V_in = value(charging.jackVoltage, { V_s: 4.75, I: 0.5, R_c: 0.5 });
    expect(V_in).toBe(4.5);
    expect(value(charging.chargerHeadroom, { V_in, V_cv: 4.2, I: 0.28, R_on: 0.5 })).toBeCloseTo(0.16, 12);
  });

  it("thermistorTemperature undoes thermistorResistance, which is R_0 at T_0 and about 27.3 kΩ at 0 °C", () => {
    expect(value(charging.thermistorResistance, { ...bead, T: T(25) })).toBe(10e3);
    const R = value(charging.thermistorResistance, { ...bead, T: T(0) });
    // exp(3435·(1/273.15 − 1/298.15)) = 2.8708
    expect(R).toBeCloseTo(28708, -1);
    expect(value(charging.thermistorTemperature, { ...bead, R })).toBeCloseTo(T(0), 9);
  });

  it("heatAllowance warms by just what it may, and margins count the sensor's error", () => {
    const P = value(charging.heatAllowance, { T_r: T(110), T_a: T(35), R_th: 100 });
    expect(P).toBeCloseTo(0.75, 12);
    expect(value(charging.warmedCell, { T_a: T(35), P, R_th: 100 })).toBeCloseTo(T(110), 9);
    expect(value(charging.hotMargin, { T_h: T(45), T: T(41), dT: 2 })).toBeCloseTo(2, 9);
    expect(value(charging.coldMargin, { T: T(12), T_c: T(10), dT: 2 })).toBeCloseTo(0, 9);
  });
});

describe("a thermistor divider", () => {
  const thresholds = { T_c: T(10), x_c: 0.7, T_h: T(45), x_h: 0.35, ...bead, R_0: 100e3, B: 4250 };

  it("designed for two thresholds passes them at the two temperatures", () => {
    const { R_s, R_p } = charging.windowDivider.evaluate(thresholds);
    const { T_c, x_c, T_h, x_h, ...thermistor } = thresholds;
    expect(charging.windowRatio.evaluate({ T: T_c, R_s, R_p, ...thermistor }).x).toBeCloseTo(x_c, 12);
    expect(charging.windowTemperature.evaluate({ x: x_c, R_s, R_p, ...thermistor }).T).toBeCloseTo(T_c, 9);
    expect(charging.windowTemperature.evaluate({ x: x_h, R_s, R_p, ...thermistor }).T).toBeCloseTo(T_h, 9);
  });

  it("has the ratio of R_p and the thermistor in parallel, R_0·e^(B·(1/T − 1/T_0)), over all", () => {
    for (const t of [-10, 0, 10, 25, 45, 60]) {
      const R = 10e3 * Math.exp(3435 * (1 / (t + 273.15) - 1 / 298.15));
      for (const R_p of [22e3, 100e3, 1e15]) {
        const below = (R * R_p) / (R + R_p);
        expect(charging.windowRatio.evaluate({ T: T(t), R_s: 8.2e3, R_p, ...bead }).x, `${t} °C`).toBeCloseTo(below / (8.2e3 + below), 12);
      }
    }
  });

  it("without a resistor across it follows the closed laws", () => {
    const R = value(charging.thermistorResistance, { ...bead, T: T(10) });
    const x = value(charging.dividerRatio, { R, R_s: 10e3 });
    expect(charging.windowTemperature.evaluate({ x, R_s: 10e3, R_p: 1e15, ...bead }).T).toBeCloseTo(T(10), 6);
  });

  it("is refused where two resistors cannot do it, or no temperature makes the ratio", () => {
    expect(() => charging.windowDivider.evaluate({ ...thresholds, B: 2000 })).toThrow("two resistors cannot stretch this thermistor");
    expect(() => charging.windowDivider.evaluate({ ...thresholds, x_c: 0.3 })).toThrow("a window needs T_c below T_h");
    expect(() => charging.windowTemperature.evaluate({ x: 0.9, R_s: 10e3, R_p: 20e3, ...bead })).toThrow(
      "no temperature brings this divider to 0.9",
    );
  });
});

describe("the table of USB sources", () => {
  const usb = readReferences({ "usb.yaml": readFileSync(new URL("../../../data/reference/usb.yaml", import.meta.url), "utf8") });
  const current = (name: string): number => (usb.nodes.get(`reference.usb.${name}`) as GivenNode).nominal;

  it("has the classes of USB 2.0, BC 1.2 and Type-C", () => {
    const classes = ["usb2-unconfigured", "usb2-configured", "bc12-charging-downstream", "bc12-dedicated"];
    expect(classes.map(current)).toEqual([0.1, 0.5, 1.5, 1.5]);
    expect(["default-usb2", "default-usb3", "medium", "high"].map((level) => current(`type-c-${level}`))).toEqual([0.5, 0.9, 1.5, 3]);
    expect([current("usb2-suspended"), current("usb3-unconfigured"), current("usb3-configured")]).toEqual([2.5e-3, 0.15, 0.9]);
  });

  it("has voltages as ranges", () => {
    expect((usb.nodes.get("reference.usb.usb2-voltage") as GivenNode).spread).toMatchObject({ kind: "range", low: 4.75, high: 5.25 });
  });
});
