/**
 * A discharge into a connector, in time: a clamp to ground behind a stub, a choke that saturates and a resistor in the
 * line, and the protected pin with its own clamps and capacitance. Powered, a pin clamps at its rail plus a diode drop;
 * unpowered, its rail is held at 0 V by its capacitors and it clamps at the drop alone, which is the harder case. Clamps
 * are straight pieces, V_br + I·R_dyn, alike for both polarities. Left out: the time a clamp takes to turn on, snapback,
 * heating and failure, coupling past the network by fields, and the bounce of ground.
 *
 * For design only. ESD tests follow IEC 61000-4-2 and are made by trained staff: kilovolts and discharges can hurt.
 */
import { type Circuit, type CircuitElement, type Diode, ground, type Source } from "../circuit/data";
import { transient } from "../circuit/transient";
import { type CircuitWaves, peakOf } from "../circuit/waves";
import { inductorOrWire, resistorOrWire } from "../rf/parts";
import { dischargeWave } from "./waveform";

/** V, Ω, H, F, A. */
export interface Protection {
  /** Clamp: stub inductance to it and to ground, breakdown voltage, dynamic resistance, capacitance. */
  readonly L_st: number;
  readonly V_br: number;
  readonly R_dyn: number;
  readonly C_cl: number;
  /** Choke: inductance up to I_sat and beyond it, direct-current resistance and parallel loss resistance. */
  readonly L: number;
  readonly L_sat: number;
  readonly I_sat: number;
  readonly R_dc: number;
  readonly R_p: number;
  /** Resistor in the line. */
  readonly R: number;
  /** Pin: capacitance, rail voltage (0 unpowered), drop and resistance of its clamp. */
  readonly C_pin: number;
  readonly V_rail: number;
  readonly V_f: number;
  readonly R_pin: number;
}

/** What a discharge does: peaks in A and V, energies in J. */
export interface Strike {
  readonly I_pin: number;
  readonly I_cl: number;
  readonly V_j: number;
  readonly V_pin: number;
  readonly E_cl: number;
  readonly E_R: number;
  readonly E_pin: number;
}

/**
 * A capacitor charged to U (V) behind a resistance and the inductance of its way: 150 pF and 330 Ω of the standard's
 * generator (without hand and tip, hence without the first peak), 100 pF and 1.5 kΩ of the human-body model, whose edge
 * of 2 ns to 10 ns stands for some µH. With 0 H the current jumps, and peaks across a stub mean nothing.
 */
export interface ChargedBody {
  readonly U: number;
  readonly C_0: number;
  readonly R_0: number;
  readonly L_0: number;
}

/** Keeps all figures within 1 % of those of a thousandth of it; a pin's current that has only just begun, within a thousandth of its clamp's volts over R_pin. */
const tolerance = 1e-3;
/** When the contact current has fallen to 2e-5 of its second peak, s. */
const waveEnd = 400e-9;
/** Share of an energy that may still be missing from it, and share of all energies below which one does not matter. */
const [missing, trifle] = [2e-3, 1e-4];

/** The network with the standard's contact current at the test voltage U (V) forced into the connector, node "jack". */
export function dischargeCircuit(protection: Protection, U: number): Circuit {
  const source: Source = { kind: "current", name: "discharge", nodes: [ground, "jack"], value: dischargeWave(U) };
  return [source, ...network(protection)];
}

/** The network with a charged capacitor connected to it at t = 0. */
export function bodyCircuit(protection: Protection, { U, C_0, R_0, L_0 }: ChargedBody): Circuit {
  const arm = L_0 === 0 ? "jack" : "arm";
  return [
    { kind: "capacitor", name: "body", nodes: ["body", ground], C: C_0, initial: U },
    { kind: "resistor", name: "R_0", nodes: ["body", arm], R: R_0 },
    ...(L_0 === 0 ? [] : [inductorOrWire("L_0", [arm, "jack"], L_0)]),
    ...network(protection),
  ];
}

/** Peaks and energies of the standard's contact current at U (V) in the network, followed until the network is at rest. */
export function strike(protection: Protection, U: number): Strike {
  return followed(protection, dischargeCircuit(protection, U), waveEnd);
}

/** Peaks and energies of a charged capacitor's discharge through the network, followed until all is at rest, however it rings. */
export function bodyStrike(protection: Protection, body: ChargedBody): Strike {
  const swing = Math.sqrt(body.L_0 * body.C_0);
  return followed(protection, bodyCircuit(protection, body), Math.max(10 * body.C_0 * body.R_0, swing));
}

function followed(protection: Protection, circuit: Circuit, stop: number): Strike {
  const until = (waves: CircuitWaves): boolean => atRest(protection, circuit, waves);
  return figures(protection, transient(circuit, { stop, tolerance, until }));
}

/** Whether what the network can still give off would add next to nothing to the energy in any of its parts. */
function atRest(protection: Protection, circuit: Circuit, waves: CircuitWaves): boolean {
  const energies = circuit.filter(({ kind }) => kind === "resistor" || kind === "diode").map(({ name }) => waves.energy(name));
  const all = energies.reduce((sum, energy) => sum + energy, 0);
  const { E_cl, E_R, E_pin } = figures(protection, waves);
  const least = [E_cl, E_pin, ...(protection.R > 0 ? [E_R] : [])].reduce((a, b) => Math.min(a, b));
  return available(protection, circuit, waves) <= missing * Math.max(least, trifle * all);
}

/**
 * Energy (J) that is not yet given off and can be: of the inductors all; of the capacitors what levelling them gives off,
 * Σ C·(v − v̄)²/2 with v̄ = Σ C·v/Σ C, and what their common voltage holds above that at which no clamp carries.
 */
function available({ V_br, V_rail, V_f }: Protection, circuit: Circuit, waves: CircuitWaves): number {
  const last = (wave: Float64Array): number => wave[wave.length - 1] as number;
  let [magnetic, C, charge] = [0, 0, 0];
  const held: { readonly C: number; readonly v: number }[] = [];
  for (const element of circuit) {
    if (element.kind === "inductor") magnetic += (element.L * last(waves.current(element.name)) ** 2) / 2;
    if (element.kind !== "capacitor") continue;
    const v = last(waves.across(element.name));
    held.push({ C: element.C, v });
    C += element.C;
    charge += element.C * v;
  }
  const mean = C > 0 ? charge / C : 0;
  const uneven = held.reduce((sum, { C, v }) => sum + (C * (v - mean) ** 2) / 2, 0);
  const quiet = Math.min(V_br, V_rail + V_f);
  return magnetic + uneven + Math.max(0, (C * (mean * mean - quiet * quiet)) / 2);
}

/** The order of what is in series does not matter: the two resistances of the line are one. */
function network({ L_st, V_br, R_dyn, C_cl, L, R_dc, R, ...line }: Protection): CircuitElement[] {
  const [clamp, after] = [L_st === 0 ? "jack" : "clamp", L === 0 ? "jack" : "line"];
  return [
    ...(L_st === 0 ? [] : [inductorOrWire("stub", ["jack", clamp], L_st)]),
    clampTo("clamp", clamp, V_br, R_dyn),
    ...capacitorUnlessNone("C_cl", clamp, C_cl),
    ...(L === 0 ? [] : chokeElements({ L, ...line })),
    resistorOrWire("R", [after, "pin"], R_dc + R),
    ...capacitorUnlessNone("C_pin", "pin", line.C_pin),
    clampTo("pin_clamp", "pin", line.V_rail + line.V_f, line.R_pin),
  ];
}

function chokeElements({ L, L_sat, I_sat, R_p }: Pick<Protection, "L" | "L_sat" | "I_sat" | "R_p">): CircuitElement[] {
  const nodes = ["jack", "line"] as const;
  const saturates = L_sat < L && I_sat < Infinity;
  return [
    { kind: "inductor", name: "choke", nodes, L, ...(saturates ? { saturation: { I: I_sat, L: L_sat } } : {}) },
    ...(R_p < Infinity ? [{ kind: "resistor", name: "R_p", nodes, R: R_p } as const] : []),
  ];
}

/** A clamp of both polarities between a node and ground. */
function clampTo(name: string, node: string, V: number, R: number): Diode {
  return { kind: "diode", name, nodes: [node, ground], V_f: V, R_f: R, V_br: V, R_br: R };
}

function capacitorUnlessNone(name: string, node: string, C: number): CircuitElement[] {
  return C === 0 ? [] : [{ kind: "capacitor", name, nodes: [node, ground], C }];
}

/** Energy in the resistor R is its share of what both resistances of the line take. */
function figures({ R, R_dc }: Protection, waves: CircuitWaves): Strike {
  const most = (wave: Float64Array): number => Math.abs(peakOf(waves.t, wave).value);
  return {
    I_pin: most(waves.current("pin_clamp")),
    I_cl: most(waves.current("clamp")),
    V_j: most(waves.voltage("jack")),
    V_pin: most(waves.voltage("pin")),
    E_cl: waves.energy("clamp"),
    E_R: R === 0 ? 0 : (waves.energy("R") * R) / (R + R_dc),
    E_pin: waves.energy("pin_clamp"),
  };
}
