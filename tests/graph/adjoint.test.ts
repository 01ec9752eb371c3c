import { describe, expect, it } from "vitest";
import { Adjoint, centralDifferences } from "../../lib/graph/adjoint";
import { Graph } from "../../lib/graph/graph";
import { Program } from "../../lib/graph/program";
import { formula, given, reading, select, sweep } from "./nodes";

const unary = [
  "sqrt(a)",
  "cbrt(a)",
  "exp(a)",
  "ln(a)",
  "log10(a)",
  "log2(a)",
  "sin(a)",
  "cos(a)",
  "tan(a)",
  "asin(a)",
  "acos(a)",
  "atan(a)",
  "sinh(a)",
  "cosh(a)",
  "tanh(a)",
  "abs(a)",
  "-a",
  "a^2",
  "a^3.7",
  "a^(-2)",
  "a^0.5",
];
const binary = [
  "a + b",
  "a - b",
  "a*b",
  "a/b",
  "a^b",
  "atan2(a, b)",
  "min(a, b)",
  "max(a, b)",
  "if(a > b, a^2, b*a)",
  "(a*b + a/b)*(a - b)^2",
  "a*b*a*b",
  "x0*a + b*ln(x0)",
];

describe("Adjoint", () => {
  it.each([...unary, ...binary])("agrees with central differences for %s", (text) => {
    const program = Program.compile(Graph.from([given("a", 0.4), given("b", 0.7), given("x0", 2), formula("y", `${text} + 0*a + 0*b`)]), [
      "y",
    ]);
    const adjoint = new Adjoint(program, "y", ["a", "b"]);
    const state = program.nominalState();
    const differences = centralDifferences(program, state, "y", ["a", "b"], [1e-5, 1e-5]);
    expect([...adjoint.derivatives(state)]).toEqual(differences.map((difference) => expect.closeTo(difference, 7)));
  });

  it("sums over every path of a shared input, through several formulas", () => {
    const program = Program.compile(Graph.from([given("x", 3), formula("p", "x^2"), formula("q", "x*p"), formula("y", "p + q")]), ["y"]);
    expect([...new Adjoint(program, "y", ["x"]).derivatives(program.nominalState())]).toEqual([6 + 27]);
  });

  it("holds preferred values: only their deviation has a derivative", () => {
    const program = Program.compile(
      Graph.from([given("x", 268), given("d", 0), select("R", "x", { deviation: "d" }), formula("y", "R + x")]),
      ["y"],
    );
    expect([...new Adjoint(program, "y", ["x", "d"]).derivatives(program.nominalState())]).toEqual([1, 270]);
  });

  it("gives the same when asked again, also after a point where it has no value", () => {
    const program = Program.compile(Graph.from([given("x", 4), given("z", 2), formula("y", "sqrt(x)*z/x + z^2")]), ["y"]);
    const adjoint = new Adjoint(program, "y", ["x", "z"]);
    const first = [...adjoint.derivatives(program.nominalState())];
    expect([...adjoint.derivatives(program.evaluate({ overrides: new Map([["x", 0]]), strict: false }))].every(Number.isFinite)).toBe(
      false,
    );
    expect([...adjoint.derivatives(program.nominalState())]).toEqual(first);
    expect(first).toEqual([-0.125, 4.5]);
  });

  it("says where differences must take its place", () => {
    const program = Program.compile(
      Graph.from([given("x", 1), given("k", 2), formula("y", "k*x^2"), sweep("s", "y", "x", [1, 2, 3]), reading("m", "maximum", "s")]),
      ["m"],
    );
    expect(new Adjoint(program, "m", ["k"]).isArithmetic).toBe(false);
    expect(centralDifferences(program, program.nominalState(), "m", ["k"], [0.01])[0]).toBeCloseTo(9, 9);
  });
});
