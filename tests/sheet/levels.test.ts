/** Levels in the formulas of a sheet, whatever way they came in. Expected decibels are sums of the givens' decibels. */
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { readDesign } from "../../lib/design/read";
import { Session } from "../../lib/sheet/session";
import { Worksheet } from "../../lib/sheet/worksheet";
import { dB, dB_power, dB_SPL, dBi, dBm, metre, mW, one, type Unit } from "../../lib/units";

const design = readDesign(
  `
product: { name: Link, revision: "1" }
sources: { own: { type: document, title: Made up for this test } }
givens:
  loss: { value: 40 dB, meaning: loss at one metre, source: own }
  fading: { value: 8.6 dB, meaning: margin for fading, source: own }
  exponent: { value: "4", meaning: exponent of distance, source: own }
  distance: { value: 100 m, meaning: distance, source: own }
  near: { value: 1 m, meaning: reference distance, source: own }
  transmitter: { value: 14 dBm, meaning: power sent, source: own }
  aerial: { value: 3 dBi, meaning: gain of the aerial, source: own }
  chip: { value: 0 dBi, meaning: gain of the chip aerial, source: own }
  figure: { value: 6 dB ±1 dB, meaning: noise figure, source: own }
  gain: { value: 6 dB, meaning: gain, source: own }
  left: { value: 60 dB SPL, meaning: sound of the left source, source: own }
  right: { value: 54 dB SPL, meaning: sound of the right source, source: own }
`,
  "design.yaml",
);

const sinkKey = Symbol.for("workings.display");
const shared = globalThis as Record<symbol, unknown>;
let outputs: Record<string, unknown>[];

beforeEach(() => {
  outputs = [];
  shared[sinkKey] = ({ data }: { data: Record<string, unknown> }) => outputs.push(data);
});
afterEach(() => {
  delete shared[sinkKey];
});

const sheet = () => new Worksheet(new Session("link", design), ".");
/** Text that the compiler does not read, so that the run time decides. */
const text = (law: string): string => law;
const anyUnit = (unit: Unit<any>): Unit<any> => unit;

const path = {
  L_0: ["loss", dB_power],
  X: ["fading", dB_power],
  n: ["exponent", one],
  d: ["distance", metre],
  d_0: ["near", metre],
} as const;

describe("a law with levels", () => {
  it("multiplies where their decibels add", () => {
    const s = sheet();
    const L = s.derive("L = L_0*(d/d_0)^n*X", s.given(path), dB_power, "path loss");
    expect(L.in(dB_power)).toBeCloseTo(40 + 10 * 4 * Math.log10(100) + 8.6, 9);
  });

  it.each([
    ["L = L_0 + 10*n*log10(d/d_0) + X", "cannot add L_0 and 10*n*log10(d/d_0), a level and a logarithm"],
    ["L = L_0 + X", "cannot add L_0 and X, both levels"],
    ["L = 10*n*log10(d/d_0)", "10*n*log10(d/d_0) is a logarithm; a result in decibels is the ratio itself"],
  ])("is refused at run time where it adds decibels: %s", (law, sentence) => {
    const s = sheet();
    expect(() => s.derive(text(law), s.given(path), dB_power, "path loss")).toThrow(sentence);
  });

  it("adds powers by name, of powers and of field quantities", () => {
    const s = sheet();
    const g = s.given({ L_1: ["left", dB_SPL], L_2: ["right", dB_SPL], P_1: ["transmitter", dBm], P_2: ["transmitter", dBm] });
    const L = s.derive("L = powersum(L_1, L_2)", g, dB_SPL, "both sources");
    expect(L.in(dB_SPL)).toBeCloseTo(10 * Math.log10(10 ** 6 + 10 ** 5.4), 9);
    const P = s.derive("P = powersum(P_1, P_2)", g, dBm, "both transmitters");
    expect(P.in(dBm)).toBeCloseTo(14 + 10 * Math.log10(2), 9);
    expect(outputs.map((data) => data["text/plain"]).join("\n")).toContain("P_1 + P_2");
  });

  it("knows levels that a unit of any type, a part, another law or as() stated", () => {
    const s = sheet();
    const { G } = s.given({ G: ["aerial", anyUnit(dBi)] });
    const H = s.part("second", "chip", dBi);
    const product = s.derive("K = G*H", { G, H }, dB_power, "both aerials");
    expect(product.in(dB_power)).toBeCloseTo(3, 9);
    for (const args of [
      { a: G, b: H },
      { a: H, b: product },
      { a: G.mul(1).as(dB_power), b: H },
    ])
      expect(() => s.derive(text("c = a + b"), args, dB_power, "sum")).toThrow("cannot add a and b, both levels");
  });

  it("counts a level taken in a linear unit as what it is", () => {
    const s = sheet();
    const g = s.given({ P_1: ["transmitter", mW], P_2: ["transmitter", mW] });
    expect(s.derive("P = P_1 + P_2", g, mW, "sum").in(mW)).toBeCloseTo(2 * 10 ** 1.4, 9);
  });

  it("reads 6 dB as the unit asks: a gain of voltages or a ratio of powers", () => {
    const s = sheet();
    const g = s.given({ F: ["figure", dB_power], G: ["gain", dB] });
    expect(s.derive("f = F*1", g, one, "noise factor").in(one)).toBeCloseTo(10 ** 0.6, 9);
    expect(s.part("other", "figure", dB_power).mul(1).in(one)).toBeCloseTo(10 ** 0.6, 9);
    expect(outputs.map((data) => data["text/plain"]).join("\n")).toContain("6 dB ±1 dB");
    expect(s.derive("g = G*1", g, one, "gain").in(one)).toBeCloseTo(10 ** 0.3, 9);
  });
});

describe("outside a formula text", () => {
  it("plus and minus refuse two levels, and take them in linear units", () => {
    expect(() => dB(6).plus(dB(6))).toThrow("cannot add levels (dB and dB): decibels add where the quantities multiply, a.mul(b)");
    expect(() => dBm(3).minus(dBm(0))).toThrow("cannot subtract levels (dBm and dBm)");
    expect(dBm(0).as(mW).plus(dBm(0)).in(mW)).toBeCloseTo(2, 12);
  });

  it("a roll-up refuses levels", () => {
    const s = sheet();
    const { G } = s.given({ G: ["aerial", dBi] });
    expect(() => s.contribute("gain", { G })).toThrow("G is in dBi: a roll-up adds, and levels multiply");
  });
});
