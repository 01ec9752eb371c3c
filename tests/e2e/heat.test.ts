/** The heat sheet as a whole: another design, what its decisions turn, and its figures by other routes. */
import { describe, expect, it } from "vitest";
import { airAt } from "../../lib/physics/thermal/air";
import { committedSheet } from "./any-sheet";

const { first, nominal, given, judge, keepsToTheDesign } = committedSheet("heat", "10-heat.ipynb");

describe("the heat worksheet", () => {
  keepsToTheDesign();

  it("keeps the hand's limit and the cell's, as decided", () => {
    expect(first.verdicts).toEqual({ touch: "holds", sun: "holds" });
  });

  it.each([
    ["black", "does not hold"],
    ["grey", "does not hold"],
    ["sand", "holds"],
    ["chrome", "does not hold"],
  ])("judges a case in %s in the sun: %s", (name, verdict) => {
    expect(judge(`heat.finish[${name}].T_c`, "sun")).toBe(verdict);
  });

  it.each([
    ["island", "does not hold"],
    ["one", "does not hold"],
    ["two", "does not hold"],
    ["pour", "holds"],
    ["heavy", "holds"],
  ])("judges the charger's heat spread by %s: %s", (name, verdict) => {
    expect(judge(`heat.spread[${name}].T_t`, "touch")).toBe(verdict);
  });

  it("finds the linear charger too warm on a jacket, even typically, and the typical planes not", () => {
    expect(nominal("heat.case[linear, clipped].T_w")).toBeGreaterThan(273.15 + 43);
    expect(nominal("heat.spread[two].T_t")).toBeLessThan(273.15 + 43);
  });
});

const sigma = 5.670374419e-8;
const T_a = given("charging.ambient");
const area = nominal("enclosure.A_o");

/**
 * Heat that the free share of the case sheds at T, by another law of another body: S. W. Churchill's ball of the same surface, Heat
 * Exchanger Design Handbook (1983), 2.5.7: Nu = 2 + 0.589·Ra^¼/(1 + (0.469/Pr)^(9/16))^(4/9) over the diameter; from memory.
 */
function shed(T: number, k: number, epsilon: number): number {
  const film = (T + T_a) / 2;
  const air = airAt(film);
  const D = Math.sqrt(area / Math.PI);
  const Ra = ((9.80665 * (T - T_a)) / film / air.nu ** 2) * air.Pr * D ** 3;
  const Nu = 2 + (0.589 * Ra ** 0.25) / (1 + (0.469 / air.Pr) ** (9 / 16)) ** (4 / 9);
  return k * area * (((Nu * air.k) / D) * (T - T_a) + epsilon * sigma * (T ** 4 - T_a ** 4));
}

function balanced(P: number, k: number, epsilon: number): number {
  let [low, high] = [T_a, T_a + 200];
  while (high - low > 1e-9) {
    const middle = (low + high) / 2;
    if (shed(middle, k, epsilon) < P) low = middle;
    else high = middle;
  }
  return low;
}

describe("figures of the heat worksheet by another route", () => {
  const k = given("heat.free");
  const epsilon = given("heat.finish.sand.emissivity");

  it("sheds what is made: convection and radiation of the free surface are the heat in the case", () => {
    const T = nominal("heat.finish.T_m");
    const radiated = epsilon * sigma * k * area * (T ** 4 - T_a ** 4);
    expect(nominal("heat.shade[clipped].P_r") / radiated).toBeCloseTo(1, 2);
    expect(nominal("heat.shade[clipped].P_c") + nominal("heat.shade[clipped].P_r")).toBeCloseTo(nominal("charging.charger.P"), 9);
  });

  it("is as warm as the balance of heat makes it with the law of a ball, within a twelfth of the rise", () => {
    for (const [P, share, T] of [
      [nominal("charging.charger.P"), k, nominal("heat.finish.T_m")],
      [
        nominal("charging.charger[linear].P"),
        k,
        nominal("heat.case[linear, clipped].T_b") - nominal("charging.charger[linear].P") * nominal("heat.R_i"),
      ],
      [
        nominal("charging.charger.P"),
        1,
        nominal("heat.case[switching, lying free].T_b") - nominal("charging.charger.P") * nominal("heat.R_i"),
      ],
    ] as const)
      expect(Math.abs((T - T_a) / (balanced(P, share, epsilon) - T_a) - 1), `${P} W on ${share}`).toBeLessThan(1 / 12);
  });

  it("absorbs in the sun what its colour leaves of 1 kW/m² on 58 mm by 36 mm", () => {
    const absorbed = given("heat.finish.black.absorptance") * 1000 * given("enclosure.length") * given("enclosure.width");
    expect(nominal("heat.finish[black].P_s")).toBeCloseTo(absorbed, 9);
  });

  it("spreads the charger's heat in two planes as the heat equation of a thin round sheet says", () => {
    // A source a of even heat in a sheet b that sheds evenly: (ln(b/a) + 1/2 − 3/4 + (a/b)²/4)/(2·π·k·t), centre over mean
    const [a, b] = [Math.sqrt(given("heat.source.footprint") / Math.PI), Math.sqrt(nominal("heat.A_b") / Math.PI)];
    const sheet = 2 * Math.PI * nominal("reference.copper.conductivity") * 2 * given("board.inner");
    const exact = (Math.log(b / a) - 0.25 + (a / b) ** 2 / 4) / sheet;
    expect(Math.abs(nominal("heat.plate[in two planes].R_max") / exact - 1)).toBeLessThan(0.05);
  });

  it("balances the power at full output: rails, both ears and the rest are what the cell gives", () => {
    const [P_a, P_o] = [nominal("heat.P_a"), given("listening.full")];
    expect(2 * (P_a + P_o) + nominal("heat.P_k")).toBeCloseTo(nominal("battery.converter.full.P"), 9);
    // Mean over a sine of what the conducting device of ±V_s drops, and the quiescent current
    const [V_s, R, I_q] = [given("rails.positive.voltage"), given("headphones.impedance"), nominal("battery.amplifier.I_q")];
    const V_p = Math.sqrt(2 * P_o * R);
    let sum = 0;
    const steps = 100_000;
    for (let n = 0; n < steps; n++) {
      const v = V_p * Math.sin((Math.PI * (n + 0.5)) / steps);
      sum += ((V_s - v) * v) / R / steps;
    }
    expect(P_a).toBeCloseTo(sum + 2 * V_s * I_q, 6);
  });

  it("warms as steps of a second with the ball's law do, within half a kelvin: constant resistance is no bad course", () => {
    const P = nominal("charging.charger.P");
    const [C_i, C_s, R_i] = [nominal("heat.C_i"), nominal("heat.C_s"), nominal("heat.R_i")];
    let [T_i, T_s] = [T_a, T_a];
    for (let t = 0; t < given("heat.watched"); t++) {
      const through = (T_i - T_s) / R_i;
      T_i += (P - through) / C_i;
      T_s += (through - (T_s > T_a ? shed(T_s, k, epsilon) : 0)) / C_s;
    }
    expect(Math.abs(T_i - nominal("heat.course[switching].T_i_course"))).toBeLessThan(0.5);
  });
});
