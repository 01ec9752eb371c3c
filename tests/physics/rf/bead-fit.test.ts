import { describe, expect, it } from "vitest";
import { curveArgument } from "../../../lib/graph/model";
import { rf } from "../../../lib/physics";

const f = [1e6, 3e6, 1e7, 3e7, 1e8, 3e8, 1e9, 2e9, 3e9];
const table = (x: readonly number[], y: readonly number[], interpolation: "linear" | "log-log" = "linear") =>
  curveArgument({ x: Float64Array.from(x), y: Float64Array.from(y), interpolation });
const bead = { L: 0.9e-6, R_dc: 0, R_p: 1100, C_p: 0.15e-12 };
const Z = f.map((at) => rf.coilImpedance.evaluate({ f: at, ...bead }).Z);
const choke = { R_s: 50, L_s: 0, R_L: 50, C_L: 0 };

describe("fitBead(table)", () => {
  it("finds the parts that made the table", () => {
    const { R_p, L, C_p, worst } = rf.beadFit.evaluate({ Z: table(f, Z) });
    expect(R_p / bead.R_p).toBeCloseTo(1, 9);
    expect(L / bead.L).toBeCloseTo(1, 9);
    expect(C_p / bead.C_p).toBeCloseTo(1, 9);
    expect(worst).toBeCloseTo(1, 9);
  });

  it("comes within 10 % where the rows scatter by 5 %", () => {
    const { R_p, L, C_p, worst } = rf.fitBead(
      table(
        f,
        Z.map((z, i) => z * (i % 2 === 0 ? 1.05 : 0.95)),
      ),
    );
    for (const ratio of [R_p / bead.R_p, L / bead.L, C_p / bead.C_p]) expect(Math.abs(ratio - 1)).toBeLessThan(0.1);
    expect(worst).toBeGreaterThan(1.02);
    expect(worst).toBeLessThan(1.12);
  });

  it("refuses rows that do not tell a capacitance, too few, and 0 Ω", () => {
    const low = f.slice(0, 4);
    expect(() =>
      rf.fitBead(
        table(
          low,
          low.map((at) => 2 * Math.PI * at * 1e-6),
        ),
      ),
    ).toThrow(expect.objectContaining({ code: "curve-points" }));
    expect(() => rf.fitBead(table([1e6, 1e7], [6, 60]))).toThrow("has 2 rows");
    expect(() => rf.fitBead(table([1e6, 1e7, 1e8], [0, 60, 50]))).toThrow("0 Ω");
  });
});

describe("a bead by its rows of resistance and reactance", () => {
  const parts = f.map((at) => rf.coilImpedance.evaluate({ f: at, ...bead }));
  const [R, X] = [parts.map((each) => each.R), parts.map((each) => each.X)];
  const capacitor = { C: 220e-12, ESR: 0.1, ESL: 0.5e-9 };

  it("gives the insertion loss of its equivalent circuit at the rows", () => {
    for (const at of f) {
      const { IL } = rf.tableInsertionLoss.evaluate({ f: at, ...choke, R: table(f, R), X: table(f, X), ...capacitor });
      const none = { C_1: 0, ESR_1: 0, ESL_1: 0, C_3: 0, ESR_3: 0, ESL_3: 0 };
      const same = rf.insertionLoss.evaluate({ f: at, ...choke, ...none, ...bead, C_2: 220e-12, ESR_2: 0.1, ESL_2: 0.5e-9 });
      expect(IL / same.IL).toBeCloseTo(1, 10);
    }
  });

  it("is an error outside its rows, and in a netlist", () => {
    expect(() => rf.tableInsertionLoss.evaluate({ f: 5e9, ...choke, R: table(f, R), X: table(f, X), ...capacitor })).toThrow(
      expect.objectContaining({ code: "table-range" }),
    );
    expect(() => rf.chainCircuit([{ place: "series", part: { kind: "table", R: table(f, R), X: table(f, X) } }], choke)).toThrow(
      "fit a coil to it",
    );
  });
});
