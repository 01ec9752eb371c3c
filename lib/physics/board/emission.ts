/**
 * What a lead radiates that a switching node drives through a stray capacitance: the bound of the node's spectrum
 * (C. R. Paul), a common-mode current I = 2πf·C·V, and the field of the lead in its worst direction: a short dipole with
 * even current, E = Z_0·I·L/(2·λ·d), until that reaches the half-wave dipole's E = Z_0·I/(2π·d) at L = λ/π. A reflecting
 * ground counts as a factor k, at most 2. The handbooks' 1.26e-6·f·I·L/d is twice the short dipole's field: H. W. Ott's lead
 * has its image in the ground, C. R. Paul's I flows in each of two wires.
 *
 * Left out: what a lead's resonance does to its current (impedance matching can give some dB more than C alone), lobes of
 * longer leads (1.5 dB more at one wavelength, 4 dB at two, 7 dB at four), other paths than C, the quasi-peak detector (it reads less than the
 * bound, or the same). Such estimates are good to some 8 dB; a test house measures.
 */
import type { CurveData } from "../../graph/curve";
import type { CurveArgument } from "../../graph/model";
import { freeSpaceImpedance, speedOfLight } from "../constants";
import { frequencies } from "../rf/filter";

export interface SwitchedLead {
  /** Height V, repetition Hz, duty 0 to 1, edge s, of the switching node. */
  readonly V: number;
  readonly f_0: number;
  readonly D: number;
  readonly t_r: number;
  /** Stray capacitance to the lead, F. */
  readonly C: number;
  /** Length of the lead, m. */
  readonly L: number;
  /** Distance, m. */
  readonly d: number;
  /** 1 in free space to 2 over a reflecting ground. */
  readonly k: number;
}

export interface WorstEmission {
  readonly E: number;
  readonly f: number;
  readonly M: number;
  readonly I: number;
}

/** Field, rms V/m, of a common-mode current I (A) at f (Hz). */
function leadField(I: number, f: number, { L, d, k }: Pick<SwitchedLead, "L" | "d" | "k">): number {
  const waves = Math.min((L * f) / (2 * speedOfLight), 1 / (2 * Math.PI));
  return (k * freeSpaceImpedance * I * waves) / d;
}

/** Common-mode current bound at f, rms A. */
function leadCurrent({ V, f_0, D, t_r, C }: SwitchedLead, f: number): number {
  const [f_1, f_2] = corners(f_0, D, t_r);
  const bound = Math.SQRT2 * V * D * Math.min(1, f_1 / f) * Math.min(1, f_2 / f);
  return 2 * Math.PI * f * C * bound;
}

/** Field bound at f, rms V/m. */
export function emissionAt(lead: SwitchedLead, f: number): number {
  return leadField(leadCurrent(lead, f), f, lead);
}

/** The frequencies between f_1 and f_2 (Hz) where the bound's slope may change, and a grid between. */
export function emissionPoints(lead: SwitchedLead, f_1: number, f_2: number): Float64Array {
  const all = [...frequencies(f_1, f_2, 61), ...bends(lead).filter((f) => f > f_1 && f < f_2)];
  return Float64Array.from([...new Set(all)].sort((a, b) => a - b));
}

/** Where the field comes closest to a limit (V/m against Hz), between f_1 and f_2; of equal places the lowest. */
export function worstEmission(lead: SwitchedLead, [f_1, f_2]: readonly [number, number], limit: CurveArgument): WorstEmission {
  let worst: WorstEmission = { E: 0, f: f_1, M: Infinity, I: 0 };
  const look = (f: number): void => {
    if (f < f_1 || f > f_2) return;
    const I = leadCurrent(lead, f);
    const E = leadField(I, f, lead);
    const M = limit.at(f) / E;
    if (M < worst.M || (M === worst.M && f < worst.f)) worst = { E, f, M, I };
  };
  // Along a power of f the distance to a constant limit is least at an end, so bends and steps are enough
  if (!standsInSteps(limit)) for (const f of frequencies(f_1, f_2, 61)) look(f);
  look(f_1);
  look(f_2);
  for (const f of bends(lead)) look(f);
  for (const f of limit.x) look(f);
  return worst;
}

/** Whether a limit is constant between its steps, each of which is as good as vertical. */
export function standsInSteps({ x, y }: CurveData): boolean {
  for (let i = 1; i < x.length; i++) {
    const isSteep = (x[i] as number) <= (x[i - 1] as number) * (1 + 1e-6);
    if (!isSteep && y[i] !== y[i - 1]) return false;
  }
  return true;
}

function bends(lead: SwitchedLead): readonly number[] {
  return [...corners(lead.f_0, lead.D, lead.t_r), speedOfLight / (Math.PI * lead.L)];
}

function corners(f_0: number, D: number, t_r: number): readonly [number, number] {
  return [f_0 / (Math.PI * D), 1 / (Math.PI * t_r)];
}
