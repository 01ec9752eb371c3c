/** Notebooks whose outputs hold displays, as a sheet that publishes and judges leaves them. */
import type { GraphNode } from "../../lib/graph/node";
import type { Notebook } from "../../lib/kernel/notebook";
import type { Json } from "../../lib/kernel/python-json";
import { type Block, type Display, displayType } from "../../lib/sheet/block";
import { storeDisplay } from "../../lib/sheet/stored";
import { formula, given, within } from "../graph/nodes";

export const nodes: readonly GraphNode[] = [
  {
    kind: "given",
    id: "logic.supply",
    path: "logic.supply",
    dimension: "kg·m²·s⁻³·A⁻¹",
    unit: "V",
    text: "4.5 V ±2 %",
    nominal: 4.5,
    spread: { kind: "rectangular", low: 4.41, high: 4.59 },
    provenance: { source: "brief" },
  },
  {
    kind: "given",
    id: "ambient",
    path: "ambient",
    dimension: "K|temperature",
    unit: "°C",
    text: "25 °C",
    nominal: 298.15,
    spread: { kind: "exact" },
    provenance: { source: "brief" },
  },
];

export function display(sheet: string, block: Block): Display {
  return { sheet, block, nodes };
}

export const publishBlock: Block = { type: "publish", names: { V_s: "logic.supply", T_a: "ambient" } };

export function requirementDisplay(sheet: string): Display {
  return display(sheet, { type: "requirement", requirement: "supply", node: "logic.supply" });
}

/** The same requirement answered by a law without a value in part of its limits: 4.5 V at least, as far as it is found, and not sure. */
export function doubtedDisplay(sheet: string): Display {
  const parts = ["a", "b"].map((id) => given(id, 1, within(0, 2)));
  const law = formula("guarded", "4.5 + a*sqrt(b - 0.01)", undefined, { dimension: "kg·m²·s⁻³·A⁻¹", unit: "V" });
  return {
    ...display(sheet, { type: "requirement", requirement: "supply", node: law.id }),
    nodes: [...parts, law],
  };
}

/** A notebook that has run, with one cell a display. */
export function shown(...displays: readonly Display[]): Notebook {
  return {
    nbformat: 4,
    nbformat_minor: 5,
    metadata: {},
    cells: displays.map((one, index) => ({
      cell_type: "code",
      id: `c${index}`,
      metadata: {},
      source: "show()",
      execution_count: index + 1,
      outputs: [
        { output_type: "display_data", metadata: {}, data: { "text/plain": "shown", [displayType]: storeDisplay(one) as unknown as Json } },
      ],
    })),
  };
}
