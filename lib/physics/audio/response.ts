/**
 * A chain of filter sections, each with the gain 1 in its pass band: magnitude is a product, phase and group delay are
 * sums of the sections' own, so the phase is unbroken over any band. With x = f/f_0:
 *   high-pass j·x/(1 + j·x), low-pass 1/(1 + j·x); of second order −x² or 1 over 1 − x² + j·x/Q;
 *   shelf (1 + j·f/f_z)/(1 + j·f/f_p), the gain of a non-inverting stage with a capacitor across its feedback resistor.
 */
import { atan, atan2 } from "../../quantity/elementary";
import { WorkingsError } from "../../quantity/error";
import { cornerFrequency } from "../rf/filter";

/** Frequencies in Hz, > 0. */
export type ResponseSection =
  | { readonly kind: "high-pass" | "low-pass"; readonly f_c: number }
  | SecondOrder
  | { readonly kind: "shelf"; readonly f_p: number; readonly f_z: number };

interface SecondOrder {
  readonly kind: "second-high-pass" | "second-low-pass";
  readonly f_0: number;
  readonly Q: number;
}

/** The sections of the models, 0 Hz for one that is not there. */
export interface ChainParts {
  readonly f_h1: number;
  readonly f_h2: number;
  readonly f_h3: number;
  readonly f_l1: number;
  readonly f_l2: number;
  readonly f_l3: number;
  readonly f_h0: number;
  readonly Q_h: number;
  readonly f_l0: number;
  readonly Q_l: number;
  readonly f_p: number;
  readonly f_z: number;
}

/** The sections that are there. Throws "model-argument" for a negative frequency, a Q of 0 or less, and half a shelf. */
export function chainSections(parts: ChainParts): ResponseSection[] {
  const { f_h1, f_h2, f_h3, f_l1, f_l2, f_l3, f_h0, Q_h, f_l0, Q_l, f_p, f_z } = parts;
  if ([f_h1, f_h2, f_h3, f_l1, f_l2, f_l3, f_h0, f_l0, f_p, f_z].some((f) => !(f >= 0))) {
    throw new WorkingsError("model-argument", "a corner is above 0 Hz, or 0 Hz where its section is not there");
  }
  if ((f_h0 > 0 && !(Q_h > 0)) || (f_l0 > 0 && !(Q_l > 0))) {
    throw new WorkingsError("model-argument", `a section of second order needs Q > 0; got ${Q_h} and ${Q_l}`);
  }
  if (f_p > 0 !== f_z > 0) throw new WorkingsError("model-argument", `a shelf needs both f_p and f_z; got ${f_p} Hz and ${f_z} Hz`);
  const all: ResponseSection[] = [
    ...[f_h1, f_h2, f_h3].map((f_c) => ({ kind: "high-pass", f_c }) as const),
    ...[f_l1, f_l2, f_l3].map((f_c) => ({ kind: "low-pass", f_c }) as const),
    { kind: "second-high-pass", f_0: f_h0, Q: Q_h },
    { kind: "second-low-pass", f_0: f_l0, Q: Q_l },
    { kind: "shelf", f_p, f_z },
  ];
  return all.filter((section) => cornerOf(section) > 0);
}

/** The frequency of a section (a shelf's pole), Hz. */
function cornerOf(section: ResponseSection): number {
  if (section.kind === "shelf") return section.f_p;
  return "f_c" in section ? section.f_c : section.f_0;
}

/** Gain of a chain at f (Hz, > 0), a ratio. */
export function chainGain(sections: readonly ResponseSection[], f: number): number {
  return Math.sqrt(sections.reduce((square, section) => square * sectionPower(section, f), 1));
}

function sectionPower(section: ResponseSection, f: number): number {
  if (section.kind === "shelf") {
    const [z, p] = [f / section.f_z, f / section.f_p];
    return (1 + z * z) / (1 + p * p);
  }
  const x = f / cornerOf(section);
  const square = x * x;
  if (!("Q" in section)) return (section.kind === "high-pass" ? square : 1) / (1 + square);
  const bottom = (1 - square) * (1 - square) + square / (section.Q * section.Q);
  return (section.kind === "second-high-pass" ? square * square : 1) / bottom;
}

/** Phase of a chain at f (Hz, > 0), rad, leading positive. */
export function chainPhase(sections: readonly ResponseSection[], f: number): number {
  return sections.reduce((sum, section) => sum + sectionPhase(section, f), 0);
}

function sectionPhase(section: ResponseSection, f: number): number {
  if (section.kind === "shelf") return atan(f / section.f_z) - atan(f / section.f_p);
  const x = f / cornerOf(section);
  if (!("Q" in section)) return section.kind === "high-pass" ? atan(1 / x) : -atan(x);
  const lag = atan2(x / section.Q, 1 - x * x);
  return section.kind === "second-high-pass" ? Math.PI - lag : -lag;
}

/** Group delay of a chain at f (Hz, > 0), s: −dφ/dω. */
export function chainDelay(sections: readonly ResponseSection[], f: number): number {
  return sections.reduce((sum, section) => sum + sectionDelay(section, f), 0);
}

function sectionDelay(section: ResponseSection, f: number): number {
  if (section.kind === "shelf") return poleDelay(section.f_p, f) - poleDelay(section.f_z, f);
  if ("f_c" in section) return poleDelay(section.f_c, f);
  const { f_0, Q } = section;
  const square = (f / f_0) * (f / f_0);
  return (1 + square) / (2 * Math.PI * f_0 * Q * ((1 - square) * (1 - square) + square / (Q * Q)));
}

function poleDelay(f_c: number, f: number): number {
  const x = f / f_c;
  return 1 / (2 * Math.PI * f_c * (1 + x * x));
}

/** Where the gain has fallen by 3.01 dB from that at f_r (Hz), upwards. Throws "curve-crossing" where it does not within 10⁶. */
export function upperCorner(sections: readonly ResponseSection[], f_r: number): number {
  return cornerFrequency((f) => chainGain(sections, f), f_r, f_r * 1e6);
}

/** The same downwards. */
export function lowerCorner(sections: readonly ResponseSection[], f_r: number): number {
  if (!sections.some(({ kind }) => kind === "high-pass" || kind === "second-high-pass")) {
    throw new WorkingsError("curve-crossing", "the chain has no high-pass, so it has no lower corner: it passes direct voltage");
  }
  return 1 / cornerFrequency((inverse) => chainGain(sections, 1 / inverse), 1 / f_r, 1e9 / f_r);
}
