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
/** When the pin's clamp has taken in all but 0.2 % of its energy, s; in the first 200 ns it may take but three quarters of it. */
const waveEnd = 400e-9;

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

/** Peaks and energies of the standard's contact current at U (V) in the network. */
export function strike(protection: Protection, U: number): Strike {
  return figures(protection, transient(dischargeCircuit(protection, U), { stop: waveEnd, tolerance }));
}

/** Peaks and energies of a charged capacitor's discharge through the network, followed for ten time constants. */
export function bodyStrike(protection: Protection, body: ChargedBody): Strike {
  return figures(protection, transient(bodyCircuit(protection, body), { stop: 10 * body.C_0 * body.R_0, tolerance }));
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
