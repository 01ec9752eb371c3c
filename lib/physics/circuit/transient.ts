/**
 * A circuit in time by TR-BDF2: a trapezoidal step over the share γ = 2 − √2 of each step, then a backward difference
 * over all of it (R. E. Bank et al., IEEE Trans. Electron Devices 32, 1985, 1992; M. E. Hosea and L. F. Shampine, Appl.
 * Numer. Math. 20, 1996, 21; from memory). Second order, damps what is faster than the step, and both stages share one matrix.
 * Steps are the whole time halved so many times, hence few different ones: their inverses are kept. The third-order
 * error estimate, passed through the equations, sets them; at a bend it can but halve the step. Where nothing stores a
 * charge that estimate is blind, so no step may be longer than a straight line follows the sources.
 */

import { WorkingsError } from "../../quantity/error";
import { product } from "../numerics/matrix";
import type { Circuit } from "./data";
import { StageSolver } from "./stage";
import { type CircuitSystem, evaluateF, sourcesAt, systemOf } from "./system";
import { CircuitWaves, gamma } from "./waves";

export interface TransientOptions {
  /** End of the time, s, > 0. */
  readonly stop: number;
  /** Asked at `stop`: where it is not yet true the time is doubled, and so on. */
  readonly until?: (waves: CircuitWaves) => boolean;
  /** Error of a step allowed in each unknown, as a share of its largest value so far. */
  readonly tolerance?: number;
}

/** The whole time and the first step in units of the shortest step, so that times are exact: 2²⁸ and 2¹². */
const ticks = 268_435_456;
const firstStep = 4096;
const mostSteps = 20_000;
/** Where the end is looked for: enough for a ring of a thousand periods. */
const mostFollowed = 100_000;
const stageFactor = 2 / gamma;
const estimate = (2 * (-3 * gamma * gamma + 4 * gamma - 2)) / (12 * (2 - gamma));
const ofStage = 1 / (gamma * (2 - gamma));
const ofStart = ((1 - gamma) * (1 - gamma)) / (gamma * (2 - gamma));
/** Deviation of a source from a straight line over a step, as a share of its largest value so far. */
const chord = 0.01;
/** Volts or amperes below which an unknown is noise. */
const floor = 1e-6;

/**
 * The circuit from its initial voltages (inductors without current) at t = 0 to `stop`, or on until `until` says so.
 * Throws "model-argument" for a circuit that is none, "nominal-domain" where its equations have no solution or need more
 * than 20 000 steps (100 000 with `until`).
 */
export function transient(circuit: Circuit, { stop, until, tolerance = 5e-4 }: TransientOptions): CircuitWaves {
  if (!(stop > 0 && stop < Infinity)) throw new WorkingsError("not-finite", `a transient needs an end after 0 s, not ${stop}`);
  const system = systemOf(circuit);
  const run = new Run(system, stop, tolerance, until === undefined ? mostSteps : mostFollowed);
  for (;;) {
    const waves = new CircuitWaves(circuit, system, ...run.finish());
    if (until?.(waves) ?? true) return waves;
    run.double();
  }
}

class Run {
  readonly #system: CircuitSystem;
  readonly #solver: StageSolver;
  readonly #tolerance: number;
  readonly #most: number;
  #stop: number;
  // Where the run stands and its next step, in ticks
  #at = 0;
  #length = firstStep;
  #steps = 0;
  readonly #times: number[] = [0];
  readonly #rows: Float64Array[] = [];
  readonly #largest: Float64Array;
  // Charges and their slopes at the start, the stage and the end of a step
  readonly #Q: readonly [Float64Array, Float64Array, Float64Array];
  readonly #slope: readonly [Float64Array, Float64Array, Float64Array];
  readonly #stage: Float64Array;
  readonly #end: Float64Array;
  // Sources at the start, the stage and the end of a step, and their largest values
  readonly #source: readonly [Float64Array, Float64Array, Float64Array];
  readonly #largestSource: Float64Array;
  readonly #work: Float64Array;
  readonly #F: Float64Array;

  constructor(system: CircuitSystem, stop: number, tolerance: number, most: number) {
    const vector = (): Float64Array => new Float64Array(system.size);
    this.#system = system;
    this.#solver = new StageSolver(system);
    this.#stop = stop;
    this.#tolerance = tolerance;
    this.#most = most;
    this.#largest = vector();
    this.#Q = [vector(), vector(), vector()];
    this.#slope = [vector(), vector(), vector()];
    this.#source = [vector(), vector(), vector()];
    this.#largestSource = vector();
    [this.#stage, this.#end, this.#work, this.#F] = [vector(), vector(), vector(), vector()];
  }

  finish(): [Float64Array, readonly Float64Array[]] {
    if (this.#rows.length === 0) this.#begin();
    while (this.#at < ticks) {
      while (this.#at + this.#length > ticks) this.#length /= 2;
      const [t, h] = [(this.#at / ticks) * this.#stop, (this.#length / ticks) * this.#stop];
      const size = this.#attempt(t, h);
      if (!(size <= 1) && this.#length > 1) {
        this.#length = Math.max(1, this.#length / (size > 8 ? 4 : 2));
        continue;
      }
      if (++this.#steps > this.#most || !Number.isFinite(size)) throw stuck(t);
      this.#accept(t, h);
      this.#at += this.#length;
      if (size < 0.1) this.#length *= 2;
    }
    return [Float64Array.from(this.#times), this.#rows.slice()];
  }

  /** Twice the time; steps keep their length in seconds, so that their inverses are met again. */
  double(): void {
    this.#stop *= 2;
    this.#at /= 2;
    this.#length = Math.max(1, this.#length / 2);
  }

  /**
   * A backward step too short to move a charge makes node voltages of the initial ones; a second one, still far shorter
   * than any that counts, lets what is faster settle without overshoot.
   */
  #begin(): void {
    const x = new Float64Array(this.#system.size);
    sourcesAt(this.#system, 0, this.#source[0]);
    this.#Q[0].set(this.#system.start);
    this.#backward((ticks / this.#stop) * ticks, x);
    this.#rows.push(x.slice());
    this.#note(x);
    this.#backward(ticks / this.#stop, x);
    this.#note(x);
  }

  #backward(alpha: number, x: Float64Array): void {
    const [Q, source] = [this.#Q[0], this.#source[0]];
    for (let i = 0; i < x.length; i++) this.#work[i] = (source[i] as number) + alpha * (Q[i] as number);
    if (!this.#solver.solve(alpha, this.#work, x)) throw stuck(0);
    this.#settle(0, alpha, x);
  }

  /** Error of a step in units of what is allowed; NaN where it has no solution. Leaves stage and end behind. */
  #attempt(t: number, h: number): number {
    const alpha = stageFactor / h;
    const [Q_0, Q_1] = this.#Q;
    const d_0 = this.#slope[0];
    const rhs = this.#work;
    const [, s_1, s_2] = this.#source;
    sourcesAt(this.#system, t + gamma * h, s_1);
    for (let i = 0; i < rhs.length; i++) rhs[i] = (s_1[i] as number) + alpha * (Q_0[i] as number) + (d_0[i] as number);
    if (!this.#solver.solve(alpha, rhs, this.#stage)) return Number.NaN;
    this.#settle(1, alpha, this.#stage);
    sourcesAt(this.#system, t + h, s_2);
    for (let i = 0; i < rhs.length; i++) {
      rhs[i] = (s_2[i] as number) + alpha * (ofStage * (Q_1[i] as number) - ofStart * (Q_0[i] as number));
    }
    if (!this.#solver.solve(alpha, rhs, this.#end)) return Number.NaN;
    this.#settle(2, alpha, this.#end);
    return Math.max(this.#errorOf(alpha, h, this.#end), this.#sourceError());
  }

  /** Slopes s − F(x) and, since x solves α·Q + F = rhs, its charges. */
  #settle(place: 0 | 1 | 2, alpha: number, x: Float64Array): void {
    const [Q, slope, source, F] = [this.#Q[place], this.#slope[place], this.#source[place], this.#F];
    evaluateF(this.#system, x, F);
    for (let i = 0; i < F.length; i++) {
      slope[i] = (source[i] as number) - (F[i] as number);
      Q[i] = ((this.#work[i] as number) - (F[i] as number)) / alpha;
    }
  }

  #errorOf(alpha: number, h: number, x: Float64Array): number {
    const [d_0, d_1, d_2] = this.#slope;
    for (let i = 0; i < x.length; i++) {
      const third = (d_0[i] as number) / gamma - (d_1[i] as number) / (gamma * (1 - gamma)) + (d_2[i] as number) / (1 - gamma);
      this.#work[i] = alpha * estimate * h * third;
    }
    product(this.#solver.inverse(alpha), x.length, this.#work, this.#F);
    let worst = 0;
    for (let i = 0; i < x.length; i++) {
      const allowed = this.#tolerance * Math.max(this.#largest[i] as number, Math.abs(x[i] as number)) + floor;
      worst = Math.max(worst, Math.abs(this.#F[i] as number) / allowed);
    }
    return worst;
  }

  #sourceError(): number {
    const [s_0, s_1, s_2] = this.#source;
    let worst = 0;
    for (let i = 0; i < s_0.length; i++) {
      const [a, b, c] = [s_0[i] as number, s_1[i] as number, s_2[i] as number];
      if (a === c && b === c) continue;
      const allowed = chord * Math.max(this.#largestSource[i] as number, Math.abs(b), Math.abs(c)) + floor;
      worst = Math.max(worst, Math.abs(b - (1 - gamma) * a - gamma * c) / allowed);
    }
    return worst;
  }

  #accept(t: number, h: number): void {
    this.#times.push(t + gamma * h, t + h);
    this.#rows.push(this.#stage.slice(), this.#end.slice());
    this.#Q[0].set(this.#Q[2]);
    this.#slope[0].set(this.#slope[2]);
    this.#source[0].set(this.#source[2]);
    this.#note(this.#end);
  }

  #note(x: Float64Array): void {
    const source = this.#source[0];
    for (let i = 0; i < x.length; i++) {
      this.#largest[i] = Math.max(this.#largest[i] as number, Math.abs(x[i] as number));
      this.#largestSource[i] = Math.max(this.#largestSource[i] as number, Math.abs(source[i] as number));
    }
  }
}

function stuck(t: number): WorkingsError {
  return new WorkingsError(
    "nominal-domain",
    `the circuit could not be followed beyond ${t} s; look for a node with neither capacitance nor resistance, values far apart, or a resonance that hardly dies`,
    { t },
  );
}
