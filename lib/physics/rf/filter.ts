/**
 * The filter at a jack: a shunt part (a clamp's capacitance or a capacitor, 0 F for none), a choke or bead in the line,
 * a shunt capacitor, between a source R_s + jωL_s and a load R_L ‖ C_L. One set of numbers gives the two-port and the
 * circuit for a netlist.
 */
import { exp, ln, log2 } from "../../quantity/elementary";
import { WorkingsError } from "../../quantity/error";
import { type Circuit, type CircuitElement, ground } from "../circuit/data";
import { type Complex, inverse } from "../numerics/complex";
import { refined, traced } from "../numerics/extremes";
import { type CapacitorPart, type CoilPart, elementsOf, impedance, inductorOrWire, resistorOrWire } from "./parts";
import type { Section } from "./two-port";

/** What the line comes from and goes to: Ω, H, Ω, F. */
export interface Ends {
  readonly R_s: number;
  readonly L_s: number;
  readonly R_L: number;
  readonly C_L: number;
}

/** First shunt part, choke, second shunt part and one more beside it (0 F for none): F, Ω, H. */
export interface FilterParts {
  readonly C_1: number;
  readonly ESR_1: number;
  readonly ESL_1: number;
  readonly L: number;
  readonly R_dc: number;
  readonly R_p: number;
  readonly C_p: number;
  readonly C_2: number;
  readonly ESR_2: number;
  readonly ESL_2: number;
  readonly C_3: number;
  readonly ESR_3: number;
  readonly ESL_3: number;
}

export interface LeastLoss {
  /** Ratio of load voltages without and with the filter. */
  readonly IL: number;
  /** Hz. */
  readonly f: number;
}

const turn = 2 * Math.PI;

/** Steps at which a weakest place is looked for, before halvings: twice as many as tell the resonances of parts with losses apart. */
const perOctave = 12;

/** A minimum of the traced loss this much above its least is not the least: the trace follows the loss to 0.5 %. */
const deepest = 1.05;

/** The parts of a filter in order. */
export function filterChain(parts: FilterParts): Section[] {
  const first: CapacitorPart = { kind: "capacitor", C: parts.C_1, ESR: parts.ESR_1, ESL: parts.ESL_1 };
  const choke: CoilPart = { kind: "coil", L: parts.L, R_dc: parts.R_dc, R_p: parts.R_p, C_p: parts.C_p };
  const second: CapacitorPart = { kind: "capacitor", C: parts.C_2, ESR: parts.ESR_2, ESL: parts.ESL_2 };
  const third: CapacitorPart = { kind: "capacitor", C: parts.C_3, ESR: parts.ESR_3, ESL: parts.ESL_3 };
  return [
    { place: "shunt", part: first },
    { place: "series", part: choke },
    { place: "shunt", part: second },
    { place: "shunt", part: third },
  ];
}

/** Source impedance at f, Ω. */
export function sourceImpedance({ R_s, L_s }: Ends, f: number): Complex {
  return { re: R_s, im: turn * f * L_s };
}

/** Load impedance at f, Ω. */
export function loadImpedance({ R_L, C_L }: Ends, f: number): Complex {
  return inverse({ re: 1 / R_L, im: turn * f * C_L });
}

/**
 * Insertion loss of a chain at f (Hz, > 0), a ratio of voltages: from 1 V at the load back to the source, part by part. It is what
 * the chain matrix gives, without making one, and coils and capacitors without objects: a worst case asks for it at a hundred thousand
 * frequencies.
 */
export function insertionLossAt(chain: readonly Section[], { R_s, L_s, R_L, C_L }: Ends, f: number): number {
  const omega = turn * f;
  const [g, b] = [1 / R_L, omega * C_L];
  const X_s = omega * L_s;
  let v = 1;
  let u = 0;
  let i = g;
  let j = b;
  for (let k = chain.length - 1; k >= 0; k--) {
    const { place, part } = chain[k] as Section;
    let re = 0;
    let im = 0;
    if (part.kind === "capacitor") {
      if (place === "shunt" && part.C === 0) continue;
      re = part.ESR;
      im = omega * part.ESL - 1 / (omega * part.C);
    } else if (part.kind === "coil" && part.L !== 0) {
      const [conductance, susceptance] = [1 / part.R_p, omega * part.C_p - 1 / (omega * part.L)];
      const square = conductance * conductance + susceptance * susceptance;
      re = part.R_dc + conductance / square;
      im = -susceptance / square;
    } else ({ re, im } = impedance(part, f));
    if (place === "series") {
      v += re * i - im * j;
      u += re * j + im * i;
    } else {
      const square = re * re + im * im;
      i += (re * v + im * u) / square;
      j += (re * u - im * v) / square;
    }
  }
  const [e, d] = [v + R_s * i - X_s * j, u + R_s * j + X_s * i];
  const [p, q] = [1 + R_s * g - X_s * b, R_s * b + X_s * g];
  return Math.sqrt((e * e + d * d) / (p * p + q * q));
}

/** Frequencies spaced evenly by ratio from `from` to `to`, both included. */
export function frequencies(from: number, to: number, points: number): Float64Array {
  if (!(from > 0 && to > from && to < Infinity)) {
    throw new WorkingsError("not-finite", `a band needs 0 Hz < f_1 < f_2; got ${from} Hz to ${to} Hz`);
  }
  const ratio = exp(ln(to / from) / (points - 1));
  const found = new Float64Array(points).fill(from);
  for (let i = 1; i < points; i++) found[i] = (found[i - 1] as number) * ratio;
  found[points - 1] = to;
  return found;
}

/**
 * The least insertion loss in a band and where it is: of all minima that the traced loss shows, to the golden section, and the
 * band's ends. A low loss between two resonances may be narrower than any grid's step.
 */
export function leastLoss(loss: (f: number) => number, from: number, to: number): LeastLoss {
  const points = Math.min(121, Math.max(17, Math.ceil(perOctave * log2(to / from))));
  const { x, y } = traced(loss, frequencies(from, to, points));
  const low = y.reduce((least, here) => Math.min(least, here), Infinity);
  let best = { IL: Infinity, f: from };
  for (let i = 0; i < x.length; i++) {
    const [f, here, before, after] = [x[i] as number, y[i] as number, y[i - 1] ?? Infinity, y[i + 1] ?? Infinity];
    if (here > before || here > after || here > deepest * low) continue;
    const inside = i > 0 && i + 1 < x.length ? refined(loss, x[i - 1] as number, x[i + 1] as number, -1, f) : { x: f, y: here };
    const found = inside.y < here ? { IL: inside.y, f: inside.x } : { IL: here, f };
    if (found.IL < best.IL) best = found;
  }
  return best;
}

/**
 * The frequency (Hz) at which the load's voltage has fallen to 1/√2 of that at `from`, first upwards: by steps of an
 * eighth of an octave, then halving. Throws "curve-crossing" where it has not up to `to`, "not-finite" for a band without sense.
 */
export function cornerFrequency(transfer: (f: number) => number, from: number, to: number): number {
  // From 0 Hz upwards by ratios there is no way
  if (!(from > 0 && to < Infinity))
    throw new WorkingsError("not-finite", `a corner is looked for from a frequency above 0 Hz; got ${from} Hz`);
  const limit = transfer(from) * Math.SQRT1_2;
  const ratio = exp(Math.LN2 / 8);
  let low = from;
  let high = from * ratio;
  while (transfer(high) > limit) {
    if (high > to) throw new WorkingsError("curve-crossing", `the filter has no corner between ${from} Hz and ${to} Hz; look further`);
    [low, high] = [high, high * ratio];
  }
  for (let round = 0; round < 50; round++) {
    const middle = (low + high) / 2;
    if (transfer(middle) > limit) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/**
 * The circuit of a chain between its ends: a source of amplitude `ac` behind R_s and L_s at node "in", the load at
 * node "out". Throws "model-argument" for a part given as a table.
 */
export function chainCircuit(chain: readonly Section[], { R_s, L_s, R_L, C_L }: Ends, ac = 1): Circuit {
  const source: CircuitElement[] = [
    { kind: "voltage", name: "source", nodes: ["emf", ground], value: 0, ac },
    resistorOrWire("R_s", ["emf", "lead"], R_s),
    inductorOrWire("L_s", ["lead", "in"], L_s),
  ];
  const { node, elements } = chain.reduce<{ readonly node: string; readonly elements: readonly CircuitElement[] }>(
    (sum, { place, part }, i) => {
      const next = place === "series" ? `n${i + 1}` : sum.node;
      const nodes: readonly [string, string] = [sum.node, place === "series" ? next : ground];
      return { node: next, elements: [...sum.elements, ...elementsOf(part, `part${i + 1}`, nodes)] };
    },
    { node: "in", elements: [] },
  );
  const load: CircuitElement[] = [{ kind: "resistor", name: "R_L", nodes: ["out", ground], R: R_L }];
  if (C_L > 0) load.push({ kind: "capacitor", name: "C_L", nodes: ["out", ground], C: C_L });
  return [...source, ...elements, { kind: "voltage", name: "end", nodes: [node, "out"], value: 0 }, ...load];
}
