import { describe, expect, it } from "vitest";
import { Graph } from "../../lib/graph/graph";
import { contentId, type UnnamedNode } from "../../lib/graph/identity";
import type { FormulaNode, GraphNode } from "../../lib/graph/node";
import { Program } from "../../lib/graph/program";
import { choice, exact, formula, given, switchOf, table, tolerant } from "./nodes";

const json = (graph: Graph): { version: 1; nodes: GraphNode[] } => JSON.parse(JSON.stringify(graph));

describe("Graph", () => {
  it("takes the same node twice, whatever the order of its fields", () => {
    const graph = Graph.from([given("x", 1)]);
    const { id, ...rest } = given("x", 1);
    expect(graph.add({ ...rest, id })).toBe("x");
    expect(graph.nodes()).toHaveLength(1);
  });

  it("refuses one id for two contents, naming both", () => {
    const graph = Graph.from([given("x", 1), formula("R", "2*x")]);
    expect(() => graph.add(formula("R", "3*x"))).toThrow("'R' is already defined otherwise: formula 2*x against formula 3*x");
    graph.add(formula("R", "3*x"), { replace: true });
    expect((graph.get("R") as FormulaNode).text).toBe("3*x");
    expect(graph.revision).toBe(1);
  });

  it("lists ancestors with inputs first, and names the nodes of a circle", () => {
    const graph = Graph.from([formula("c", "a + b"), formula("b", "2*a"), given("a", 1)]);
    expect(graph.ancestors(["c"])).toEqual(["a", "b", "c"]);
    const circle = Graph.from([formula("p", "q + 1"), formula("q", "p - 1")]);
    expect(() => circle.ancestors(["p"])).toThrow("p → q → p");
    expect(() => circle.ancestors(["r"])).toThrow("no result or given 'r'");
  });

  it("orders a chain of 10⁵ nodes without overflowing the stack", () => {
    const nodes: GraphNode[] = [given("n0", 1)];
    const increment = formula("x", "x + 1");
    for (let k = 1; k <= 100_000; k++) nodes.push({ ...increment, id: `n${k}`, arguments: { x: `n${k - 1}` } });
    expect(Program.compile(Graph.from(nodes), ["n100000"]).value("n100000")).toBe(100_001);
  });

  it("changes every node of a path, tables and choices, and keeps ids", () => {
    const nodes = [given("g", 1), given("g#R1", 1), table("t", [0, 1], [0, 1]), choice("d", ["a", "b"], "a")];
    const changed = Graph.from(nodes).withChanges({
      givens: { g: { nominal: 2, spread: exact, text: "2" } },
      tables: { t: { x: [0, 2], y: [1, 3] } },
      choices: { d: "b" },
    });
    expect(changed.get("g")).toMatchObject({ nominal: 2, text: "2", unit: "1" });
    expect(changed.get("g#R1")).toMatchObject({ nominal: 2 });
    expect(changed.get("t")).toMatchObject({ x: [0, 2], y: [1, 3] });
    expect(changed.get("d")).toMatchObject({ chosen: "b" });
    expect(() => changed.withChanges({ givens: { h: { nominal: 2, spread: exact, text: "2" } } })).toThrow(
      "nothing in this graph is read from 'h'",
    );
    expect(() => changed.withChanges({ choices: { d: "c" } })).toThrow("'c' is not an alternative of d; these are: 'a', 'b'");
  });

  it("reads back what it wrote, open limits of validity included", () => {
    const valid = [{ symbol: "x", low: 0, high: Infinity, text: "> 0" }];
    const graph = Graph.from([tolerant("x", 3, 0.1), formula("R", "x^2", { x: "x" }, { valid })]);
    const back = Graph.from(json(graph));
    expect(back.get("R")).toEqual(graph.get("R"));
    expect(Program.compile(back, ["R"]).value("R")).toBe(9);
  });

  it("refuses stored nodes that are not nodes", () => {
    for (const node of [null, {}, { id: "x" }, { id: "x", kind: "spell" }, 7])
      expect(() => Graph.from([node as unknown as GraphNode])).toThrow("no node of a graph");
    const odd = { ...formula("y", "sqrt(x)"), expression: { call: "constructor", of: [{ number: 1 }] } } as unknown as GraphNode;
    expect(() => Program.compile(Graph.from([given("x", 1), odd]), ["y"])).toThrow("'constructor', which is no operation");
  });

  it("shares nodes between two stored sheets, so that x − x is one column", () => {
    const one = Graph.from([tolerant("x", 3, 0.1), formula("a.R", "7*x")]);
    const two = Graph.from([tolerant("x", 3, 0.1), formula("a.R", "7*x"), formula("b.d", "p - q", { p: "a.R", q: "a.R" })]);
    const merged = Graph.from([...json(one).nodes, ...json(two).nodes]);
    expect(merged.nodes()).toHaveLength(3);
    expect(Program.compile(merged, ["b.d"]).block(2, new Map([["x", Float64Array.of(2.9, 3.2)]]), ["b.d"])[0]).toEqual(
      Float64Array.of(0, 0),
    );
  });

  it("names unnamed nodes by their content", () => {
    const { id: _id, ...node } = formula("n", "a*b");
    const again: UnnamedNode = { ...JSON.parse(JSON.stringify(node)) };
    expect(contentId(node)).toBe(contentId(again));
    expect(contentId(node)).toMatch(/^~[0-9a-f]{16}$/);
    expect(contentId({ ...node, text: "b*a" })).not.toBe(contentId(node));
  });

  it("follows a switch only into the chosen alternative", () => {
    const nodes = [
      given("x", 0),
      choice("d", ["good", "bad"], "good"),
      formula("p", "x + 1"),
      formula("q", "1/x"),
      switchOf("s", "d", { good: "p", bad: "q" }),
    ];
    expect(Program.compile(Graph.from(nodes), ["s"]).value("s")).toBe(1);
    const other = Graph.from(nodes).withChanges({ choices: { d: "bad" } });
    expect(() => Program.compile(other, ["s"]).nominal()).toThrow("divides by zero");
  });
});
