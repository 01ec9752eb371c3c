/**
 * Impedance of lines on a board, static: microstrip after E. Hammerstad and O. Jensen, "Accurate models for microstrip
 * computer-aided design", IEEE MTT-S Digest 1980, 407-409 (0.01 to 100 in w/h, relative permittivity to 128: within
 * 0.2 %, with their correction for thickness); stripline after H. A. Wheeler, IEEE Trans. MTT 26 (1978) 866-876 (within
 * 0.5 % for w/(b − t) below 10); the textbook's synthesis of a microstrip's width. Left out: loss, dispersion, solder mask
 * (it takes 1 to 3 Ω off 50 Ω), the trapezoidal section of etched copper, coupled lines.
 */
import { cosh, exp, ln, tanh } from "../../quantity/elementary";
import { power } from "../../quantity/power";
import { freeSpaceImpedance, speedOfLight } from "../constants";
import { increasingRoot } from "../numerics/bracket";

/** Lengths in m; relative permittivity ≥ 1. */
export interface Microstrip {
  readonly w: number;
  readonly h: number;
  readonly t: number;
  readonly eps_r: number;
}

/** Symmetric stripline between planes b apart. */
export interface Stripline {
  readonly w: number;
  readonly b: number;
  readonly t: number;
  readonly eps_r: number;
}

export interface Line {
  /** Ω. */
  readonly Z: number;
  readonly eps_e: number;
}

/** Impedance and effective permittivity of a microstrip. */
export function microstripLine({ w, h, t, eps_r }: Microstrip): Line {
  const u = w / h;
  const widening = thicknessWidening(u, t / h);
  const air = airImpedance(u + widening);
  const u_r = u + (widening * (1 + 1 / cosh(Math.sqrt(eps_r - 1)))) / 2;
  const filled = airImpedance(u_r);
  const eps = zeroThicknessPermittivity(u_r, eps_r);
  const ratio = air / filled;
  return { Z: filled / Math.sqrt(eps), eps_e: eps * ratio * ratio };
}

/** Width of the microstrip of impedance Z, m: from 0.01 to 100 heights. */
export function microstripWidthFor(Z: number, rest: Omit<Microstrip, "w">): number {
  const { h } = rest;
  const short = (logWidth: number): number => Z - microstripLine({ ...rest, w: h * exp(logWidth) }).Z;
  return h * exp(increasingRoot(short, ln(0.01), ln(100), `microstrip of ${Z} Ω, ln of width over height`));
}

/** Width by the textbook's closed synthesis (D. M. Pozar, Microwave Engineering, 3rd edition, eq. 3.197), m; no thickness. */
export function textbookWidth(Z: number, h: number, eps_r: number): number {
  const A = (Z / 60) * Math.sqrt((eps_r + 1) / 2) + ((eps_r - 1) / (eps_r + 1)) * (0.23 + 0.11 / eps_r);
  const narrow = (8 * exp(A)) / (exp(2 * A) - 2);
  if (narrow < 2 && exp(2 * A) > 2) return h * narrow;
  const B = (377 * Math.PI) / (2 * Z * Math.sqrt(eps_r));
  return ((h * 2) / Math.PI) * (B - 1 - ln(2 * B - 1) + ((eps_r - 1) / (2 * eps_r)) * (ln(B - 1) + 0.39 - 0.61 / eps_r));
}

/** Impedance of a symmetric stripline; its permittivity is that of the dielectric. */
export function striplineLine({ w, b, t, eps_r }: Stripline): Line {
  const inner = b - t;
  const q = ((8 / Math.PI) * inner) / (w + striplineWidening(w, b, t));
  const Z = (30 / Math.sqrt(eps_r)) * ln(1 + (q / 2) * (q + Math.sqrt(q * q + 6.27)));
  return { Z, eps_e: eps_r };
}

/** Henry and farad per metre, seconds per metre, of a line without loss. */
export function perLength({ Z, eps_e }: Line): { readonly L: number; readonly C: number; readonly t_d: number } {
  const slowness = Math.sqrt(eps_e) / speedOfLight;
  return { L: Z * slowness, C: slowness / Z, t_d: slowness };
}

function airImpedance(u: number): number {
  const f = 6 + (2 * Math.PI - 6) * exp(-power(30.666 / u, 0.7528));
  return (freeSpaceImpedance / (2 * Math.PI)) * ln(f / u + Math.sqrt(1 + 4 / (u * u)));
}

function zeroThicknessPermittivity(u: number, eps_r: number): number {
  const u4 = u * u * u * u;
  const a = 1 + ln((u4 + (u / 52) * (u / 52)) / (u4 + 0.432)) / 49 + ln(1 + power(u / 18.1, 3)) / 18.7;
  const b = 0.564 * power((eps_r - 0.9) / (eps_r + 3), 0.053);
  return (eps_r + 1) / 2 + ((eps_r - 1) / 2) * power(1 + 10 / u, -a * b);
}

/** What the thickness adds to w/h in air. */
function thicknessWidening(u: number, t: number): number {
  if (t === 0) return 0;
  const tanhRoot = tanh(Math.sqrt(6.517 * u));
  return (t / Math.PI) * ln(1 + (4 * Math.E * tanhRoot * tanhRoot) / t);
}

/** What the thickness adds to the width of a stripline, m. */
function striplineWidening(w: number, b: number, t: number): number {
  if (t === 0) return 0;
  const x = t / b;
  const m = 2 / (1 + ((2 / 3) * x) / (1 - x));
  const first = x / (2 - x);
  const second = power((0.0796 * x) / (w / b + 1.1 * x), m);
  return ((b - t) * x * (1 - ln(first * first + second) / 2)) / (Math.PI * (1 - x));
}
