/**
 * The equations of a circuit by modified nodal analysis: dQ(x)/dt + F(x) = s(t) for the node voltages and the currents
 * of sources and inductors x (C.-W. Ho, A. E. Ruehli, P. A. Brennan, IEEE Trans. Circuits and Systems 22, 1975, 504; from memory).
 * What bends does so in straight pieces: each such element is in one of three regions, and in each combination of
 * regions the equations are linear.
 */
import { type Circuit, checkCircuit, type Diode, ground, type Inductor, nodesOf, type PulseWave, type Source } from "./data";
import { pulseAt } from "./pulse-wave";

/** −1 below, 0 between, 1 above the corners of an element in straight pieces. */
type Region = -1 | 0 | 1;

/** y = slope·u + offset of u = x[a] − x[b], by region −1, 0, 1; added to F or Q of row a and taken from that of b. */
export interface Bend {
  readonly of: "F" | "Q";
  readonly a: number;
  readonly b: number;
  readonly corners: readonly [number, number];
  readonly slopes: readonly [number, number, number];
  readonly offsets: readonly [number, number, number];
}

interface Drive {
  /** Rows that get + and − the value of the source. */
  readonly plus: number;
  readonly minus: number;
  readonly value: number | PulseWave;
}

/** What is not zero of a matrix: value k stands in row rows[k] and column columns[k]. */
interface Sparse {
  readonly rows: Int32Array;
  readonly columns: Int32Array;
  readonly values: Float64Array;
}

/** Equations and where their unknowns stand; −1 is ground. */
export interface CircuitSystem {
  readonly size: number;
  readonly nodes: ReadonlyMap<string, number>;
  readonly branches: ReadonlyMap<string, number>;
  readonly G: Float64Array;
  readonly C: Float64Array;
  /** G without its zeros. */
  readonly sparseG: Sparse;
  readonly bends: readonly Bend[];
  readonly drives: readonly Drive[];
  /** Q at t = 0 of the initial voltages. */
  readonly start: Float64Array;
}

/** A conductance that holds up a node which diodes that do not carry leave floating, S. */
const leak = 1e-12;

/** The equations of a circuit. Throws "model-argument" for a circuit that is none. */
export function systemOf(circuit: Circuit): CircuitSystem {
  checkCircuit(circuit);
  const nodes = new Map(nodesOf(circuit).map((node, i) => [node, i] as const));
  const withBranch = circuit.filter(({ kind }) => kind === "inductor" || kind === "voltage");
  const branches = new Map(withBranch.map(({ name }, i) => [name, nodes.size + i] as const));
  const size = nodes.size + branches.size;
  const [G, C, start] = [new Float64Array(size * size), new Float64Array(size * size), new Float64Array(size)];
  const bends: Bend[] = [];
  const drives: Drive[] = [];
  for (let i = 0; i < nodes.size; i++) addTo(G, size, i, i, leak);
  const growing = { size, nodes, branches, G, C, start, bends, drives };
  for (const element of circuit) stamp(element, growing, circuit);
  return { ...growing, sparseG: sparse(G, size) };
}

function sparse(matrix: Float64Array, size: number): Sparse {
  const places = [...matrix.keys()].filter((i) => matrix[i] !== 0);
  return {
    rows: Int32Array.from(places, (i) => Math.floor(i / size)),
    columns: Int32Array.from(places, (i) => i % size),
    values: Float64Array.from(places, (i) => matrix[i] as number),
  };
}

/** Index of a node; −1 for ground. */
function nodeIndex(nodes: ReadonlyMap<string, number>, node: string): number {
  return node === ground ? -1 : (nodes.get(node) ?? Number.NaN);
}

interface Growing extends Omit<CircuitSystem, "sparseG"> {
  readonly bends: Bend[];
  readonly drives: Drive[];
}

function stamp(element: Circuit[number], system: Growing, circuit: Circuit): void {
  const { G, C, nodes, branches, size, start } = system;
  if (element.kind === "coupling") {
    const [first, second] = element.inductors.map((name) => circuit.find((other) => other.name === name) as Inductor) as [
      Inductor,
      Inductor,
    ];
    const M = element.k * Math.sqrt(first.L * second.L);
    const [i, j] = [branches.get(first.name) as number, branches.get(second.name) as number];
    addTo(C, size, i, j, M);
    addTo(C, size, j, i, M);
    return;
  }
  const [a, b] = [nodeIndex(nodes, element.nodes[0]), nodeIndex(nodes, element.nodes[1])];
  switch (element.kind) {
    case "resistor":
      stampPair(G, size, a, b, 1 / element.R);
      break;
    case "capacitor":
      addCharge(start, a, b, element.C * (element.initial ?? 0));
      stampPair(C, size, a, b, element.C);
      break;
    case "inductor":
      stampInductor(element, system, a, b);
      break;
    case "diode":
      system.bends.push(diodeBend(element, a, b));
      break;
    default:
      stampSource(element, system, a, b);
  }
}

function stampInductor({ name, L, saturation }: Inductor, { G, C, branches, size, bends }: Growing, a: number, b: number): void {
  const row = branches.get(name) as number;
  stampBranch(G, size, a, b, row, -1);
  addTo(C, size, row, row, saturation?.L ?? L);
  if (saturation === undefined) return;
  const more = L - saturation.L;
  const corner = more * saturation.I;
  bends.push({ of: "Q", a: row, b: -1, corners: [-saturation.I, saturation.I], slopes: [0, more, 0], offsets: [-corner, 0, corner] });
}

function stampSource({ kind, name, value }: Source, { G, branches, size, drives }: Growing, a: number, b: number): void {
  if (kind === "current") {
    drives.push({ plus: b, minus: a, value });
    return;
  }
  const row = branches.get(name) as number;
  stampBranch(G, size, a, b, row, 1);
  drives.push({ plus: row, minus: -1, value });
}

function diodeBend({ V_f, R_f, V_br, R_br }: Diode, a: number, b: number): Bend {
  const offset = (corner: number, R: number): number => (Math.abs(corner) === Infinity ? 0 : -corner / R);
  return { of: "F", a, b, corners: [-V_br, V_f], slopes: [1 / R_br, 0, 1 / R_f], offsets: [offset(-V_br, R_br), 0, offset(V_f, R_f)] };
}

/** The current of a branch in its nodes' sums, and ±(v_a − v_b) in its own row. */
function stampBranch(G: Float64Array, size: number, a: number, b: number, row: number, sign: number): void {
  addTo(G, size, a, row, 1);
  addTo(G, size, b, row, -1);
  addTo(G, size, row, a, sign);
  addTo(G, size, row, b, -sign);
}

/** Adds an admittance between two unknowns. */
export function stampPair(matrix: Float64Array, size: number, a: number, b: number, value: number): void {
  addTo(matrix, size, a, a, value);
  addTo(matrix, size, b, b, value);
  addTo(matrix, size, a, b, -value);
  addTo(matrix, size, b, a, -value);
}

function addTo(matrix: Float64Array, size: number, row: number, column: number, value: number): void {
  if (row < 0 || column < 0) return;
  matrix[row * size + column] = (matrix[row * size + column] as number) + value;
}

/** Adds a value at a and takes it at b. */
export function addCharge(vector: Float64Array, a: number, b: number, value: number): void {
  if (a >= 0) vector[a] = (vector[a] as number) + value;
  if (b >= 0) vector[b] = (vector[b] as number) - value;
}

/** What the sources give at t, written into `out`. */
export function sourcesAt({ drives }: CircuitSystem, t: number, out: Float64Array): void {
  out.fill(0);
  for (const { plus, minus, value } of drives) {
    addCharge(out, plus, minus, typeof value === "number" ? value : pulseAt(value, t));
  }
}

/** F of x, each element in its own region, written into `out`. */
export function evaluateF({ sparseG: { rows, columns, values }, bends }: CircuitSystem, x: Float64Array, out: Float64Array): void {
  out.fill(0);
  for (let k = 0; k < values.length; k++) {
    const row = rows[k] as number;
    out[row] = (out[row] as number) + (values[k] as number) * (x[columns[k] as number] as number);
  }
  for (const bend of bends) {
    if (bend.of !== "F") continue;
    const u = difference(x, bend.a, bend.b);
    const r = regionOf(bend, u) + 1;
    addCharge(out, bend.a, bend.b, (bend.slopes[r] as number) * u + (bend.offsets[r] as number));
  }
}

/** x[a] − x[b], ground being 0. */
export function difference(x: Float64Array, a: number, b: number): number {
  return (a < 0 ? 0 : (x[a] as number)) - (b < 0 ? 0 : (x[b] as number));
}

/** The region of an element at u. */
export function regionOf({ corners }: Bend, u: number): Region {
  return u > corners[1] ? 1 : u < corners[0] ? -1 : 0;
}
