import { describe, expect, it } from "vitest";
import type { AnyFormula } from "../../../lib/formula/formula";
import { board, hearing, thermal } from "../../../lib/physics";
import { unitOf } from "../../../lib/units";
import { law, reference, si } from "../check-rows";

const subjects = { board, hearing, thermal };
const laws: readonly [string, AnyFormula][] = Object.entries(subjects).flatMap(([subject, all]) =>
  Object.entries(all).flatMap(([name, one]): [string, AnyFormula][] => ("expression" in one ? [[`${subject}.${name}`, one]] : [])),
);
const copper = reference("copper");
const mu_0 = 1.25663706127e-6;
const of = { rho: copper.value("resistivity"), alpha: copper.value("temperature-coefficient"), T_0: copper.value("reference-temperature") };
const mil2 = (x: number): number => unitOf("mil²").toSI(x);
const mm = 1e-3;
const um = 1e-6;

describe("laws of boards, heat and hearing", () => {
  it.each(laws)("%s parses, fits its dimensions and states meaning, source and limits", (_name, one) => {
    expect(one.expression).toBeTypeOf("object");
    expect(one.meaning.length).toBeGreaterThan(20);
    expect(one.source).not.toBe("");
    expect(one.valid.every(({ low, high }) => low < high)).toBe(true);
  });
});

describe("the current charts", () => {
  it.each([
    ["external", board.externalTraceCurrent, board.externalTraceArea, board.externalTraceRise],
    ["internal", board.internalTraceCurrent, board.internalTraceArea, board.internalTraceRise],
  ] as const)("of %s traces are turned round by area and rise", (_, current, area, rise) => {
    for (const dT of [10, 20, 45, 100])
      for (const A of [10, 50, 400].map(mil2)) {
        const I = law(current, { dT, A });
        expect(law(area, { I, dT }) / A).toBeCloseTo(1, 9);
        expect(law(rise, { I, A }) / dT).toBeCloseTo(1, 9);
      }
  });

  it("give half the current inside", () => {
    const at = { dT: 20, A: mil2(100) };
    expect(law(board.internalTraceCurrent, at) / law(board.externalTraceCurrent, at)).toBeCloseTo(0.5, 12);
  });

  it("warm a 0.3 mm trace of 35 µm by some 10 K at 1 A, as every designer knows", () => {
    const A = law(board.traceArea, { w: 0.3 * mm, t: 35 * um });
    expect(law(board.externalTraceRise, { I: 1, A })).toBeCloseTo(10, 0);
    expect(law(board.traceWidth, { A, t: 35 * um })).toBeCloseTo(0.3 * mm, 12);
  });

  it("say where they end", () => {
    expect(board.externalTraceArea.valid).toEqual([
      { symbol: "I", low: 0, high: 35, text: "0 A to 35 A" },
      { symbol: "dT", low: 10, high: 100, text: "10 K to 100 K" },
    ]);
  });
});

describe("copper", () => {
  it("of 1 oz/ft² is as thick as its standard says", () => {
    const t = law(board.copperThickness, { m: unitOf("oz/ft²").toSI(1), rho_d: copper.value("density") });
    expect(Math.abs(t / copper.value("foil-one-ounce") - 1)).toBeLessThan(0.003);
    expect(copper.value("foil-two-ounce") / copper.value("foil-half-ounce")).toBeCloseTo(4, 1);
  });

  it("has half a milliohm per square at 35 µm, and a trace is its squares", () => {
    const at = { ...of, t: 35 * um, T: si("20 °C") };
    const R_sq = law(board.sheetResistance, at);
    expect(R_sq).toBeCloseTo(0.4926e-3, 7);
    expect(law(board.traceResistance, { ...at, l: 50 * mm, w: 0.2 * mm }) / (250 * R_sq)).toBeCloseTo(1, 12);
  });

  it("rises by 3.93 % for ten kelvin, and falls below the reference in the cold", () => {
    const at = (T: string): number => law(board.sheetResistance, { ...of, t: 35 * um, T: si(T) });
    expect(at("30 °C") / at("20 °C")).toBeCloseTo(1.0393, 9);
    expect(at("0 °C")).toBeLessThan(at("20 °C"));
  });

  it("in a via's barrel is a thin tube: the ring of the cut, for any plating", () => {
    const [D, h] = [0.3 * mm, 1 * mm];
    for (const t of [20, 25, 40].map((x) => x * um)) {
      const ring = (Math.PI / 4) * (D ** 2 - (D - 2 * t) ** 2);
      const R = law(board.viaResistance, { ...of, h, D, t, T: of.T_0 });
      expect(R / ((of.rho * h) / ring)).toBeCloseTo(1, 12);
      expect(law(board.viaThermalResistance, { h, k: 390, D, t }) / (h / (390 * ring))).toBeCloseTo(1, 12);
    }
    expect(law(board.parallelVias, { R: 1.2e-3, n: 4 })).toBeCloseTo(0.3e-3, 12);
  });
});

describe("inductances", () => {
  it("of a straight trace are Grover's tape: ten millimetres of 0.3 mm make 8.5 nH", () => {
    const L = law(board.traceInductance, { mu_0, l: 10 * mm, w: 0.3 * mm, t: 35 * um });
    // Terman's form with numbers: 0.002·l·(ln(2l/(w + t)) + 0.5 + 0.2235·(w + t)/l) µH, l in cm
    expect(L * 1e9).toBeCloseTo(2 * (Math.log(20 / 0.335) + 0.5 + (0.2235 * 0.335) / 10), 3);
    expect(L * 1e9).toBeGreaterThan(6);
    expect(L * 1e9).toBeLessThan(10);
  });

  it("of a trace's mean distances agree with the double integral over its length", () => {
    const [l, w] = [10 * mm, 0.3 * mm];
    // Neumann's integral of a tape by its geometric mean distance, w·e^(−3/2)
    const g = w * Math.exp(-1.5);
    const neumann = ((mu_0 * l) / (2 * Math.PI)) * (Math.log(l / g + Math.sqrt(1 + (l / g) ** 2)) - Math.sqrt(1 + (g / l) ** 2) + g / l);
    expect(Math.abs(law(board.traceInductance, { mu_0, l, w, t: 0 }) / neumann - 1)).toBeLessThan(0.01);
  });

  it("of a via with its return beside it are less than alone, and fall as they close up", () => {
    const pair = (s: number): number => law(board.viaPairInductance, { mu_0, h: 1 * mm, s: s * mm, d: 0.3 * mm });
    const alone = law(board.viaInductance, { mu_0, h: 1 * mm, d: 0.3 * mm });
    expect(pair(1)).toBeGreaterThan(pair(0.5));
    expect(pair(0.5)).toBeLessThan(alone);
    expect(pair(0.3)).toBeCloseTo(0, 15);
    // Far apart the logarithm of a two-wire line
    expect(pair(3) / (((mu_0 * 1 * mm) / Math.PI) * Math.log((2 * 3) / 0.3))).toBeCloseTo(1, 2);
  });

  it("take over from resistance in the return at tens of kilohertz", () => {
    expect(law(board.resistiveCorner, { R: 2e-3, L: 10e-9 })).toBeCloseTo(31.8e3, -2);
  });
});
