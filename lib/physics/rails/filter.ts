/**
 * The filter behind a converter: R_s (what the converter adds) and an inductor L with R_dc and a damping resistor R_p
 * across it, then C with ESR and ESL, a damping branch of C_d and R_d across it, and the load R_L. Transfer of the
 * ripple, output impedance, and the peaks of both.
 */
import { add, type Complex, inverse, magnitude, real } from "../numerics/complex";
import { type Extreme, extremesOf } from "../numerics/extremes";
import { type Ends, frequencies } from "../rf/filter";
import { admittance, impedance } from "../rf/parts";
import { chainTwoPort, type Section, voltageTransfer } from "../rf/two-port";

/** Ω, H, F. No damping capacitor: C_d = 0. */
export interface PostFilter {
  readonly R_s: number;
  readonly L: number;
  readonly R_dc: number;
  readonly R_p: number;
  readonly C: number;
  readonly ESR: number;
  readonly ESL: number;
  readonly C_d: number;
  readonly R_d: number;
  readonly R_L: number;
}

export interface FilterPeaks {
  /** Highest transfer and its frequency. */
  readonly H: number;
  readonly f_H: number;
  /** Highest output impedance and its frequency. */
  readonly Z: number;
  readonly f_Z: number;
}

/** The filter's parts in order, for the two-port and for a netlist. */
export function postFilterChain({ L, R_dc, R_p, C, ESR, ESL, C_d, R_d }: PostFilter): Section[] {
  return [
    { place: "series", part: { kind: "coil", L, R_dc, R_p, C_p: 0 } },
    { place: "shunt", part: { kind: "capacitor", C, ESR, ESL } },
    { place: "shunt", part: { kind: "capacitor", C: C_d, ESR: R_d, ESL: 0 } },
  ];
}

/** What the filter stands between. */
export function postFilterEnds({ R_s, R_L }: PostFilter): Ends {
  return { R_s, L_s: 0, R_L, C_L: 0 };
}

/** Voltage at the load over the converter's, at f (Hz, > 0). */
export function filterTransfer(filter: PostFilter, f: number): Complex {
  return voltageTransfer(chainTwoPort(postFilterChain(filter), f), real(filter.R_s), real(filter.R_L));
}

/** Impedance that the load sees, R_L left out, Ω. */
export function filterOutputImpedance(filter: PostFilter, f: number): Complex {
  const [coil, ...shunts] = postFilterChain(filter);
  const series = add(real(filter.R_s), impedance((coil as Section).part, f));
  return inverse(shunts.reduce((Y, { part }) => add(Y, admittance(part, f)), inverse(series)));
}

/** Highest transfer and output impedance between f_1 and f_2 (Hz), the ends included. */
export function filterPeaks(filter: PostFilter, f_1: number, f_2: number): FilterPeaks {
  const grid = frequencies(f_1, f_2, 161);
  const H = highest((f) => magnitude(filterTransfer(filter, f)), grid);
  const Z = highest((f) => magnitude(filterOutputImpedance(filter, f)), grid);
  return { H: H.y, f_H: H.x, Z: Z.y, f_Z: Z.x };
}

/** The highest value on a list of points and between them. */
function highest(f: (x: number) => number, points: Float64Array): { readonly x: number; readonly y: number } {
  const ends = [points[0] as number, points[points.length - 1] as number].map((x): Extreme => ({ x, y: f(x), sign: 1 }));
  return [...ends, ...extremesOf(f, points)].reduce((best, one) => (one.y > best.y ? one : best));
}
