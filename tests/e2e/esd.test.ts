/** The esd sheet as a whole: another design, what its decision and its givens turn, and its figures by other routes. */
import { describe, expect, it } from "vitest";
import { esd } from "../../lib/physics";
import { isFull } from "../full";
import { committedSheet } from "./any-sheet";
import { designText, freshRun } from "./run";

const { path, first, nominal, given, judge, keepsToTheDesign } = committedSheet("esd", "07-esd.ipynb");
const limits = (name: string) => first.evaluation.analysis(`givens.${name}`).worst ?? { low: given(name), high: given(name) };
const pin = (name: string) => `esd.clamp[${name}].I_pin`;

describe("the esd worksheet", () => {
  keepsToTheDesign();

  it("meets what it judges, as decided", () => {
    expect(first.verdicts).toEqual({ esd: "holds" });
  });

  it.each([
    ["the poor clamp with 2 Ω", "draft", "does not hold", "nor"],
    ["the poor clamp with 4.7 Ω", "poor", "does not hold", "but"],
    ["the poor clamp with 10 Ω", "poor-large", "holds", "and"],
    ["the good clamp with 2 Ω", "small", "does not hold", "but"],
    ["the good clamp with 3.9 Ω", "less", "does not hold", "but"],
    ["the good clamp with 4.7 Ω", "middle", "holds", "and"],
    ["the good clamp with 10 Ω", "large", "holds", "and"],
  ])("judges %s as its table shows", (_, name, verdict, typical) => {
    expect(judge(pin(name), "esd")).toBe(verdict);
    expect(nominal(pin(name)) < 2).toBe(typical !== "nor");
  });

  it("follows its decision, and would take 3.9 Ω if no choke fell below 40 nH", async () => {
    const less = designText().replace(/(?<= {2}esd:\n {4}clamp:\n {6}chosen: )middle/, "less");
    const saturated = (text: string) => less.replace("80 nH (30 to 150 nH)", `80 nH (${text} to 150 nH)`);
    expect((await freshRun(saturated("40"), path)).verdicts).toEqual({ esd: "holds" });
    if (!isFull) return;
    expect((await freshRun(saturated("35"), path)).verdicts).toEqual({ esd: "does not hold" });
    expect((await freshRun(less, path)).verdicts).toEqual({ esd: "does not hold" });
  });

  it("leaves less swing the larger the resistor: 4.7 Ω fit the assumed swing typically and not in the worst case, 3.9 Ω do", () => {
    const left = (name: string) => first.evaluation.analysis(`esd.clamp[${name}].V_l`);
    expect(left("middle").nominal).toBeGreaterThan(0.15);
    expect(left("middle").worst?.low).toBeLessThan(0);
    expect(left("less").worst?.low).toBeGreaterThan(0.02);
    expect(left("large").nominal).toBeLessThan(0);
  });
});

describe("the current into the pin", () => {
  // What the sheet's loop leaves out: capacitances of clamp and pin, loss of the choke
  const [C_cl, C_pin, R_p] = [15e-12, 5e-12, 1100];
  const whole = (clamp: "good" | "poor", R: number, more = {}) =>
    esd.contactDischarge.evaluate({
      U: given("discharge.voltage"),
      L_st: given("filter.clamp.inductance"),
      L: given("filter.ghz-choke.inductance"),
      L_sat: given("discharge.choke.saturated"),
      I_sat: given("discharge.choke.knee"),
      R_dc: given("filter.ghz-choke.direct"),
      V_br: given(`discharge.${clamp}.breakdown`),
      R_dyn: given(`discharge.${clamp}.dynamic`),
      V_f: given("discharge.pin.drop"),
      R_pin: given("discharge.pin.resistance"),
      V_rail: 0,
      R,
      ...{ C_cl, C_pin, R_p, ...more },
    });

  it.each([
    ["draft", "poor", "small"],
    ["less", "good", "less"],
    ["middle", "good", "middle"],
  ] as const)("of %s is that of the whole network, which ngspice is held against, within 1 %", (name, clamp, resistor) => {
    expect(nominal(pin(name)) / whole(clamp, given(`discharge.resistor.${resistor}`)).I_pin).toBeCloseTo(1, 2);
  });

  it("is in the worst case that of the whole network with every part at its bad end", () => {
    const worst = whole("good", limits("discharge.resistor.middle").low, {
      V_br: limits("discharge.good.breakdown").high,
      R_dyn: limits("discharge.good.dynamic").high,
      L: limits("filter.ghz-choke.inductance").low,
      L_sat: limits("discharge.choke.saturated").low,
      I_sat: limits("discharge.choke.knee").low,
      R_dc: limits("filter.ghz-choke.direct").low,
      V_f: limits("discharge.pin.drop").low,
      R_pin: limits("discharge.pin.resistance").low,
      L_st: limits("filter.clamp.inductance").low,
    });
    expect((first.evaluation.analysis(pin("middle")).worst?.high ?? Number.NaN) / worst.I_pin).toBeCloseTo(1, 2);
    expect(worst.I_pin).toBeLessThan(2);
  });

  it("is below what the hump would drive if it lasted, and above what a choke of its full inductance would let through", () => {
    expect(nominal(pin("middle"))).toBeLessThan(nominal("esd.I_s"));
    // V·t/L with 9.1 V for 30 ns across 0.9 µH
    expect(nominal(pin("middle"))).toBeGreaterThan((nominal("esd.V_c") * 30e-9) / given("filter.ghz-choke.inductance"));
  });
});

describe("the energies of the strike", () => {
  const wave = (t: number): number => esd.pulseCurrent.evaluate({ U: given("discharge.voltage"), t }).i;

  it("are in the clamp V·Q and R·∫I²dt of the standard's wave, less a little that the pin takes", () => {
    const h = 5e-11;
    let [Q, square] = [0, 0];
    for (let t = h / 2; t < 400e-9; t += h) {
      Q += wave(t) * h;
      square += wave(t) ** 2 * h;
    }
    const all = given("discharge.good.breakdown") * Q + given("discharge.good.dynamic") * square;
    expect(nominal("esd.E_cl_a")).toBeLessThan(all);
    expect(nominal("esd.E_cl_a")).toBeGreaterThan(0.9 * all);
  });

  it("are a thousandth of what the generator holds: C·U²/2", () => {
    expect(nominal("esd.E_0")).toBeCloseTo((150e-12 * 15e3 ** 2) / 2, 9);
    expect(nominal("esd.E_cl_a") / nominal("esd.E_0")).toBeLessThan(2e-3);
  });
});
