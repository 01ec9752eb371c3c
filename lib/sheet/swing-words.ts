/** Sensitivities in words: how far a given is moved, what it then is, what the result then is. */
import { endsOf, type Swing } from "../analysis/swing";
import type { GivenNode, GraphNode, TableNode } from "../graph/node";
import { format } from "../quantity/format";
import { unitOf } from "../quantity/unit";

/** The given at an end of its step: `5 °C`, of a table `×0.9` or, in °C, `−10 K`. */
export function givenAt(node: GraphNode, value: number): string {
  const unit = unitOf(node.unit);
  if (node.kind !== "table") return format({ si: value, unit });
  return unit.affine === true ? `${value > 0 ? "+" : "−"}${Math.abs(value)}\u00a0K` : `×${value}`;
}

/** `360 mAh and 440 mAh`: where a given is moved to; undefined of an exact zero. */
export function stepText(node: GivenNode | TableNode): string | undefined {
  const ends = endsOf(node);
  return ends && `${givenAt(node, ends.low)} and ${givenAt(node, ends.high)} (${ruleText(ends.rule)})`;
}

/** What the ends are, in words. */
export function ruleText(rule: Swing["rule"]): string {
  switch (rule) {
    case "step":
      return "the step of the design file";
    case "range":
      return "its range";
    case "limits":
      return "its limits";
    default:
      return `${rule} to either side`;
  }
}
