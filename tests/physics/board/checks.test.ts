import { board } from "../../../lib/physics";
import { checkRows, law, si } from "../check-rows";

const mu_0 = 1.25663706127e-6;
const epsilon_0 = 8.8541878188e-12;
const c = 299792458;
const copper = { rho: 1.724e-8, alpha: 3.93e-3, T_0: si("20 °C") };

checkRows(
  "board",
  {
    "board-01": ({ I, dT, t }) => {
      const given = { I: si(I), dT: si(dT) };
      const [A_ext, A_int] = [law(board.externalTraceArea, given), law(board.internalTraceArea, given)];
      const width = (A: number): number => law(board.traceWidth, { A, t: si(t) });
      return { A_ext, A_int, w_ext: width(A_ext), w_int: width(A_int), ratio_int_ext: A_int / A_ext };
    },
    "board-04": ({ l, w, t, I }) => {
      const R = (T: string): number => law(board.traceResistance, { ...copper, l: si(l), w: si(w), t: si(t), T: si(T) });
      return { R_20: R("20 °C"), R_70: R("70 °C"), V: law(board.traceDrop, { I: si(I), R: R("20 °C") }) };
    },
    "board-06": ({ t, h, d }) => ({
      R: law(board.viaResistance, { ...copper, h: si(h), D: si("0.3 mm"), t: si(t), T: copper.T_0 }),
      L: law(board.viaInductance, { mu_0, h: si(h), d: si(d) }),
    }),
    "board-08": ({ Z0, h, er }) => {
      const { w } = board.textbookMicrostripWidth.evaluate({ Z: si(Z0), h: si(h), eps_r: si(er) });
      return { W: w, ee: law(board.effectivePermittivity, { eps_r: si(er), h: si(h), w }) };
    },
    "board-09": (inputs) => {
      const { Z, eps_e } = board.microstrip.evaluate({ w: si(inputs["W/h"]) * 1e-3, h: 1e-3, t: 0, eps_r: si(inputs["er"]) });
      return { Z, ee: eps_e };
    },
    "board-12": ({ a, b, er }) => {
      const mode = (m: number, n: number): number => law(board.cavityResonance, { c, eps_r: si(er), m, a: si(a), n, b: si(b) });
      return { f_10: mode(1, 0), f_01: mode(0, 1), f_11: mode(1, 1) };
    },
    "board-14": ({ A, d, er, rho, f }) => ({
      C: law(board.planeCapacitance, { epsilon_0, eps_r: si(er), A: si(A), d: si(d) }),
      L_sq: law(board.planeInductance, { mu_0, d: si(d) }),
      delta: law(board.skinDepth, { rho: si(rho), f: si(f), mu_0 }),
    }),
  },
  20,
);
