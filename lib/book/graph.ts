/** The graph of a whole book, from the outputs that its notebooks hold. */
import { Evaluation } from "../analysis/evaluation";
import { Graph } from "../graph/graph";
import type { NodeId } from "../graph/node";
import type { Notebook } from "../kernel/notebook";
import type { Block, DecisionBlock } from "../sheet/block";
import { displaysOf } from "./displays";

export interface BookGraph {
  readonly graph: Graph;
  /** Of that graph, for all who ask. */
  readonly evaluation: Evaluation;
  /** `sheet.name` of every published result. */
  readonly published: ReadonlyMap<string, NodeId>;
  /** Requirement and the result that a sheet holds against it. */
  readonly answers: readonly { readonly requirement: string; readonly node: NodeId }[];
  readonly decisions: readonly DecisionBlock[];
  /** Everything that the sheets show, in reading order. */
  readonly blocks: readonly Block[];
}

/** `from`: evaluations whose findings may be taken over, such as those that the runs of the sheets have left. */
export function bookGraph(notebooks: readonly Notebook[], from: readonly Evaluation[] = []): BookGraph {
  const displays = notebooks.flatMap(displaysOf);
  const graph = Graph.from(displays.flatMap(({ nodes }) => nodes));
  const published = displays.flatMap(({ block, sheet }) =>
    block.type === "publish" ? Object.entries(block.names).map(([name, id]) => [`${sheet}.${name}`, id] as const) : [],
  );
  return {
    graph,
    evaluation: new Evaluation(graph, { from }),
    published: new Map(published),
    answers: displays.flatMap(({ block }) => (block.type === "requirement" ? [{ requirement: block.requirement, node: block.node }] : [])),
    decisions: displays.flatMap(({ block }) => (block.type === "decision" ? [block] : [])),
    blocks: displays.map(({ block }) => block),
  };
}
