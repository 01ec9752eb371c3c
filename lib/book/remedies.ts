/** For a requirement that does not hold: what its weightiest givens would have to be. */
import type { Evaluation } from "../analysis/evaluation";
import { type Demand, justHolds } from "../analysis/just-holds";
import type { GivenNode } from "../graph/node";
import { format } from "../quantity/format";
import { unitOf } from "../quantity/unit";

/** How many givens are tried, the largest contribution first. */
const tried = 3;

export interface Remedy {
  readonly given: string;
  readonly text: string;
}

/** Each given alone, the others as they are; those with which it cannot hold are left out. */
export function remedies(evaluation: Evaluation, demand: Demand): Remedy[] {
  const { contributions } = evaluation.analysis(demand.node);
  const givens = contributions.flatMap(({ given }): GivenNode[] => {
    const node = evaluation.graph.get(given);
    return node.kind === "given" ? [node] : [];
  });
  // Several parts of one given change together.
  const paths = [...new Set(givens.map(({ path }) => path))].slice(0, tried);
  return paths.flatMap((path) => {
    const given = givens.find((one) => one.path === path) as GivenNode;
    const nominal = justHolds(evaluation, demand, given);
    if (nominal === undefined) return [];
    const value = format({ si: nominal, unit: unitOf(given.unit) }, { digits: 3 });
    return [{ given: given.path, text: `would just hold with ${given.path} at ${value} instead of ${given.text}` }];
  });
}
