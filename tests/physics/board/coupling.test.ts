/** Neighbouring traces: flux and potentials of their images, ngspice on a ladder of coupled sections, limiting cases. */
import { describe, expect, it } from "vitest";
import { board } from "../../../lib/physics";
import { law } from "../check-rows";
import { ngspicePresent, ngspiceRows, ngspiceValues } from "../ngspice";

const skip = !ngspicePresent && process.env["CI"] !== "true";
const mu_0 = 4e-7 * Math.PI;
const speed = 299792458;

describe("two traces over a plane", () => {
  it("have the mutual inductance of the flux between the victim and the plane, summed", () => {
    for (const [h, d] of [
      [0.2e-3, 0.5e-3],
      [1.5e-3, 1e-3],
      [0.1e-3, 3e-3],
    ] as const) {
      // Field across the way from (d, 0) up to (d, h) of the trace at (0, h) and its image at (0, −h)
      const n = 20000;
      let flux = 0;
      for (let i = 0; i < n; i++) {
        const z = (h * (i + 0.5)) / n;
        const across = (up: number): number => up / (up * up + d * d);
        flux += ((mu_0 / (2 * Math.PI)) * (across(h - z) + across(h + z)) * h) / n;
      }
      expect(law(board.mutualTraceInductance, { mu_0, l: 0.05, h, d }) / (flux * 0.05)).toBeCloseTo(1, 6);
    }
  });

  it("have the mutual capacitance of their potentials, inverted, in an even dielectric", () => {
    const [h, r, d, eps_r] = [0.2e-3, 0.05e-3, 0.6e-3, 4.3];
    const eps = eps_r / (mu_0 * speed * speed);
    const [own, other] = [Math.log((2 * h) / r), Math.log(Math.sqrt(1 + (4 * h * h) / (d * d)))].map((x) => x / (2 * Math.PI * eps)) as [
      number,
      number,
    ];
    const determinant = own * own - other * other;
    const [C, C_m] = [own / determinant, other / determinant];
    const M = law(board.mutualTraceInductance, { mu_0, l: 1, h, d });
    const L = (mu_0 / (2 * Math.PI)) * Math.log((2 * h) / r);
    expect(law(board.mutualTraceCapacitance, { C, M, L }) / C_m).toBeCloseTo(1, 9);
  });

  it("couple less the further apart and the nearer the plane, with the square of both, below the rule of thumb", () => {
    const M = (h: number, d: number): number => law(board.mutualTraceInductance, { mu_0, l: 0.1, h, d });
    expect(M(0.1e-3, 5e-3) / M(0.1e-3, 10e-3)).toBeCloseTo(4, 1);
    for (const d of [0.3e-3, 1e-3, 3e-3]) {
      const [h, L] = [0.2e-3, ((mu_0 * 0.1) / (2 * Math.PI)) * Math.log(8)];
      const share = law(board.backwardCrosstalk, { M: M(h, d), L, C_m: M(h, d), C: L });
      expect(share).toBeLessThan(law(board.couplingRule, { d, h }) / 2);
    }
  });
});

describe("crosstalk", () => {
  const [L, C, M, C_m, n] = [300e-9, 120e-12, 45e-9, 18e-12, 60];

  /** Two lines of n sections, matched: far and near end of the second while a step of 1 V with an edge of t_r enters the first. */
  function ladder(t_r: number, stop: number) {
    const Z = Math.sqrt(L / C);
    const cards = ["* lines", `V_a s 0 PWL(0 0 ${t_r} 2)`, `R_s s a0 ${Z}`, `R_n b0 0 ${Z}`, `R_l a${n} 0 ${Z}`, `R_f b${n} 0 ${Z}`];
    for (let i = 0; i < n; i++) {
      cards.push(`L_a${i} a${i} a${i + 1} ${L / n}`, `L_b${i} b${i} b${i + 1} ${L / n}`, `K_${i} L_a${i} L_b${i} ${M / L}`);
      cards.push(`C_a${i} a${i + 1} 0 ${(C - C_m) / n}`, `C_b${i} b${i + 1} 0 ${(C - C_m) / n}`, `C_m${i} a${i + 1} b${i + 1} ${C_m / n}`);
    }
    const step = stop / 2000;
    return ngspiceRows([...cards, `.tran ${step} ${stop} 0 ${step}`, ".print tran v(a0) v(b0)", ".end", ""].join("\n"));
  }
  const delay = Math.sqrt(L * C);

  it.skipIf(skip)("at the near end of matched lines is ngspice's within 5 %: a quarter of M/L + C_m/C of the step", () => {
    const rows = ladder(delay, 2.9 * delay);
    const [t, near] = [0, 2].map((k) => rows.map((row) => row[k] as number)) as [number[], number[]];
    const plateau = near[t.findIndex((at) => at > 1.6 * delay)] as number;
    const k = law(board.backwardCrosstalk, { M, L, C_m, C });
    expect(Math.abs(plateau / k - 1), `${plateau} V, ${k}`).toBeLessThan(0.05);
  });

  it.skipIf(skip)("of lines shorter than half the edge is less by 2·t_d/t_r, as ngspice has it within 7 %", () => {
    const t_r = 8 * delay;
    const most = Math.max(...ladder(t_r, 12 * delay).map(([, , near = 0]) => near));
    const k = law(board.backwardCrosstalk, { M, L, C_m, C });
    const V = law(board.shortBackwardCrosstalk, { k, V_a: 1, t_d: delay, t_r });
    expect(Math.abs(V / most - 1), `${V} V, ${most} V`).toBeLessThan(0.07);
    expect(law(board.shortBackwardCrosstalk, { k, V_a: 1, t_d: 10 * t_r, t_r })).toBe(k);
  });

  it.skipIf(skip)("at audio frequencies adds what both fields bring, as ngspice has it within 1 %", () => {
    const [f, R_L, R_n, R_f] = [20e3, 32, 10e3, 5e3];
    const cards = [
      "* short",
      "V_a a 0 AC 1",
      `L_1 a c 45n`,
      `R_L c 0 ${R_L}`,
      `L_2 n q 300n`,
      "K_1 L_1 L_2 0.38729833",
      `R_n n 0 ${R_n}`,
      `R_f q 0 ${R_f}`,
      `C_m a n 18p`,
    ];
    const found = ngspiceValues(
      [...cards, ".control", "set numdgt=12", `ac lin 1 ${f} ${f}`, "print vm(n)", "quit", ".endc", ".end", ""].join("\n"),
    );
    const V = law(board.lowFrequencyCrosstalk, { f, M: 45e-9, I: 1 / R_L, C_m: 18e-12, V_a: 1, R_n, R_f });
    expect(Math.abs(V / (found["vm(n)"] as number) - 1), `${V}, ${found["vm(n)"]}`).toBeLessThan(0.01);
  });
});
