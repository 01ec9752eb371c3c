import { describe, expect, it } from "vitest";
import { circuit } from "../../../lib/physics";
import type { Circuit, CircuitElement } from "../../../lib/physics/circuit/data";

const analysis = { kind: "ac", from: 1e4, to: 1e9, perDecade: 10 } as const;
const run = { kind: "tran", step: 1e-11, stop: 1e-7 } as const;
const R: CircuitElement = { kind: "resistor", name: "load", nodes: ["out", "0"], R: 50 };

/** Cards of one element. */
function cards(element: CircuitElement): string[] {
  const lines = circuit.netlist([element], { analysis, print: ["v(out)"] }).split("\n");
  return lines.slice(1, lines.indexOf(".ac dec 10 10000 1000000000"));
}

describe("netlist(circuit, options)", () => {
  it("writes title, one card an element, the analysis, what to print and the end", () => {
    const V: CircuitElement = { kind: "voltage", name: "in", nodes: ["out", "0"], value: 0, ac: 1 };
    const text = circuit.netlist([V, R], { title: "a\nfilter", analysis, print: ["vm(out)"], lines: [".options RELTOL=1e-6"] });
    expect(text).toBe(
      [
        "* a filter",
        "V_in out 0 DC 0 AC 1",
        "R_load out 0 50",
        ".options RELTOL=1e-6",
        ".ac dec 10 10000 1000000000",
        ".print ac vm(out)",
        ".end",
        "",
      ].join("\n"),
    );
  });

  it("starts a run in time from the initial voltages", () => {
    const C: CircuitElement = { kind: "capacitor", name: "body", nodes: ["out", "0"], C: 1.5e-10, initial: 8000 };
    const lines = circuit.netlist([C, R], { analysis: run, print: ["v(out)"] }).split("\n");
    expect(lines[1]).toBe("C_body out 0 1.5e-10 IC=8000");
    expect(lines[3]).toBe(".tran 1e-11 1e-7 0 1e-11 UIC");
  });

  it("writes diodes as sources in straight pieces and leaves out what is never reached", () => {
    const diode = { kind: "diode", name: "D", nodes: ["a", "0"], R_f: 2, R_br: 1 } as const;
    expect(cards({ ...diode, V_f: 0.7, V_br: Infinity })).toEqual(["B_D a 0 I = V(a,0) > 0.7 ? (V(a,0) - (0.7))/2 : 0"]);
    expect(cards({ ...diode, V_f: Infinity, V_br: 6 })).toEqual(["B_D a 0 I = (V(a,0) < -6 ? (V(a,0) - (-6))/1 : 0)"]);
  });

  it("couples inductors by their names in the text", () => {
    const L = (name: string): CircuitElement => ({ kind: "inductor", name, nodes: [name, "0"], L: 1e-6 });
    const text = circuit.netlist([L("p"), L("q"), { kind: "coupling", name: "core", inductors: ["p", "q"], k: 0.9 }], {
      analysis,
      print: ["v(p)"],
    });
    expect(text).toContain("K_core L_p L_q 0.9");
  });
});

describe("checkCircuit(circuit) refuses", () => {
  const L: CircuitElement = { kind: "inductor", name: "L", nodes: ["a", "0"], L: 1e-6 };
  const faults: readonly (readonly [string, Circuit, string])[] = [
    ["two elements of one name, capitals aside", [R, { ...R, name: "LOAD" }], "'LOAD' needs a name of its own"],
    ["a name that a netlist cannot hold", [{ ...R, name: "my load" }], "letters, digits and underscores"],
    ["nodes that differ in capitals only", [R, { ...R, name: "other", nodes: ["Out", "0"] }], "differ in capitals only"],
    ["a resistor of 0 Ω", [{ ...R, R: 0 } as CircuitElement], "needs R > 0 Ω, not 0"],
    ["a capacitor that is negative", [{ kind: "capacitor", name: "C", nodes: ["a", "0"], C: -1 }], "needs C > 0 F"],
    ["a full coupling", [L, { ...L, name: "M" }, { kind: "coupling", name: "K", inductors: ["L", "M"], k: 1 }], "needs −1 < k < 1"],
    [
      "a coupling with an inductor that is not there",
      [L, { kind: "coupling", name: "K", inductors: ["L", "M"], k: 0.5 }],
      "not both inductors",
    ],
    ["a diode without resistance", [{ kind: "diode", name: "D", nodes: ["a", "0"], V_f: 1, R_f: 0, V_br: 5, R_br: 1 }], "R_f, R_br > 0"],
  ];
  it.each(faults)("%s", (_, network, message) => {
    expect(() => circuit.checkCircuit(network)).toThrow(message);
  });
});
