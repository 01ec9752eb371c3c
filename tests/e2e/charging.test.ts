/** The charging sheet as a whole: another design, what its decisions turn, and its figures by other routes. */
import { describe, expect, it } from "vitest";
import { committedSheet } from "./any-sheet";

const { first, nominal, given, judge, keepsToTheDesign } = committedSheet("charging", "08-charging.ipynb");

describe("the charging worksheet", () => {
  keepsToTheDesign();

  it("misses the time and holds what guards the cell and the source, as decided", () => {
    expect(first.verdicts).toEqual({ charge: "does not hold", source: "holds", plating: "holds" });
  });

  it.each([
    ["lowest", "holds"],
    ["low", "holds"],
    ["high", "does not hold"],
    ["highest", "does not hold"],
  ])("judges the %s current: plating %s, the time of the cold cell missed", (name, plating) => {
    expect(judge(`charging.current[${name}].p`, "plating")).toBe(plating);
    expect(judge(`charging.current[${name}].t`, "charge")).toBe("does not hold");
  });

  it("keeps the case touchable with the switching charger only, and the source with the highest current not", () => {
    expect(["bare", "linear", "switching"].map((name) => judge(`charging.charger[${name}].T_t`, "touch"))).toEqual([
      "does not hold",
      "does not hold",
      "holds",
    ]);
    expect(judge("charging.I_f", "source")).toBe("does not hold");
  });
});

describe("figures of the charging worksheet by another route", () => {
  /** Explicit steps of a tenth of a second through table, resistance and branch. */
  const byStep = (R: number, R_d: number, tau: number): number => {
    const rows = first.displays.flatMap(({ nodes }) => nodes).find(({ id }) => id === "reference.cells.lithium-polymer");
    const { x, y } = rows as unknown as { x: readonly number[]; y: readonly number[] };
    const ocv = (s: number): number => {
      const i = Math.max(0, Math.min(x.length - 2, x.findIndex((at) => at > s) < 0 ? x.length - 2 : x.findIndex((at) => at > s) - 1));
      const [x0, x1, y0, y1] = [x[i] as number, x[i + 1] as number, y[i] as number, y[i + 1] as number];
      return y0 + ((y1 - y0) * (s - x0)) / (x1 - x0);
    };
    const [Q, I_set, V, I_end] = [
      nominal("battery.cell.Q"),
      nominal("charging.current.I"),
      given("charging.voltage"),
      given("charging.stop"),
    ];
    let [t, s, v] = [0, 0, 0];
    for (const dt = 0.1; t < 36_000; t += dt) {
      const I = Math.min(I_set, (V - ocv(s) - v) / R);
      if (I <= I_end) break;
      s += (I * dt) / Q;
      if (R_d > 0) v += ((I * R_d - v) * dt) / tau;
    }
    return t;
  };
  const [R, R_d] = [nominal("charging.R_c"), nominal("charging.R_dc")];

  it("has the charging time that steps of a tenth of a second give, with the branch, with a lump and without", () => {
    expect(nominal("charging.model[slow branch].t") / byStep(R, R_d, given("battery.slowness"))).toBeCloseTo(1, 3);
    expect(nominal("charging.model[one lump].t") / byStep(R + R_d, 0, 1)).toBeCloseTo(1, 3);
    expect(nominal("charging.model[ohmic alone].t") / byStep(R, 0, 1)).toBeCloseTo(1, 3);
  });

  it("takes longer than the charge over the current, and no longer than if every ampere-hour after the constant current took a time constant", () => {
    expect(nominal("charging.current.t")).toBeGreaterThan((0.95 * nominal("battery.cell.Q")) / nominal("charging.current.I"));
    expect(nominal("charging.current.t")).toBeLessThan((1.5 * nominal("battery.cell.Q")) / nominal("charging.current.I"));
  });

  it("draws from the source what cell and product take, over the charger's efficiency: a balance of power", () => {
    const [V, I, P, eta, V_in] = [
      given("charging.voltage"),
      nominal("charging.current.I"),
      nominal("battery.converter.full.P"),
      given("charging.switching.efficiency"),
      given("charging.source.voltage"),
    ];
    expect(nominal("charging.charger.I_s") * V_in * eta).toBeCloseTo(V * I + P, 9);
    expect(nominal("charging.P_sw")).toBeCloseTo((V * I) / eta - V * I, 9);
  });

  it("has its thresholds where the thermistor's own law puts the divider at the comparator's share", () => {
    const [R_0, B, T_0] = ["resistance", "constant", "rated"].map((name) => given(`charging.thermistor.${name}`)) as [
      number,
      number,
      number,
    ];
    const [R_s, R_p] = [nominal("charging.divider[comparator].R_s.set.E96"), nominal("charging.divider[comparator].R_p.set.E96")];
    const share = (T: number): number => {
      const R_t = R_0 * Math.exp(B * (1 / T - 1 / T_0));
      const low = (R_t * R_p) / (R_t + R_p);
      return low / (low + R_s);
    };
    expect(share(nominal("charging.T_1"))).toBeCloseTo(given("charging.window.cold-share"), 9);
  });
});
