/** What an evaluation remembers of results, and what it takes over from others. */
import type { NodeValue } from "../graph/curve";
import type { GraphNode, NodeId } from "../graph/node";
import type { Band } from "./band";
import type { Analysis, RangePoint, Verdict, Yield } from "./result";
import { nodeOfKey } from "./sampler";
import type { WorstCaseFound } from "./worst-case";

interface Known {
  readonly worst: ReadonlyMap<NodeId, WorstCaseFound | undefined>;
  readonly points: ReadonlyMap<NodeId, RangePoint[]>;
  readonly analyses: ReadonlyMap<NodeId, Analysis>;
  readonly bands: ReadonlyMap<NodeId, Band>;
  /** By node, limit and how it is judged. */
  readonly verdicts: ReadonlyMap<string, Verdict>;
  /** By the results and limits asked for together. */
  readonly yields: ReadonlyMap<string, Yield>;
}

/** What an evaluation has found, as plain data that can be kept and given to another of the same library. */
export interface EvaluationData extends Known {
  readonly nodes: readonly GraphNode[];
  readonly seed: number;
  readonly samples: number;
  readonly nominals: ReadonlyMap<NodeId, NodeValue>;
}

type IsKept = (id: NodeId) => boolean;

export class Findings implements Known {
  readonly worst = new Map<NodeId, WorstCaseFound | undefined>();
  readonly points = new Map<NodeId, RangePoint[]>();
  readonly analyses = new Map<NodeId, Analysis>();
  readonly bands = new Map<NodeId, Band>();
  readonly verdicts = new Map<string, Verdict>();
  readonly yields = new Map<string, Yield>();

  /** What rests on no draws. */
  takeOver(other: Known, isKept: IsKept): void {
    takeOver(other.worst, this.worst, isKept);
  }

  /** What rests on draws, but shares of units that meet several limits. */
  takeOverDrawn(other: Known, isKept: IsKept): void {
    takeOver(other.points, this.points, isKept);
    takeOver(other.analyses, this.analyses, isKept);
    takeOver(other.bands, this.bands, isKept);
    takeOver(other.verdicts, this.verdicts, (key) => isKept(nodeOfKey(key)));
  }

  takeOverYields(other: Known): void {
    takeOver(other.yields, this.yields);
  }

  clear(): void {
    for (const map of [this.worst, this.points, this.analyses, this.bands, this.verdicts, this.yields]) map.clear();
  }
}

/** Of what `to` does not have yet. */
export function takeOver<T>(from: ReadonlyMap<string, T>, to: Map<string, T>, isKept: (key: string) => boolean = () => true): void {
  for (const [key, value] of from) if (!to.has(key) && isKept(key)) to.set(key, value);
}

export function takeOne<T>(from: ReadonlyMap<string, T>, to: Map<string, T>, key: string): void {
  if (from.has(key) && !to.has(key)) to.set(key, from.get(key) as T);
}
