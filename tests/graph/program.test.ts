import { describe, expect, it } from "vitest";
import { Graph } from "../../lib/graph/graph";
import { defineModel } from "../../lib/graph/model";
import { Program } from "../../lib/graph/program";
import { WorkingsError } from "../../lib/quantity/error";
import { unitOf } from "../../lib/quantity/unit";
import { constant, formula, given, model, range, reading, select, sweep, table, tolerant } from "./nodes";

const one = unitOf("1");
const curve = { shape: "curve", x: one, y: one } as const;

defineModel({
  name: "programs.parabola",
  meaning: "a parabola and its height at two",
  source: "test",
  inputs: { a: one },
  outputs: { height: one, shape: curve },
  evaluate: ({ a }) => ({ height: a * 4, shape: { x: [0, 1, 2], y: [0, a, 4 * a] } }),
});
defineModel({
  name: "programs.lookUp",
  meaning: "twice the table at x",
  source: "test",
  inputs: { x: one, t: curve },
  outputs: { y: one },
  evaluate: ({ x, t }) => ({ y: 2 * t.at(x) }),
});

const value = (nodes: Parameters<typeof Graph.from>[0], id: string): unknown => Program.compile(Graph.from(nodes), [id]).value(id);
const codeOf = (f: () => unknown): string | undefined => {
  try {
    f();
  } catch (error) {
    return error instanceof WorkingsError ? error.code : "not ours";
  }
  return undefined;
};

describe("Program", () => {
  it.each([
    ["sqrt(16) + cbrt(27)", 7],
    ["2^10 - 2^(-1)", 1023.5],
    ["4^1.5", 8],
    ["exp(0) + ln(e) + log10(1000) + log2(8)", 8],
    ["sin(0) + cos(0) + tan(0)", 1],
    ["abs(-2) + ceil(1.2) + floor(1.8) + round(2.4) + round(-2.4)", 5],
    ["min(3, 1, 2) + max(3, 1, 2)", 4],
    ["if(2 > 1, 10, 20) + if(1 >= 2, 1, 2)", 12],
    ["atan2(1, 1)*4/pi", 1],
  ])("evaluates %s to %d", (text, expected) => {
    expect(value([formula("y", text, {})], "y")).toBeCloseTo(expected, 12);
  });

  it("gives in blocks what it gives for each row alone", () => {
    const text = "max(sqrt(a)*ln(b) - a^2.5/b, if(a > b, a^3, sin(b))) + atan2(a, b) - abs(-b)";
    const graph = Graph.from([given("a", 1), given("b", 2), formula("y", text)]);
    const program = Program.compile(graph, ["y"]);
    const rows = 2500;
    const a = Float64Array.from({ length: rows }, (_, i) => 0.5 + i / 700);
    const b = Float64Array.from({ length: rows }, (_, i) => 3 - i / 1000);
    const [block] = program.block(
      rows,
      new Map([
        ["a", a],
        ["b", b],
      ]),
      ["y"],
    );
    for (let i = 0; i < rows; i += 97) {
      const state = program.evaluate({
        overrides: new Map([
          ["a", a[i] as number],
          ["b", b[i] as number],
        ]),
      });
      expect(block?.[i]).toBe(program.valueIn(state, "y"));
    }
  });

  it("names node, meaning and formula where the nominal divides by zero or leaves a domain", () => {
    const R = formula("R", "V/(I - 2)", { V: "V", I: "I" }, { meaning: "series resistor" });
    expect(() => value([given("V", 3), given("I", 2), R], "R")).toThrow(
      "R (series resistor) = V/(I - 2): V/(I - 2) divides by zero: I - 2 is 0",
    );
    expect(() => value([given("x", -3), formula("y", "sqrt(x)")], "y")).toThrow("y = sqrt(x): sqrt(x) has no finite value: x is -3");
    expect(() => value([given("x", 0), formula("y", "ln(x)")], "y")).toThrow("y = ln(x): ln(x) has no finite value: x is 0");
    expect(codeOf(() => value([given("x", 2), formula("y", "asin(x)")], "y"))).toBe("nominal-domain");
  });

  it("reports the first formula that fails, though others follow it", () => {
    const nodes = [
      given("x", 0),
      formula("a", "1/x"),
      formula("b", "a - a"),
      model("m", "programs.lookUp", "y", { x: "b", t: "t" }),
      table("t", [0, 1], [0, 1]),
    ];
    expect(() => value(nodes, "m")).toThrow(/^a = 1\/x: .* divides by zero/);
  });

  it("allows a branch not taken to have no value", () => {
    expect(value([given("x", 0), formula("y", "if(x > 0, 1/x, 7)")], "y")).toBe(7);
  });

  it("gives NaN in blocks where a row has no value", () => {
    const program = Program.compile(Graph.from([given("x", 4), formula("y", "sqrt(x)")]), ["y"]);
    expect(program.block(2, new Map([["x", Float64Array.of(9, -1)]]), ["y"])[0]).toEqual(Float64Array.of(3, Number.NaN));
  });

  it("reads numbers in stated units in a numerical value equation", () => {
    const of = (result: string) => {
      const y = formula("y", "T*A^0.5", { T: "T", A: "A" }, { numerical: { arguments: { T: "°C", A: "mil²" }, result } });
      return value([given("T", 283.15), given("A", 4 * 6.4516e-10), y], "y");
    };
    expect(of("mA")).toBeCloseTo(10 * 2 * 1e-3, 12);
    expect(of("°F")).toBeCloseTo(((10 * 2 + 459.67) * 5) / 9, 9);
    expect(() => of("dBV")).toThrow("a stored numerical value equation reads a number in dBV");
  });

  it("chooses a preferred value at the nominal point and holds it in blocks", () => {
    const nodes = [tolerant("x", 268, 0.2), given("d", 0), select("R", "x", { deviation: "d" })];
    const program = Program.compile(Graph.from(nodes), ["R"]);
    expect(program.value("R")).toBe(270);
    expect(
      program.block(
        2,
        new Map([
          ["x", Float64Array.of(300, 330)],
          ["d", Float64Array.of(0.01, -0.01)],
        ]),
        ["R"],
      )[0],
    ).toEqual(Float64Array.of(270 * 1.01, 270 * 0.99));
    expect(program.dependencies("R", ["x", "d"])).toEqual(["d"]);
    program.update(new Map([["x", 310]]));
    expect(program.value("R")).toBe(300);
  });

  it("recalculates only what depends on a change", () => {
    const program = Program.compile(Graph.from([given("a", 1), given("b", 2), formula("p", "a + 1"), formula("q", "p*b")]), ["q"]);
    expect(program.value("q")).toBe(4);
    program.update(new Map([["b", 5]]));
    expect([program.value("p"), program.value("q")]).toEqual([2, 10]);
    program.update(
      new Map([
        ["a", 2],
        ["b", 1],
      ]),
    );
    expect([program.value("p"), program.value("q")]).toEqual([3, 3]);
  });

  it("calls a model once for all its outputs, numbers and curves", () => {
    const nodes = [
      given("a", 3),
      model("h", "programs.parabola", "height", { a: "a" }),
      model("s", "programs.parabola", "shape", { a: "a" }),
      reading("m", "maximum", "s"),
      formula("d", "h - m"),
    ];
    const program = Program.compile(Graph.from(nodes), ["d", "s"]);
    expect(program.tape.specials.filter(({ kind }) => kind === "model")).toHaveLength(1);
    expect(program.value("d")).toBe(0);
    expect(program.block(3, new Map([["a", Float64Array.of(1, 2, 3)]]), ["m"])[0]).toEqual(Float64Array.of(4, 8, 12));
  });

  it("names the node where a model reads a table outside its rows, and gives NaN in blocks", () => {
    const nodes = (x: number): Parameters<typeof Graph.from>[0] => [
      given("x", x),
      table("t", [0, 1], [0, 5]),
      model("m", "programs.lookUp", "y", { x: "x", t: "t" }),
    ];
    expect(value(nodes(0.5), "m")).toBe(5);
    expect(codeOf(() => value(nodes(2), "m"))).toBe("table-range");
    expect(() => value(nodes(2), "m")).toThrow(/^m: x = 2 lies outside the table, which runs from 0 to 1/);
    expect(Program.compile(Graph.from(nodes(0.5)), ["m"]).block(2, new Map([["x", Float64Array.of(1, 2)]]), ["m"])[0]).toEqual(
      Float64Array.of(10, Number.NaN),
    );
  });

  it("sweeps a result, choosing preferred values afresh at each point and holding them in blocks", () => {
    const nodes = [
      given("x", 100),
      tolerant("k", 1, 0.1),
      formula("y", "x*k"),
      select("R", "y"),
      formula("r", "R*k"),
      sweep("s", "r", "x", [100, 148, 221]),
      reading("m", "maximum", "s"),
    ];
    const program = Program.compile(Graph.from(nodes), ["s", "m"]);
    expect(program.value("s")).toMatchObject({ y: Float64Array.of(100, 150, 220) });
    expect(program.block(1, new Map([["k", Float64Array.of(1.1)]]), ["m"])[0]).toEqual(Float64Array.of(220 * 1.1));
  });

  it("evaluates a sweep of a result that does not depend on what is swept", () => {
    const nodes = [given("x", 1), given("k", 5), sweep("s", "k", "x", [1, 2])];
    expect(value(nodes, "s")).toMatchObject({ y: Float64Array.of(5, 5) });
  });

  it("refuses a curve where a number is needed, and the reverse", () => {
    expect(codeOf(() => value([table("t", [0, 1], [0, 1]), formula("y", "2*t")], "y"))).toBe("graph-shape");
    expect(codeOf(() => value([constant("c", 1), reading("m", "maximum", "c")], "m"))).toBe("graph-shape");
  });

  it("tells an unknown model or output by name", () => {
    expect(() => value([model("m", "programs.nothing", "y", {})], "m")).toThrow(
      "there is no model 'programs.nothing'; its module has programs.parabola, programs.lookUp",
    );
    expect(() => value([given("a", 1), model("m", "programs.parabola", "width", { a: "a" })], "m")).toThrow("has no output 'width'");
  });

  it("does not let a column of one block leak into the next", () => {
    const program = Program.compile(Graph.from([given("x", 1, range(0, 1)), formula("y", "(x + 1)*(x + 2)*(x + 3)")]), ["y"]);
    const x = Float64Array.from({ length: 5000 }, (_, i) => i);
    const [y] = program.block(5000, new Map([["x", x]]), ["y"]);
    expect(y?.[4999]).toBe(5000 * 5001 * 5002);
    expect(program.block(1, new Map([["x", Float64Array.of(0)]]), ["y"])[0]).toEqual(Float64Array.of(6));
  });
});
