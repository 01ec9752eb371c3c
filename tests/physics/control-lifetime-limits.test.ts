/** What every law of power states and lifetimes says of itself, and what is said of results outside its limits. */
import { describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import type { AnyFormula } from "../../lib/formula/formula";
import { Graph } from "../../lib/graph/graph";
import type { GraphNode } from "../../lib/graph/node";
import { control, enclosure, lifetime, light } from "../../lib/physics";
import { exact, formula, given, within } from "../graph/nodes";

const isLaw = (value: unknown): value is AnyFormula =>
  typeof value === "object" && value !== null && "expression" in value && "text" in value;
const laws = [control, lifetime, enclosure, light]
  .flatMap((subject) => Object.entries(subject))
  .filter((entry): entry is [string, AnyFormula] => isLaw(entry[1]));

describe("the laws of control, lifetime, enclosure and light", () => {
  it.each(laws)("%s parses, uses every symbol, and has a meaning, a source and ordered limits", (_, law) => {
    expect(law.expression).toBeDefined();
    expect(law.meaning.length).toBeGreaterThan(20);
    expect(law.source).not.toBe("");
    expect(law.valid.every(({ low, high }) => low < high)).toBe(true);
  });

  it("warn where a capacitor is cooler than the ten-degree rule promises anything for", () => {
    const { valid } = lifetime.electrolyticLife;
    const text = "min(L_max, L_0*2^((T_0 - T)/dT))";
    const nodes = (T: number): GraphNode[] => [
      given("L_max", 4.7e8, exact),
      given("L_0", 7.2e6, exact),
      given("T_0", 378.15, exact),
      given("T", T, within(T - 2, T + 2)),
      given("dT", 10, exact),
      formula("L", text, undefined, { valid }),
    ];
    const warnings = (T: number): readonly string[] => new Evaluation(Graph.from(nodes(T)), { samples: 200 }).analysis("L").warnings;
    expect(warnings(350)).toEqual([]);
    expect(warnings(300).join()).toContain("the law holds from 313 to 423");
  });

  it("warn where the shares of time are more than the whole", () => {
    const { valid } = control.meanCurrent;
    const nodes: GraphNode[] = [
      ...["d_1", "d_2", "d_3"].map((id) => given(id, 0.4, exact)),
      ...["I_0", "I_1", "I_2", "I_3"].map((id) => given(id, 1e-3, exact)),
      formula("d_0", "1 - d_1 - d_2 - d_3"),
      formula("I_m", "d_0*I_0 + d_1*I_1 + d_2*I_2 + d_3*I_3", undefined, { valid }),
    ];
    const { warnings, nominal } = new Evaluation(Graph.from(nodes), { samples: 200 }).analysis("I_m");
    expect(nominal).toBeCloseTo(1e-3, 12);
    expect(warnings.join()).toContain("0 to 1");
  });
});
