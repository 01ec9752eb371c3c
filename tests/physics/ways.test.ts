/**
 * Ways that models declare, tried: from random places of the box that a declaration names, each input is moved alone, and the output
 * must not go against the declared way by more than the model's own error. Sampling can refute a declaration, never confirm it; the
 * reason stands beside it (`waysBecause`).
 */
import { describe, expect, it } from "vitest";
import { Stream } from "../../lib/analysis/stream";
import { esd } from "../../lib/physics";
import { inFull } from "../full";

type Limits = Readonly<Record<string, readonly [low: number, high: number]>>;

interface Declared {
  readonly name: string;
  readonly inputs: object;
  readonly ways?: unknown;
  readonly waysBecause?: string;
  evaluate(args: never): unknown;
}

/** A model, the box in which it is tried, how often, and by which share of its values it may be off. */
const cases: readonly (readonly [Declared, Limits, number, number])[] = [
  [
    esd.contactDischarge,
    {
      ...{ U: [2e3, 17.25e3], L_st: [2e-10, 2e-9], V_br: [4, 9], R_dyn: [0.05, 0.5], C_cl: [1e-12, 3e-11] },
      ...{ L: [3e-7, 2e-6], L_sat: [1e-8, 2e-7], I_sat: [0.1, 0.6], R_dc: [0.05, 0.6], R_p: [300, 2000], R: [1, 15] },
      ...{ C_pin: [2e-12, 1e-11], V_rail: [0, 5], V_f: [0.5, 1], R_pin: [0.1, 1] },
    },
    inFull(300, 40),
    2e-3,
  ],
];

describe("declared ways", () => {
  it.each(cases)("of $name are not refuted", ({ name, inputs, ways, waysBecause, evaluate }, limits, count, error) => {
    expect(Object.keys(limits).sort()).toEqual(Object.keys(inputs).sort());
    expect(waysBecause).toMatch(/\w/);
    const stream = new Stream(20261130, name);
    let at = 0;
    const drawn = (low: number, high: number): number => low + (high - low) * stream.uniform(at++);
    const value = (args: object, output: string): number => (evaluate(args as never) as Record<string, number>)[output] as number;
    const refuted: string[] = [];
    for (let k = 0; k < count; k++) {
      const args = Object.fromEntries(Object.entries(limits).map(([symbol, [low, high]]) => [symbol, drawn(low, high)]));
      for (const [output, declared] of Object.entries(ways as Record<string, Record<string, number>>)) {
        const before = value(args, output);
        for (const [symbol, way] of Object.entries(declared)) {
          const high = limits[symbol]?.[1] as number;
          const after = value({ ...args, [symbol]: drawn(args[symbol] as number, high) }, output);
          if ((after - before) * way < -error * Math.abs(before)) refuted.push(`${output} along ${symbol}: ${before} to ${after}`);
        }
      }
    }
    expect(refuted).toEqual([]);
  });
});
