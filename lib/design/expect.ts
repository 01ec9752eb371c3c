/** Holding a given against the unit in which a worksheet asks for it. */
import type { GivenNode, TableNode } from "../graph/node";
import { assignable, type Dimension, dimension } from "../quantity/dimension";
import { WorkingsError } from "../quantity/error";

/** What a unit says of itself here; `Unit` of the quantity floor is one. */
export interface AskedUnit {
  readonly symbol: string;
  readonly dimension: Dimension;
}

/**
 * Throws a WorkingsError `dimension` naming the line and column of the value where a given is not of the unit's
 * dimension. For a table, `unit` is asked of the ordinate and `xUnit`, if present, of the abscissa.
 */
export function expectDimension(node: GivenNode | TableNode, unit: AskedUnit, xUnit?: AskedUnit): void {
  check(node, node.kind === "table" ? `the column '${node.yName}' of '${node.path}'` : `'${node.path}'`, node.dimension, node.unit, unit);
  if (node.kind === "table" && xUnit) check(node, `the column '${node.xName}' of '${node.path}'`, node.xDimension, node.xUnit, xUnit);
}

function check(node: GivenNode | TableNode, subject: string, key: string, stated: string, asked: AskedUnit): void {
  const found = dimension(key);
  if (assignable(found, asked.dimension)) return;
  const place = node.provenance.place ?? node.path;
  throw new WorkingsError(
    "dimension",
    `${place}: ${subject} is stated in ${stated} (${found.label}); expected ${asked.dimension.label}, asked for in ${asked.symbol}; mend the unit here or in the worksheet`,
    { place, path: node.path },
  );
}
