/**
 * A circuit as plain data: named elements between named nodes, in SI. The same data are solved in time, written as a
 * netlist and made by the filters and protection networks of other subjects. Node "0" is ground; all voltages are
 * against it. Without switches: what changes with time is a source, what changes with voltage or current is a diode
 * or an inductor that saturates, both in straight pieces.
 */
import { WorkingsError } from "../../quantity/error";

/** A sum of Heidler's terms: scale·Σ peak·x/(1 + x)·exp(−t/fall), x = (t/rise)^power; nothing before t = 0. */
export interface PulseWave {
  readonly scale: number;
  readonly terms: readonly { readonly peak: number; readonly rise: number; readonly fall: number; readonly power: number }[];
}

interface Named {
  /** Letters, digits and underscores; the netlist puts the letter of the kind before it. */
  readonly name: string;
}

interface TwoTerminal extends Named {
  /** Current is counted from the first to the second through the element. */
  readonly nodes: readonly [string, string];
}

/** R in Ω, > 0. */
export interface Resistor extends TwoTerminal {
  readonly kind: "resistor";
  readonly R: number;
}

/** C in F, > 0; initial voltage in V. */
export interface Capacitor extends TwoTerminal {
  readonly kind: "capacitor";
  readonly C: number;
  readonly initial?: number;
}

/** L in H, > 0. With `saturation`, L holds for currents within ±I (A) and L beyond is what each further ampere adds. */
export interface Inductor extends TwoTerminal {
  readonly kind: "inductor";
  readonly L: number;
  readonly saturation?: { readonly I: number; readonly L: number };
}

/** Coupling of two inductors, −1 < k < 1; the dots are at their first nodes. */
export interface Coupling extends Named {
  readonly kind: "coupling";
  readonly inductors: readonly [string, string];
  readonly k: number;
}

/** V or A: constant, or a pulse; `ac` is the amplitude in a frequency sweep. */
export interface Source extends TwoTerminal {
  readonly kind: "voltage" | "current";
  readonly value: number | PulseWave;
  readonly ac?: number;
}

/**
 * A diode in straight pieces: above V_f (V) it carries (v − V_f)/R_f, below −V_br it carries (v + V_br)/R_br, between
 * them nothing. Infinity for a voltage that is never reached.
 */
export interface Diode extends TwoTerminal {
  readonly kind: "diode";
  readonly V_f: number;
  readonly R_f: number;
  readonly V_br: number;
  readonly R_br: number;
}

export type CircuitElement = Resistor | Capacitor | Inductor | Coupling | Source | Diode;
export type Circuit = readonly CircuitElement[];

export const ground = "0";

/** A connection without resistance that can be asked for its current. */
export function wire(name: string, nodes: readonly [string, string]): Source {
  return { kind: "voltage", name, nodes, value: 0 };
}

/** Nodes other than ground, in the order in which they are first named. */
export function nodesOf(circuit: Circuit): string[] {
  const nodes = circuit.flatMap((element) => ("nodes" in element ? element.nodes : []));
  return [...new Set(nodes)].filter((node) => node !== ground);
}

/** Throws "model-argument" where a name is double or unusable, a value is out of range, or a coupling has no inductors. */
export function checkCircuit(circuit: Circuit): void {
  const names = new Set<string>();
  const nodes = nodesOf(circuit);
  if (new Set(nodes.map((node) => node.toLowerCase())).size < nodes.length) {
    throw new WorkingsError("model-argument", `of the nodes ${nodes.join(", ")} two differ in capitals only; a netlist takes them for one`);
  }
  for (const element of circuit) {
    const name = element.name.toLowerCase();
    if (!/^\w+$/.test(name) || names.has(name)) {
      throw refusal(element, "needs a name of its own of letters, digits and underscores; capitals do not tell names apart");
    }
    names.add(name);
    const fault = faultOf(element, circuit);
    if (fault !== undefined) throw refusal(element, fault);
  }
}

function faultOf(element: CircuitElement, circuit: Circuit): string | undefined {
  if ("nodes" in element && !element.nodes.every((node) => /^\w+$/.test(node))) return "has a node whose name is not letters and digits";
  switch (element.kind) {
    case "resistor":
      return positive(element.R) ? undefined : `needs R > 0 Ω, not ${element.R}; a connection without resistance is a wire`;
    case "capacitor":
      return positive(element.C) ? undefined : `needs C > 0 F, not ${element.C}; leave it out instead`;
    case "inductor":
      return inductorFault(element);
    case "coupling":
      return couplingFault(element, circuit);
    case "diode":
      return diodeFault(element);
    default:
      return undefined;
  }
}

function inductorFault({ L, saturation }: Inductor): string | undefined {
  if (!positive(L)) return `needs L > 0 H, not ${L}; a connection without inductance is a wire`;
  if (saturation === undefined || (positive(saturation.I) && positive(saturation.L))) return undefined;
  return `needs a saturation current and an inductance beyond it above zero, not ${saturation.I} A and ${saturation.L} H`;
}

function couplingFault({ inductors, k }: Coupling, circuit: Circuit): string | undefined {
  if (!(k > -1 && k < 1)) return `needs −1 < k < 1, not ${k}`;
  const found = inductors.map((name) => circuit.find((other) => other.kind === "inductor" && other.name === name) as Inductor | undefined);
  if (found.some((inductor) => inductor === undefined))
    return `couples ${inductors.join(" and ")}, which are not both inductors of the circuit`;
  return found.some((inductor) => inductor?.saturation !== undefined)
    ? "couples an inductor that saturates; only constant ones couple"
    : undefined;
}

function diodeFault({ V_f, R_f, V_br, R_br }: Diode): string | undefined {
  if (V_f > -V_br && positive(R_f) && positive(R_br)) return undefined;
  return `needs V_f > −V_br and R_f, R_br > 0; got V_f = ${V_f} V, V_br = ${V_br} V, R_f = ${R_f} Ω, R_br = ${R_br} Ω`;
}

function positive(value: number): boolean {
  return value > 0 && value < Infinity;
}

function refusal({ kind, name }: CircuitElement, fault: string): WorkingsError {
  return new WorkingsError("model-argument", `the ${kind} '${name}' ${fault}`, { element: name });
}
