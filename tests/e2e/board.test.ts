/** The board sheet as a whole: another design, what its decisions turn, and its figures by other routes. */
import { describe, expect, it } from "vitest";
import { committedSheet } from "./any-sheet";

const { first, nominal, given, judge, keepsToTheDesign } = committedSheet("board", "06-board.ipynb");
const dB = (ratio: number): number => 20 * Math.log10(ratio);

describe("the board worksheet", () => {
  keepsToTheDesign();

  it("meets what it judges, as decided", () => {
    expect(first.verdicts).toEqual({ emit: "holds for 95 %", "run-new": "holds for 95 %", damping: "holds" });
  });

  it.each([
    ["the bare board", "bare", "M_e", "emit", "does not hold"],
    ["the layout alone", "layout", "M_e", "emit", "does not hold"],
    ["slower edges", "slower", "M_e", "emit", "does not hold"],
    ["the choke", "choke", "M_e", "emit", "does not hold"],
    ["the shield alone", "shield", "M_e", "emit", "does not hold"],
    ["layout and slowest edges", "layout-edges", "M_e", "emit", "does not hold"],
  ])("judges the emission with %s as its table shows", (_, name, symbol, requirement, verdict) => {
    expect(judge(`board.emission[${name}].${symbol}`, requirement)).toBe(verdict);
  });

  it("finds that slower edges cost the hours, and the choke's windings the damping", () => {
    expect(judge("board.edge[slower].t_k", "run-new")).toBe("does not hold");
    expect(judge("board.edge[slowest].t_k", "run-new")).toBe("does not hold");
    expect(judge("board.lead[choke].D_k", "damping")).toBe("does not hold");
    expect(judge("board.return[near].U", "residue-audio")).toBe("does not hold");
  });
});

describe("the emission of the bare board", () => {
  /** Rms of harmonic k of a trapezoid of the height V, duty D between the middles of its edges, by its sampled wave. */
  const harmonic = (V: number, D: number, t_r: number, f_0: number, k: number): number => {
    const n = 1 << 13;
    const wave = (t: number) => V * Math.max(0, Math.min(1, t / t_r, (D / f_0 + t_r - t) / t_r));
    let [a, b] = [0, 0];
    for (let i = 0; i < n; i++) {
      const x = wave(i / n / f_0);
      a += x * Math.cos((2 * Math.PI * k * i) / n);
      b += x * Math.sin((2 * Math.PI * k * i) / n);
    }
    return (Math.SQRT2 * Math.hypot(a, b)) / n;
  };

  it("is within 1.5 dB that of both nodes' sampled waves, harmonic by harmonic, on a short or a half-wave dipole over its image", () => {
    const [V_p, V_c, f_0, t_r] = [
      given("rails.positive.voltage"),
      given("emission.cell"),
      given("emission.rate"),
      given("emission.edge.present"),
    ];
    const [C, L, d, c] = [given("emission.coupling.present"), given("emission.lead.headphone"), given("emission.distance"), 299792458];
    const margins = Array.from({ length: 120 }, (_, i) => i + 20).map((k) => {
      const f = k * f_0;
      const V = Math.hypot(harmonic(V_c + V_p, V_p / (V_c + V_p), t_r, f_0, k), harmonic(V_p, 1 - V_c / V_p, t_r, f_0, k));
      const I = 2 * Math.PI * f * C * V;
      // Half-wave dipole 60 Ω·I/d, short one with even current 60 Ω·π·I·L/(λ·d); the image doubles either
      const E = (2 * 60 * I * Math.min(1, (Math.PI * L * f) / c)) / d;
      return f < 30e6 ? Number.POSITIVE_INFINITY : dB(1e-4 / E);
    });
    const least = Math.min(...margins);
    expect(least - dB(nominal("board.bare[headphone].M"))).toBeGreaterThan(-0.1);
    expect(least - dB(nominal("board.bare[headphone].M"))).toBeLessThan(1.5);
  });

  it("is that of the chain of laws at the lead's half wave, to a tenth of a decibel", () => {
    expect(dB(nominal("board.E_c") / nominal("board.bare[headphone].E"))).toBeCloseTo(0, 1);
  });

  it("moves by the decibels of what each remedy changes", () => {
    const gain = (name: string) => dB(nominal(`board.emission[${name}].M_e`) / nominal("board.emission[bare].M_e"));
    expect(gain("layout")).toBeCloseTo(dB(0.05 / 0.02), 3);
    expect(gain("shield")).toBeCloseTo(20, 3);
    expect(gain("both")).toBeCloseTo(20 + dB(2.5), 3);
    // Both corners lie below the lead's half wave, where the field goes with 1/t_r
    expect(gain("slower")).toBeCloseTo(dB(2), 2);
  });
});

describe("the returns of the board", () => {
  /** Voltages of a sheet of 1 Ω per square, cut into squares of 1 mm, 1 A from one place to another: successive over-relaxation. */
  const sheet = ([a, b]: readonly [number, number], from: readonly [number, number], to: readonly [number, number]) => {
    const index = (x: number, y: number) => Math.floor(y) * a + Math.floor(x);
    const v = new Float64Array(a * b);
    const source = new Float64Array(a * b);
    source[index(...from)] = 1;
    source[index(...to)] = -1;
    for (let sweep = 0; sweep < 4000; sweep++) {
      for (let y = 0; y < b; y++) {
        for (let x = 0; x < a; x++) {
          const k = y * a + x;
          const next = [x > 0 ? k - 1 : -1, x + 1 < a ? k + 1 : -1, y > 0 ? k - a : -1, y + 1 < b ? k + a : -1].filter((i) => i >= 0);
          const mean = (next.reduce((sum, i) => sum + (v[i] as number), 0) + (source[k] as number)) / next.length;
          v[k] = (v[k] as number) + 1.9 * (mean - (v[k] as number));
        }
      }
    }
    return (x: number, y: number): number => v[index(x, y)] as number;
  };
  const place = (name: string) => [given(`board.place.${name}.along`) * 1e3, given(`board.place.${name}.across`) * 1e3] as const;

  it.each([
    ["near", 0.05],
    ["far", 0.15],
  ])("put on the amplifier's ground what a grid of squares has, with the converter %s", (name, within) => {
    const sides = [Math.round(given("board.plane.length") * 1e3), Math.round(given("board.plane.width") * 1e3)] as const;
    const at = sheet(sides, place(name === "near" ? "near" : "converter"), place("cell"));
    const R_c = Math.abs(at(...place("input")) - at(...place("amplifier"))) * nominal("board.R_sq");
    const U = given("amplifier.gain") * given("board.pulses") * R_c;
    expect(Math.abs(Math.abs(nominal(`board.return[${name}].U`)) / U - 1)).toBeLessThan(within as number);
  });

  it("leave the damping that the resistances add up to", () => {
    const [Z, choke, contact] = [given("headphones.impedance"), given("filter.ghz-choke.direct"), given("filter.contact")];
    // 14 mm of 0.3 mm by 35 µm at 35 °C
    const trace = ((1.7241e-8 * 14e-3) / (0.3e-3 * 35e-6)) * (1 + 3.93e-3 * 15);
    const back = nominal("board.R_t");
    expect(back).toBeGreaterThan(0.015);
    expect(nominal("board.lead[none].D_k")).toBeCloseTo(Z / (0.02 + choke + trace + back + 2 * contact), 2);
  });

  it("have a lid and four walls as a shield", () => {
    expect(nominal("board.m_s") * 1e3).toBeCloseTo(8.7 * 0.015 * (1.4 * 1.0 + 2 * (1.4 + 1.0) * 0.17), 4);
  });
});
