/**
 * A common-mode choke: two equal windings of self-inductance L coupled by k, one in each line. Driven alike (common
 * mode), each winding shows L·(1 + k); driven oppositely (differential mode), L·(1 − k), the leakage. The symmetric
 * pair so falls into two independent two-ports (common practice, no source).
 * Winding capacitance and loss lie across each winding. Saturation and unequal lines are left out.
 */
import { type Circuit, type CircuitElement, ground } from "../circuit/data";
import { type CapacitorPart, type CoilPart, elementsOf, inductorOrWire, resistorOrWire } from "./parts";
import type { Section } from "./two-port";

export type Mode = "common" | "differential";

/** L (H), R_dc, R_p (Ω), C_p (F) of each winding; k the coupling, 0 to 1. */
export interface Choke {
  readonly L: number;
  readonly k: number;
  readonly R_dc: number;
  readonly R_p: number;
  readonly C_p: number;
}

/** A choke with a capacitor C_y from each line to ground, and C_x between the lines, on the load's side; 0 F for none. */
export interface ChokeFilter extends Choke {
  readonly C_x: number;
  readonly C_y: number;
  readonly ESR: number;
  readonly ESL: number;
}

/** What one winding is to a mode. */
export function windingOf({ L, k, R_dc, R_p, C_p }: Choke, mode: Mode): CoilPart {
  return { kind: "coil", L: L * (mode === "common" ? 1 + k : 1 - k), R_dc, R_p, C_p };
}

/**
 * The two-port of a mode. Common: both lines in parallel against ground, so half a winding and two C_y. Differential:
 * the loop through both lines, so two windings, with C_x and the two C_y in series across it.
 */
export function modeChain(filter: ChokeFilter, mode: Mode): Section[] {
  const winding = windingOf(filter, mode);
  const lines = mode === "common" ? 0.5 : 2;
  return [
    { place: "series", part: scaled(winding, lines) },
    { place: "shunt", part: capacitor(filter, filter.C_y, lines) },
    { place: "shunt", part: capacitor(filter, mode === "common" ? 0 : filter.C_x, 1) },
  ];
}

/** The impedance of a coil times a factor. */
function scaled({ L, R_dc, R_p, C_p }: CoilPart, factor: number): CoilPart {
  return { kind: "coil", L: L * factor, R_dc: R_dc * factor, R_p: R_p * factor, C_p: C_p / factor };
}

function capacitor({ ESR, ESL }: ChokeFilter, C: number, factor: number): CapacitorPart {
  return { kind: "capacitor", C: C / factor, ESR: ESR * factor, ESL: ESL * factor };
}

/**
 * Both lines in full, for a netlist: driven by 1 V behind R_s in the mode, loaded with R_L; common mode from both
 * lines to ground, differential mode between them. The load's voltage is v(p) in common mode, v(p,q) in differential.
 */
export function chokeCircuit(filter: ChokeFilter, mode: Mode, R_s: number, R_L: number): Circuit {
  const common = mode === "common";
  const inputs: readonly [string, string] = common ? ["in", "in"] : ["in_p", "in_q"];
  const lines = (["p", "q"] as const).flatMap((line, i) => lineElements(filter, line, inputs[i] as string));
  const between: CircuitElement[] = filter.C_x === 0 ? [] : elementsOf({ ...capacitor(filter, filter.C_x, 1) }, "C_x", ["p", "q"]);
  const coupling: CircuitElement[] = [{ kind: "coupling", name: "core", inductors: ["w_p", "w_q"], k: filter.k }];
  return [...(common ? commonEnds(R_s, R_L) : differentialEnds(R_s, R_L)), ...lines, ...coupling, ...between];
}

function lineElements({ L, R_dc, R_p, C_p, C_y, ESR, ESL }: ChokeFilter, line: "p" | "q", input: string): CircuitElement[] {
  const winding: readonly [string, string] = [`${line}_1`, line];
  const elements = [resistorOrWire(`dc_${line}`, [input, `${line}_1`], R_dc), inductorOrWire(`w_${line}`, winding, L)];
  if (R_p < Infinity) elements.push({ kind: "resistor", name: `loss_${line}`, nodes: winding, R: R_p });
  if (C_p > 0) elements.push({ kind: "capacitor", name: `across_${line}`, nodes: winding, C: C_p });
  return [...elements, ...elementsOf({ kind: "capacitor", C: C_y, ESR, ESL }, `C_${line}`, [line, ground])];
}

function commonEnds(R_s: number, R_L: number): CircuitElement[] {
  return [
    { kind: "voltage", name: "source", nodes: ["emf", ground], value: 0, ac: 1 },
    resistorOrWire("R_s", ["emf", "in"], R_s),
    { kind: "resistor", name: "R_L_p", nodes: ["p", ground], R: 2 * R_L },
    { kind: "resistor", name: "R_L_q", nodes: ["q", ground], R: 2 * R_L },
  ];
}

function differentialEnds(R_s: number, R_L: number): CircuitElement[] {
  return (["p", "q"] as const).flatMap((line, i): CircuitElement[] => [
    { kind: "voltage", name: `source_${line}`, nodes: [`emf_${line}`, ground], value: 0, ac: i === 0 ? 0.5 : -0.5 },
    resistorOrWire(`R_s_${line}`, [`emf_${line}`, `in_${line}`], R_s / 2),
    { kind: "resistor", name: `R_L_${line}`, nodes: [line, ground], R: R_L / 2 },
  ]);
}
