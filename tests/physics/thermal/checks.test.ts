import { thermal } from "../../../lib/physics";
import { stefanBoltzmann } from "../../../lib/physics/constants";
import { checkRows, law, reference, si } from "../check-rows";

const touch = reference("touch");
const resistance = (text: string | undefined): number => si(text?.replace("°C/W", "K/W"));
const sides = (text: string | undefined): readonly [number, number, number] => {
  const [a = Number.NaN, b = Number.NaN, H = Number.NaN] =
    (text ?? "")
      .split(" mm")[0]
      ?.split("x")
      .map((x) => Number(x) / 1000) ?? [];
  return [a, b, H];
};

checkRows(
  "thermal",
  {
    "thermal-01": ({ P, R_jc, R_cs, R_sa, Ta }) => {
      const [T_a, P_h] = [si(Ta), si(P)];
      const [jc, cs, sa] = [resistance(R_jc), resistance(R_cs), resistance(R_sa)];
      return {
        Tj: law(thermal.junctionTemperature, { T_a, P: P_h, R_jc: jc, R_cs: cs, R_sa: sa }),
        T_case: law(thermal.temperatureBehind, { T_a, P: P_h, R: cs + sa }),
      };
    },
    "thermal-02": ({ theta_JA, Tj_max, Ta }) => {
      const R = resistance(theta_JA);
      return { P: law(thermal.maximumDissipation, { T_j: si(Tj_max), T_a: si(Ta), R }), slope: law(thermal.deratingSlope, { R }) };
    },
    "thermal-04": ({ P, Ta, dims, eps, h }) => {
      const [a, b, H] = sides(dims);
      const A = law(thermal.boxArea, { a, b, H });
      const { T_s } = thermal.evenCoefficientSurface.evaluate({ A, h: si(h), P: si(P), T_a: si(Ta), epsilon: si(eps) });
      return { A, Ts: T_s };
    },
    "thermal-06": ({ P, Ta, dims, eps }) => {
      const [a, b, H] = sides(dims);
      const box = { a, b, H, k: 1, h_c: 0, P: si(P), T_a: si(Ta), epsilon: si(eps) };
      return { L: law(thermal.faceLength, { a, b }), Ts: thermal.simpleBoxSurface.evaluate(box).T_s };
    },
    "thermal-09": ({ eps, T1, T2 }) => ({
      h_r: law(thermal.radiationCoefficient, { epsilon: si(eps), sigma: stefanBoltzmann, T_1: si(T1), T_2: si(T2) }),
    }),
    "thermal-10": () => ({
      ">1min": touch.value("ts1-held-metal"),
      "10s-1min": touch.value("ts1-short-metal"),
      "1-10s": touch.value("ts1-brief-metal"),
      "<1s": touch.value("ts1-contact-metal"),
    }),
    "thermal-12": () => ({ "1min": touch.value("burn-1min"), "10min": touch.value("burn-10min"), "8h": touch.value("burn-8h") }),
    "thermal-13": ({ m, c, R, P, t }) => {
      const C = law(thermal.heatCapacity, { m: si(m), c: si(c) });
      const tau = law(thermal.timeConstant, { C, R: si(R) });
      const heated = { P: si(P), R: si(R) };
      return { tau, dT: law(thermal.riseAfter, { ...heated, t: si(t), tau }), dT_inf: law(thermal.finalRise, heated) };
    },
  },
  19,
);
