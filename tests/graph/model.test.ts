import { describe, expect, it } from "vitest";
import { curveOutput, defineModel, type ModelArguments, type ModelResults, modelNamed, tableInput } from "../../lib/graph/model";
import { ampere as A, ohm, volt as V } from "../../lib/units";

const load = defineModel({
  name: "registered.load",
  meaning: "the current of a resistor and its I–V line",
  source: "test",
  inputs: { R: ohm, V: V, diode: tableInput(V, A) },
  outputs: { I: A, line: curveOutput(V, A) },
  evaluate: ({ R, V: voltage, diode }) => ({ I: voltage / R + diode.at(voltage), line: { x: [0, voltage], y: [0, voltage / R] } }),
});

describe("defineModel", () => {
  it("registers a model by name", () => {
    expect(modelNamed("registered.load").meaning).toBe(load.meaning);
    expect(() => modelNamed("registered.lod")).toThrow("its module has registered.load");
    expect(() => modelNamed("nowhere.x")).toThrow("is the module that defines it loaded?");
  });

  it("takes the same model twice, but not two of one name", () => {
    expect(defineModel(load)).toBe(load);
    expect(() => defineModel({ ...load, meaning: "another" })).toThrow("two models are called 'registered.load'");
  });

  it("types numbers and curves by the units of inputs and outputs", () => {
    const args: Pick<ModelArguments<typeof load.inputs>, "R"> = { R: 1 };
    const results: Pick<ModelResults<typeof load.outputs>, "line"> = { line: { x: [0], y: [0] } };
    // @ts-expect-error a table is no number
    const wrong: Pick<ModelArguments<typeof load.inputs>, "diode"> = { diode: 3 };
    // @ts-expect-error a number is no curve
    const flat: Pick<ModelResults<typeof load.outputs>, "line"> = { line: 3 };
    // @ts-expect-error an output is missing
    const partial: ModelResults<typeof load.outputs> = { I: 3 };
    expect([args, results, wrong, flat, partial]).toHaveLength(5);
  });
});
