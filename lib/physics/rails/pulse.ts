/**
 * A converter feeds its rail by pulses of current that repeat at a rate f: each begins at I_1 and goes in a straight line to
 * I_2 in the time t_p. Single packets end at 0, runs of many pulses are flat on the mean, a converter in continuous
 * conduction gives a trapezium. Their harmonics, by the Fourier series of such a train, flow into the rail's capacitors and
 * filter; what is left there passes the amplifier's supply rejection. Left out: that the rail's own ripple changes the
 * pulses, and edges that take time.
 */
import { cos, sin } from "../../quantity/elementary";
import { WorkingsError } from "../../quantity/error";
import { add, type Complex, divide, inverse, magnitude, multiply, real } from "../numerics/complex";
import { impedance } from "../rf/parts";

/** f in Hz, t_p in s, I_1 and I_2 in A; f·t_p ≤ 1. */
export interface PulseTrain {
  readonly f: number;
  readonly t_p: number;
  readonly I_1: number;
  readonly I_2: number;
}

/** What stands on the rail: at the converter, an inductor to the amplifier, at the amplifier. F, Ω, H; n pieces each. */
export interface Rail {
  readonly C_1: number;
  readonly n_1: number;
  readonly L_f: number;
  readonly R_f: number;
  readonly C_2: number;
  readonly n_2: number;
  readonly ESR: number;
  readonly ESL: number;
  readonly C_d: number;
  readonly R_d: number;
}

/** Rms value of the harmonic n of the train, A. */
export function pulseHarmonic({ f, t_p, I_1, I_2 }: PulseTrain, n: number): number {
  const u = 2 * Math.PI * n * f * t_p;
  const [c, s] = [cos(u), sin(u)];
  // ∫ e^(−jωt) dt over the pulse is t_p·flat, ∫ (1 − t/t_p)·e^(−jωt) dt is t_p·fall
  const flat = { re: s / u, im: (c - 1) / u };
  const fall = { re: (1 - c) / (u * u), im: (s / u - 1) / u };
  const [re, im] = [I_2 * flat.re + (I_1 - I_2) * fall.re, I_2 * flat.im + (I_1 - I_2) * fall.im];
  return Math.SQRT2 * f * t_p * Math.sqrt(re * re + im * im);
}

/** Voltage at the amplifier over the current that the converter feeds in, at f (Hz, > 0), Ω. The load draws a constant current. */
export function railTransfer({ C_1, n_1, L_f, R_f, C_2, n_2, ESR, ESL, C_d, R_d }: Rail, f: number): Complex {
  const own = impedance({ kind: "capacitor", C: C_1, ESR, ESL }, f);
  const near = { re: own.re / n_1, im: own.im / n_1 };
  let far: Complex = real(0);
  if (C_2 > 0 && n_2 > 0) far = multiply(real(n_2), inverse(impedance({ kind: "capacitor", C: C_2, ESR, ESL }, f)));
  if (C_d > 0) far = add(far, inverse(impedance({ kind: "capacitor", C: C_d, ESR: R_d, ESL: 0 }, f)));
  const way = add(near, { re: R_f, im: 2 * Math.PI * f * L_f });
  return divide(near, add(real(1), multiply(way, far)));
}

const single = 64;
const width = 0.02;

/** Rms residue at the amplifier's output, V, of the harmonics from f_1 to f_t and of those above f_t up to f_2 (Hz). */
export function pulseResidue(
  train: PulseTrain,
  rail: Rail,
  gain: (f: number) => number,
  [f_1, f_t, f_2]: readonly [number, number, number],
): { readonly below: number; readonly above: number } {
  const { f, t_p } = train;
  if (!(f > 0 && t_p > 0 && f * t_p <= 1 && f_1 >= 0 && f_t > f_1 && f_2 > f_t && rail.C_1 > 0 && rail.n_1 > 0)) {
    throw new WorkingsError(
      "nominal-domain",
      `pulses of ${t_p} s at ${f} Hz from ${f_1} Hz to ${f_t} Hz and ${f_2} Hz on ${rail.n_1} × ${rail.C_1} F: the pulses must fit into their period, the band's ends must rise, and the converter needs a capacitor`,
    );
  }
  let [below, above] = [0, 0];
  const last = Math.floor(f_2 / f);
  for (let n = Math.max(1, Math.ceil(f_1 / f)); n <= last; ) {
    // The first 64 one by one, and those about f_t; of the rest, blocks of 2 % in frequency share the value of their middle.
    const most = Math.max(1, n * f <= f_t ? Math.floor(f_t / f) - n + 1 : last - n + 1);
    const count = n <= single ? 1 : Math.min(most, 1 + Math.floor(n * width));
    const middle = n + (count - 1) / 2;
    const at = middle * f;
    const V = pulseHarmonic(train, middle) * magnitude(railTransfer(rail, at)) * gain(at);
    if (at <= f_t) below += count * V * V;
    else above += count * V * V;
    n += count;
  }
  return { below: Math.sqrt(below), above: Math.sqrt(above) };
}
