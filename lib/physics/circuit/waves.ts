/** What a circuit did in time: voltages, currents, peaks and energies of its elements. */
import { WorkingsError } from "../../quantity/error";
import { type Circuit, type CircuitElement, type Diode, ground } from "./data";
import { pulseAt } from "./pulse-wave";
import type { CircuitSystem } from "./system";

/** Share of a step at which its inner stage stands: 2 − √2. */
export const gamma = 2 - Math.SQRT2;

export interface Peak {
  /** s. */
  readonly t: number;
  /** Signed value of largest magnitude, V or A. */
  readonly value: number;
}

/** Samples at `t` (s): the start and the end of each step. */
export class CircuitWaves {
  readonly t: Float64Array;
  readonly #circuit: Circuit;
  readonly #system: CircuitSystem;
  // The start, then inner stage and end of each step: stages serve energies only, since a sudden start overshoots there
  readonly #times: Float64Array;
  readonly #rows: readonly Float64Array[];

  constructor(circuit: Circuit, system: CircuitSystem, times: Float64Array, rows: readonly Float64Array[]) {
    this.t = ends(times);
    this.#circuit = circuit;
    this.#system = system;
    this.#times = times;
    this.#rows = rows;
  }

  /** Voltage of a node against ground, V. Throws "model-argument" for an unknown node. */
  voltage(node: string): Float64Array {
    return ends(this.#voltage(node));
  }

  /** Voltage across an element, first node against second, V. */
  across(name: string): Float64Array {
    return ends(this.#across(name));
  }

  /**
   * Current through an element from its first to its second node, A. Throws "model-argument" for an unknown element and
   * for a capacitor, whose current no equation holds: put a wire beside it.
   */
  current(name: string): Float64Array {
    return ends(this.#current(name));
  }

  /** Energy that an element took up, J: ∫v·i dt by the weights of the steps. Negative for what a source gave. */
  energy(name: string): number {
    const [v, i] = [this.#across(name), this.#current(name)];
    const p = (at: number): number => (v[at] as number) * (i[at] as number);
    let sum = 0;
    for (let k = 0; k + 2 < this.#times.length; k += 2) {
      const h = (this.#times[k + 2] as number) - (this.#times[k] as number);
      sum += h * (outerWeight * (p(k) + p(k + 1)) + innerWeight * p(k + 2));
    }
    return sum;
  }

  #voltage(node: string): Float64Array {
    if (node === ground) return new Float64Array(this.#times.length);
    const index = this.#system.nodes.get(node);
    if (index === undefined) throw unknown("node", node, [...this.#system.nodes.keys()]);
    return this.#unknown(index);
  }

  #across(name: string): Float64Array {
    const element = this.#element(name);
    if (element.kind === "coupling") throw unknown("element with two nodes", name, []);
    const first = this.#voltage(element.nodes[0]);
    if (element.nodes[1] === ground) return first;
    const second = this.#voltage(element.nodes[1]);
    for (let i = 0; i < first.length; i++) first[i] = (first[i] as number) - (second[i] as number);
    return first;
  }

  #current(name: string): Float64Array {
    const branch = this.#system.branches.get(name);
    if (branch !== undefined) return this.#unknown(branch);
    const element = this.#element(name);
    switch (element.kind) {
      case "resistor":
        return mapped(this.#across(name), (v) => v / element.R);
      case "diode":
        return mapped(this.#across(name), (v) => diodeCurrent(element, v));
      case "current": {
        const { value } = element;
        return this.#times.map((t) => (typeof value === "number" ? value : pulseAt(value, t)));
      }
      default:
        throw unknown("element whose current is held", name, [...this.#system.branches.keys()]);
    }
  }

  #unknown(index: number): Float64Array {
    const wave = new Float64Array(this.#rows.length);
    for (let i = 0; i < wave.length; i++) wave[i] = (this.#rows[i] as Float64Array)[index] as number;
    return wave;
  }

  #element(name: string): CircuitElement {
    const element = this.#circuit.find((each) => each.name === name);
    if (element !== undefined) return element;
    const names = this.#circuit.map((each) => each.name);
    throw unknown("element", name, names);
  }
}

/** Share of a peak by which its neighbours may lie below it for a parabola to tell more than they do; a jump is no parabola. */
const resolved = 0.1;
const outerWeight = Math.SQRT2 / 4;
const innerWeight = 1 - Math.SQRT2 / 2;

function diodeCurrent({ V_f, R_f, V_br, R_br }: Diode, v: number): number {
  if (v > V_f) return (v - V_f) / R_f;
  return v < -V_br ? (v + V_br) / R_br : 0;
}

/** The wave itself, changed in place: it is its caller's own. */
function mapped(wave: Float64Array, change: (value: number) => number): Float64Array {
  for (let i = 0; i < wave.length; i++) wave[i] = change(wave[i] as number);
  return wave;
}

/** Every second sample. */
function ends(wave: Float64Array): Float64Array {
  const kept = new Float64Array((wave.length + 1) >> 1);
  for (let i = 0; i < kept.length; i++) kept[i] = wave[2 * i] as number;
  return kept;
}

/** The largest magnitude of a wave: by the parabola through the three samples about it where they lie close together, else the sample. */
export function peakOf(t: Float64Array, wave: Float64Array): Peak {
  let best = 0;
  for (let i = 1; i < wave.length; i++) {
    if (Math.abs(wave[i] as number) > Math.abs(wave[best] as number)) best = i;
  }
  const top = { t: t[best] as number, value: wave[best] as number };
  if (best === 0 || best === wave.length - 1) return top;
  const left = (t[best] as number) - (t[best - 1] as number);
  const right = (t[best + 1] as number) - (t[best] as number);
  const [rise, fall] = [top.value - (wave[best - 1] as number), top.value - (wave[best + 1] as number)];
  if (Math.max(Math.abs(rise), Math.abs(fall)) > resolved * Math.abs(top.value)) return top;
  const span = left * right * (left + right);
  const slope = (rise * right * right - fall * left * left) / span;
  const bend = -(rise * right + fall * left) / span;
  return bend === 0 ? top : { t: top.t - slope / (2 * bend), value: top.value - (slope * slope) / (4 * bend) };
}

function unknown(what: string, name: string, present: readonly string[]): WorkingsError {
  const hint = present.length === 0 ? "" : `; there are ${present.join(", ")}`;
  return new WorkingsError("model-argument", `the circuit has no ${what} '${name}'${hint}`, { name });
}
