/**
 * A converter feeds its rail by pulses of current that repeat at a rate f: each begins at I_1 and goes in a straight line to
 * I_2 in the time t_p. Single packets end at 0, runs of many pulses are flat on the mean, a converter in continuous
 * conduction gives a trapezium. Their harmonics, by the Fourier series of such a train, flow into the rail's capacitors and
 * filter; what is left there passes the amplifier's supply rejection. Left out: that the rail's own ripple changes the
 * pulses, and edges that take time.
 */
import { cos, sin } from "../../quantity/elementary";
import { WorkingsError } from "../../quantity/error";

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

const turn = 2 * Math.PI;

/** Square of the rms value of the harmonic n of the train, A². */
function harmonicSquare({ f, t_p, I_1, I_2 }: PulseTrain, n: number): number {
  const u = turn * n * f * t_p;
  const [c, s] = [cos(u), sin(u)];
  // ∫ e^(−jωt) dt over the pulse is t_p·(s/u + j·(c − 1)/u), ∫ (1 − t/t_p)·e^(−jωt) dt is t_p·((1 − c)/u² + j·(s/u − 1)/u)
  const re = (I_2 * s + ((I_1 - I_2) * (1 - c)) / u) / u;
  const im = (I_2 * (c - 1) + (I_1 - I_2) * (s / u - 1)) / u;
  return 2 * f * f * t_p * t_p * (re * re + im * im);
}

/** Square of the voltage at the amplifier over the current that the converter feeds in, at f (Hz, > 0), Ω². The load draws a constant current. */
function transferSquare({ C_1, n_1, L_f, R_f, C_2, n_2, ESR, ESL, C_d, R_d }: Rail, f: number): number {
  const w = turn * f;
  const [r, x] = [ESR / n_1, (w * ESL - 1 / (w * C_1)) / n_1];
  let [G, B] = [0, 0];
  if (C_2 > 0) {
    const X = w * ESL - 1 / (w * C_2);
    const square = ESR * ESR + X * X;
    G += (n_2 * ESR) / square;
    B -= (n_2 * X) / square;
  }
  if (C_d > 0) {
    const X = -1 / (w * C_d);
    const square = R_d * R_d + X * X;
    G += R_d / square;
    B -= X / square;
  }
  // Z_1/(1 + (Z_1 + Z_f)·Y)
  const [wayR, wayX] = [r + R_f, x + w * L_f];
  const [re, im] = [1 + wayR * G - wayX * B, wayR * B + wayX * G];
  return (r * r + x * x) / (re * re + im * im);
}

const single = 16;
const width = 0.06;

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
    // The first 16 one by one; of the rest, blocks of 6 % in frequency share the value of their middle, and end at f_t.
    const most = Math.max(1, n * f <= f_t ? Math.floor(f_t / f) - n + 1 : last - n + 1);
    const count = n <= single ? 1 : Math.min(most, 1 + Math.floor(n * width));
    const middle = n + (count - 1) / 2;
    const at = middle * f;
    const A = gain(at);
    const square = count * harmonicSquare(train, middle) * transferSquare(rail, at) * A * A;
    if (at <= f_t) below += square;
    else above += square;
    n += count;
  }
  return { below: Math.sqrt(below), above: Math.sqrt(above) };
}
