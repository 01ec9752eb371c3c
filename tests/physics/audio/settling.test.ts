/** The second route of settling: ngspice on RC and RLC circuits, and differential equations in small steps. */
import { describe, expect, it } from "vitest";
import { evaluate } from "../../../lib/formula/evaluate";
import { audio } from "../../../lib/physics";
import { settling } from "../../../lib/physics/audio/settling";
import { ngspicePresent, ngspiceRows } from "../ngspice";

const skip = !ngspicePresent && process.env["CI"] !== "true";

/** Last time (s) at which a printed wave, less its end, is outside ±V_e, and its largest excursion below zero. */
function read(rows: readonly (readonly number[])[], end: number, V_e: number): { readonly t: number; readonly V_u: number } {
  const wave = rows.map(([t = 0, v = 0]) => [t, v - end] as const);
  const sign = Math.sign(wave[1]?.[1] ?? 1);
  return {
    t: wave.reduce((last, [t, v]) => (Math.abs(v) > V_e ? t : last), 0),
    V_u: wave.reduce((most, [, v]) => Math.max(most, -sign * v), 0),
  };
}

function run(cards: readonly string[], step: number, stop: number, print: string): readonly (readonly number[])[] {
  const lines = [".options RELTOL=1e-6 VNTOL=1e-9", `.tran ${step} ${stop} 0 ${step / 2} UIC`, `.print tran ${print}`, ".end", ""];
  return ngspiceRows(["* settling", ...cards, ...lines].join("\n"));
}

const RC = (f: number): number => 1 / (2 * Math.PI * f);

describe("the settling of a step", () => {
  it.skipIf(skip).each([
    [4.5, 0.01, 3.4, 0.5],
    [4.5, 0.01, 3.4, 3.4],
    [0.5, 0.01, 20, 0.6],
  ])("of %d V to %d V behind high-passes of %d Hz and %d Hz agrees with ngspice within 2 %", (V_0, V_e, f_1, f_2) => {
    const cards = [`V_in in 0 ${V_0}`, `C_1 in a ${RC(f_1)}`, "R_1 a 0 1", "E_1 b 0 a 0 1", `C_2 b c ${RC(f_2)}`, "R_2 c 0 1"];
    const ours = audio.coupledSettling.evaluate({ V_0, V_e, f_1, f_2 });
    const theirs = read(run(cards, ours.t / 2000, 3 * ours.t, "v(c)"), 0, V_e);
    expect(Math.abs(ours.t / theirs.t - 1), `${ours.t} s, ngspice ${theirs.t} s`).toBeLessThan(0.02);
    expect(Math.abs(ours.V_u - theirs.V_u)).toBeLessThan(0.01 * V_0);
  });

  it.skipIf(skip).each([
    ["high-pass", 0.6],
    ["high-pass", 3],
    ["low-pass", 0.4],
    ["low-pass", 4],
  ] as const)("of 1 V to 10 mV in a %s of Q = %d agrees with ngspice within 2 %", (kind, Q) => {
    const [C, L] = [`${RC(10)}`, `${RC(10)} IC=0`];
    const cards =
      kind === "high-pass"
        ? ["V_in in 0 1", `C_1 in a ${C}`, `L_1 a 0 ${L}`, `R_1 a 0 ${Q}`]
        : ["V_in in 0 1", `L_1 in a ${L}`, `C_1 a 0 ${C} IC=0`, `R_1 a 0 ${Q}`];
    const model = kind === "high-pass" ? audio.highPassSettling : audio.lowPassSettling;
    const ours = model.evaluate({ V_0: 1, V_e: 0.01, f_0: 10, Q });
    const theirs = read(run(cards, ours.t / 2000, 2 * ours.t, "v(a)"), kind === "high-pass" ? 0 : 1, 0.01);
    expect(Math.abs(ours.t / theirs.t - 1), `${ours.t} s, ngspice ${theirs.t} s`).toBeLessThan(0.02);
    expect(Math.abs(ours.V_u - theirs.V_u)).toBeLessThan(0.01);
  });

  /** Last time outside ±V_e of the step response of either kind, by Runge and Kutta's fourth order. */
  function stepped(kind: "high-pass" | "low-pass", V_e: number, f_0: number, Q: number, stop: number): number {
    const omega = 2 * Math.PI * f_0;
    const slope = ([y, z]: readonly [number, number]): readonly [number, number] => [z, -omega * omega * y - (omega / Q) * z];
    const h = stop / 40_000;
    let state: readonly [number, number] = kind === "high-pass" ? [1, -omega / Q] : [1, 0];
    let last = 0;
    for (let n = 0; n < 40_000; n++) {
      const at = (k: readonly [number, number], share: number) => [state[0] + share * h * k[0], state[1] + share * h * k[1]] as const;
      const a = slope(state);
      const b = slope(at(a, 0.5));
      const c = slope(at(b, 0.5));
      const d = slope(at(c, 1));
      state = [state[0] + (h * (a[0] + 2 * b[0] + 2 * c[0] + d[0])) / 6, state[1] + (h * (a[1] + 2 * b[1] + 2 * c[1] + d[1])) / 6];
      if (Math.abs(state[0]) > V_e) last = (n + 1) * h;
    }
    return last;
  }

  it.each(["high-pass", "low-pass"] as const)(
    "of a %s is that of its differential equation, at any Q and about the critical 1/2",
    (kind) => {
      for (const Q of [0.05, 0.3, 0.49, 0.4999999, 0.5, 0.5000001, 0.51, 0.8, 2, 10]) {
        for (const V_e of [0.3, 0.03, 1e-3]) {
          const { t } = settling(kind, 1, V_e, 100, Q);
          const theirs = stepped(kind, V_e, 100, Q, 1.5 * t + 1e-6);
          expect(Math.abs(t - theirs), `Q ${Q}, ${V_e} V`).toBeLessThan(1e-4 * t + 1e-9);
        }
      }
    },
  );

  it("in one section is R·C·ln: 4.5 V to 10 mV behind 1 µF and 47 kΩ takes 0.29 s", () => {
    const first = (V_0: number, V_e: number, f_c: number): number => evaluate(audio.firstOrderSettling.expression, { V_0, V_e, f_c });
    expect(first(4.5, 0.01, 1 / (2 * Math.PI * 47e-3))).toBeCloseTo(0.287, 3);
    // A second section far below leaves only its small undershoot, within the band
    const { t, V_u } = audio.coupledSettling.evaluate({ V_0: 4.5, V_e: 0.01, f_1: 3.4, f_2: 1e-6 });
    expect(t / first(4.5, 0.01, 3.4)).toBeCloseTo(1, 3);
    expect(V_u).toBeLessThan(1e-5);
  });

  it("is over at once within the band, whatever its sign, and a refusal without one", () => {
    expect(settling("high-pass", 5e-3, 0.01, 10, 5).t).toBe(0);
    expect(settling("high-pass", -4.5, 0.01, 10, 1)).toEqual(settling("high-pass", 4.5, 0.01, 10, 1));
    expect(() => settling("low-pass", 1, 0, 10, 1)).toThrow("settling needs f_0 > 0 Hz, Q > 0 and V_e > 0 V");
  });
});
