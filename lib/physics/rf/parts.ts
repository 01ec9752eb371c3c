/**
 * Passive parts with what makes them real, as lumped elements: good while the part is much shorter than a wavelength
 * (a tenth: to 6 GHz for 5 mm in air, less inside a board). Left out: skin effect, dielectric loss and the change of a
 * ferrite's loss with frequency beyond one R‖L‖C, bias and temperature.
 */

import type { CurveData } from "../../graph/curve";
import { curveAt } from "../../graph/interpolate";
import { WorkingsError } from "../../quantity/error";
import { type CircuitElement, wire } from "../circuit/data";
import { add, type Complex, inverse, real, zero } from "../numerics/complex";

/** R in Ω, ≥ 0. */
export interface ResistorPart {
  readonly kind: "resistor";
  readonly R: number;
}

/** C (F, ≥ 0; 0 for none) in series with ESR (Ω, ≥ 0) and ESL (H, ≥ 0). */
export interface CapacitorPart {
  readonly kind: "capacitor";
  readonly C: number;
  readonly ESR: number;
  readonly ESL: number;
}

/** An inductor or a ferrite bead: R_dc (Ω) in series with L (H), R_p (Ω, Infinity for none) and C_p (F) in parallel. */
export interface CoilPart {
  readonly kind: "coil";
  readonly L: number;
  readonly R_dc: number;
  readonly R_p: number;
  readonly C_p: number;
}

/** A bead by rows of its resistance and reactance (Ω) against frequency (Hz). */
export interface TablePart {
  readonly kind: "table";
  readonly R: CurveData;
  readonly X: CurveData;
}

export type Part = ResistorPart | CapacitorPart | CoilPart | TablePart;

const turn = 2 * Math.PI;

/** Impedance at f (Hz, > 0), Ω; not finite for a capacitor of 0 F. Throws "table-range" outside a table. */
export function impedance(part: Part, f: number): Complex {
  const w = turn * f;
  switch (part.kind) {
    case "resistor":
      return real(part.R);
    case "capacitor":
      return { re: part.ESR, im: w * part.ESL - 1 / (w * part.C) };
    case "coil":
      return part.L === 0 ? real(part.R_dc) : add(real(part.R_dc), inverse({ re: 1 / part.R_p, im: w * part.C_p - 1 / (w * part.L) }));
    default:
      return { re: curveAt(part.R, f), im: curveAt(part.X, f) };
  }
}

/** Admittance at f (Hz, > 0), S: 0 for a capacitor of 0 F. */
export function admittance(part: Part, f: number): Complex {
  return part.kind === "capacitor" && part.C === 0 ? zero : inverse(impedance(part, f));
}

/**
 * The elements of a part between two nodes. Throws "model-argument" for a table, which no netlist holds: fit it first.
 */
export function elementsOf(part: Part, name: string, nodes: readonly [string, string]): CircuitElement[] {
  switch (part.kind) {
    case "resistor":
      return [resistorOrWire(name, nodes, part.R)];
    case "capacitor":
      return capacitorElements(part, name, nodes);
    case "coil":
      return coilElements(part, name, nodes);
    default:
      throw new WorkingsError("model-argument", `the part '${name}' is a table of impedances; fit a coil to it to make a circuit of it`, {
        name,
      });
  }
}

function capacitorElements({ C, ESR, ESL }: CapacitorPart, name: string, [a, b]: readonly [string, string]): CircuitElement[] {
  if (C === 0) return [];
  return [
    { kind: "capacitor", name, nodes: [a, `${name}_1`], C },
    resistorOrWire(`${name}_esr`, [`${name}_1`, `${name}_2`], ESR),
    inductorOrWire(`${name}_esl`, [`${name}_2`, b], ESL),
  ];
}

function coilElements({ L, R_dc, R_p, C_p }: CoilPart, name: string, [a, b]: readonly [string, string]): CircuitElement[] {
  const across: readonly [string, string] = [`${name}_1`, b];
  const elements = [resistorOrWire(`${name}_dc`, [a, `${name}_1`], R_dc), inductorOrWire(name, across, L)];
  if (L > 0 && R_p < Infinity) elements.push({ kind: "resistor", name: `${name}_loss`, nodes: across, R: R_p });
  if (L > 0 && C_p > 0) elements.push({ kind: "capacitor", name: `${name}_across`, nodes: across, C: C_p });
  return elements;
}

/** A resistor, or a wire where R is 0 Ω. */
export function resistorOrWire(name: string, nodes: readonly [string, string], R: number): CircuitElement {
  return R === 0 ? wire(name, nodes) : { kind: "resistor", name, nodes, R };
}

/** An inductor, or a wire where L is 0 H. */
export function inductorOrWire(name: string, nodes: readonly [string, string], L: number): CircuitElement {
  return L === 0 ? wire(name, nodes) : { kind: "inductor", name, nodes, L };
}
