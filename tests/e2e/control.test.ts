/** The control sheet as a whole: another design, what its decisions turn, and its figures by other routes. */
import { describe, expect, it } from "vitest";
import { ngspicePresent, ngspiceRows } from "../physics/ngspice";
import { committedSheet } from "./any-sheet";
import { design } from "./battery-by-steps";
import { designText } from "./run";

const { first, nominal, given, judge, keepsToTheDesign } = committedSheet("control", "11-control.ipynb");
/** The node of an alternative's result, by the name under which its cell hands it on. */
const result = (decision: string, alternative: string, name: string): string => {
  const block = first.displays.flatMap(({ block }) => (block.type === "decision" && block.name === decision ? [block] : []))[0];
  const id = block?.alternatives.find((one) => one.name === alternative)?.values[name];
  if (id === undefined) throw new Error(`the sheet has no ${decision}[${alternative}].${name}`);
  return id;
};
const judged = (decision: string, name: string, requirements: Readonly<Record<string, string>>): string[] =>
  Object.entries(requirements).map(([key, requirement]) => judge(result(decision, name, key), requirement));
const [misses, holds, most] = ["does not hold", "holds", "holds for 95 %"];

describe("the control worksheet", () => {
  keepsToTheDesign();

  it("meets all that it is asked, as decided", () => {
    expect(first.verdicts).toEqual({
      shelf: most,
      "shelf-air": most,
      patience: holds,
      forgotten: holds,
      restart: holds,
      "brown-out": holds,
      locked: holds,
      warning: holds,
      "warning-early": holds,
    });
  });

  it.each([
    ["short", [misses, holds]],
    ["middle", [holds, holds]],
    ["long", [holds, misses]],
    ["never", [holds, misses]],
  ])("judges the %s silence by patience and by what is lost when it is forgotten", (name, verdicts) => {
    expect(judged("auto-off", name, { t_s: "patience", x_f: "forgotten" })).toEqual(verdicts);
  });

  it.each([
    ["watched", [most, misses, holds]],
    ["slide", [most, most, misses]],
    ["shipped", [most, misses, holds]],
    ["load-switch", [most, misses, holds]],
    ["counted", [most, most, holds]],
  ])("judges being off by %s: from 40 %%, from 30 %%, forgotten", (name, verdicts) => {
    expect(judged("off", name, { t_s: "shelf", t_o: "shelf-air", x: "forgotten" })).toEqual(verdicts);
  });

  it.each([
    ["narrow", [misses, misses, holds]],
    ["middle", [misses, misses, holds]],
    ["wide", [holds, misses, misses]],
    ["quiet", [holds, holds, holds]],
  ])("judges start and stop %s: rebound, brown-out, charge that cannot start", (name, verdicts) => {
    expect(judged("cut-off", name, { M_r: "restart", M_b: "brown-out", s_l: "locked" })).toEqual(verdicts);
  });

  it.each([
    ["low", [misses, holds]],
    ["middle", [holds, holds]],
    ["high", [holds, misses]],
  ])("judges the %s amber threshold: what is left to an aged cell, and to a new one", (name, verdicts) => {
    expect(judged("warning", name, { t_a: "warning", s_n: "warning-early" })).toEqual(verdicts);
  });

  it("confirms the cut-off that the battery sheet assumes", () => {
    const confirmation = first.displays.find(({ block }) => block.type === "confirmation");
    expect(confirmation?.block).toMatchObject({ of: "battery.cut-off", assumed: "givens.battery.cut-off" });
  });

  it("shows the states in the order of the design file, each with its current", () => {
    const drawn = first.displays.flatMap(({ block }) => (block.type === "drawing" ? [block] : []))[0];
    const { table } = design(designText()).states("control");
    expect(drawn?.states?.rows.map(({ state }) => state)).toEqual(Object.keys(table.next));
    expect(drawn?.states?.events.map(({ event }) => event)).toEqual(Object.keys(table.events));
    expect(Object.keys(drawn?.arguments ?? {}).toSorted()).toEqual(Object.keys(table.next).toSorted());
  });
});

describe("figures of the control worksheet by another route", () => {
  const month = 30.4375 * 86_400;
  const rows = first.displays.flatMap(({ nodes }) => nodes).find(({ id }) => id === "reference.cells.lithium-polymer");
  const { x, y } = rows as unknown as { x: readonly number[]; y: readonly number[] };
  const ocv = (s: number): number => {
    const i = Math.max(0, Math.min(x.length - 2, x.findIndex((at) => at > s) < 0 ? x.length - 2 : x.findIndex((at) => at > s) - 1));
    const [x0, x1, y0, y1] = [x[i] as number, x[i + 1] as number, y[i] as number, y[i + 1] as number];
    return y0 + ((y1 - y0) * (s - x0)) / (x1 - x0);
  };
  const [Q, k] = [nominal("battery.cell.Q"), given("control.self-discharge")];

  /** Hours in a drawer, one after the other; `loss` gives the share that the cell loses by itself in a second. */
  const inDrawer = (s_0: number, I: number, loss: (s: number) => number): number => {
    let [t, s] = [0, s_0];
    for (; s > given("control.empty"); t += 3600) s -= (I / Q + loss(s)) * 3600;
    return t;
  };

  it.each([
    ["watched", "control.off.watched"],
    ["counted", "control.off.switched"],
  ])("has the time in a drawer that hour by hour gives, %s", (name, current) => {
    const own = nominal(result("off", name, "t_o")) / inDrawer(given("control.counted"), given(current), () => k);
    expect(own).toBeCloseTo(1, 3);
    expect(nominal(result("off", name, "t_o"))).toBeLessThan(inDrawer(given("control.counted"), given(current), (s) => k * s));
  });

  it("has the longer time of the other law hour by hour", () => {
    expect(nominal("control.t_x") / inDrawer(given("control.counted"), given("control.off.switched"), (s) => k * s)).toBeCloseTo(1, 3);
    expect(nominal("control.t_x") / month).toBeGreaterThan(60);
  });

  const [R_o, R_d, tau] = [nominal("battery.R_oA"), nominal("battery.R_dA"), given("battery.slowness")];

  /** Starts in three hours after the first cut-off, of a cell with its slow branch, a comparator and a load that it switches; steps of 0.1 s. */
  const starts = (name: string): number => {
    const [V_f, V_r, P] = ["V_f", "V_r", "P"].map((key) => nominal(result("cut-off", name, key))) as [number, number, number];
    let [s, v, isOn, count] = [0, (P / V_f) * R_d, false, 0];
    while (ocv(s) < V_f + (P / V_f) * (R_o + R_d)) s += 1e-6;
    for (let t = 0; t < 3 * 3600 && s > 0; t += 0.1) {
      const room = ocv(s) - v;
      const I = isOn ? (room - Math.sqrt(room * room - 4 * R_o * P)) / (2 * R_o) : 0;
      const V = room - I * R_o;
      if (!isOn && V > V_r) count++;
      isOn = isOn ? V > V_f : V > V_r;
      v += ((I * R_d - v) * 0.1) / tau;
      s -= (I * 0.1) / nominal("control.Q_a");
    }
    return count;
  };

  it("starts by itself where the rebound is more than the distance, again and again where it is much more, and never where it is less", () => {
    expect(starts("narrow")).toBeGreaterThan(100);
    expect(starts("middle")).toBeGreaterThan(0);
    expect(starts("wide")).toBe(0);
    expect(starts("quiet")).toBe(0);
  });

  it.skipIf(!ngspicePresent && process.env.CI !== "true")(
    "has the thresholds that ngspice finds with a comparator in the same network",
    () => {
      const chosen = (name: string) => nominal(`control.cut-off[quiet].${name}`);
      const [R_h, R_2] = [chosen("R_h.set.E24"), chosen("R_2.set.E24")];
      const [V_ref, high, R_1] = [given("control.comparator.bandgap"), given("rails.logic.voltage"), given("control.comparator.upper")];
      const table = ngspiceRows(`comparator with hysteresis
V1 in 0 PWL(0 4 1 2.8 2 4)
R1 in x ${R_1}
R2 x 0 ${R_2}
Rh x out ${R_h}
B1 raw 0 V=${high}*(0.5+0.5*tanh(1e5*(V(x)-${V_ref})))
Rf raw out 1
Cf out 0 1u
.ic v(out)=${high}
.tran 20u 2 0 20u
.print tran v(in) v(out)
.end
`);
      const crossed = (falls: boolean): number => {
        const at = table.findIndex(([t = 0, , out = 0]) => t > (falls ? 0.01 : 1) && (falls ? out < high / 2 : out > high / 2));
        return (table[at] as number[])[1] as number;
      };
      expect(crossed(true)).toBeCloseTo(chosen("V_f"), 3);
      expect(crossed(false)).toBeCloseTo(chosen("V_r"), 3);
    },
  );

  it("leaves the play after amber that steps of a second at constant power give", () => {
    const [P, R, V_f] = [nominal("battery.converter.P"), R_o + R_d, nominal(result("cut-off", "quiet", "V_f"))];
    const Q_a = nominal("control.Q_a");
    const V_a = given("control.warning.middle") + (P / given("control.warning.middle")) * R;
    let [s, t] = [1, 0];
    while (ocv(s) > V_a) s -= 1e-6;
    for (; ; t++) {
      const I = (ocv(s) - Math.sqrt(ocv(s) ** 2 - 4 * R * P)) / (2 * R);
      if (ocv(s) - I * R <= V_f) break;
      s -= I / Q_a;
    }
    expect(nominal(result("warning", "middle", "t_a")) / t).toBeCloseTo(1, 2);
  });
});
