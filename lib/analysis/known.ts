/** What an evaluation has found about its graph: each answer is computed once and kept until a node is replaced. */

import type { NodeValue } from "../graph/curve";
import type { GraphNode, NodeId } from "../graph/node";
import type { Band } from "./band";
import type { Analysis, RangePoint, Verdict, Yield } from "./result";
import { nodeOfKey } from "./sampler";
import type { Study } from "./study";
import type { WorstCaseFound } from "./worst-case";

/** What an evaluation has found, as plain data that can be kept and given to another of the same library. */
export interface EvaluationData {
  readonly nodes: readonly GraphNode[];
  readonly seed: number;
  readonly samples: number;
  readonly nominals: ReadonlyMap<NodeId, NodeValue>;
  readonly worst: ReadonlyMap<NodeId, WorstCaseFound | undefined>;
  readonly points: ReadonlyMap<NodeId, RangePoint[]>;
  readonly analyses: ReadonlyMap<NodeId, Analysis>;
  readonly bands: ReadonlyMap<NodeId, Band>;
  /** By node, limit and how it is judged. */
  readonly verdicts: ReadonlyMap<string, Verdict>;
  /** By the results and limits asked for together. */
  readonly yields: ReadonlyMap<string, Yield>;
}

/** The part of an evaluation's data that rests on studies and draws. */
type KnownData = Omit<EvaluationData, "nodes" | "seed" | "samples" | "nominals">;

export class Known {
  readonly studies = new Map<NodeId, Study>();
  readonly worst = new Map<NodeId, WorstCaseFound | undefined>();
  readonly points = new Map<NodeId, RangePoint[]>();
  readonly analyses = new Map<NodeId, Analysis>();
  readonly bands = new Map<NodeId, Band>();
  readonly verdicts = new Map<string, Verdict>();
  readonly yields = new Map<string, Yield>();

  get data(): KnownData {
    const { worst, points, analyses, bands, verdicts, yields } = this;
    return { worst, points, analyses, bands, verdicts, yields };
  }

  add({ worst, points, analyses, bands, verdicts, yields }: KnownData): void {
    copy(worst, this.worst);
    copy(points, this.points);
    copy(analyses, this.analyses);
    copy(bands, this.bands);
    copy(verdicts, this.verdicts);
    copy(yields, this.yields);
  }

  /** What does not rest on draws, of the nodes that are kept. */
  takeOverExact(other: Known, isKept: (id: NodeId) => boolean): void {
    copy(other.studies, this.studies, isKept);
    copy(other.worst, this.worst, isKept);
  }

  /** What rests on draws. A yield is of several results, so it is taken over only where all nodes are the same. */
  takeOverDrawn(other: Known, isKept: (id: NodeId) => boolean, isAllKept: boolean): void {
    copy(other.points, this.points, isKept);
    copy(other.analyses, this.analyses, isKept);
    copy(other.bands, this.bands, isKept);
    copy(other.verdicts, this.verdicts, (key) => isKept(nodeOfKey(key)));
    if (isAllKept) copy(other.yields, this.yields);
  }

  clear(): void {
    const { studies, worst, points, analyses, bands, verdicts, yields } = this;
    for (const map of [studies, worst, points, analyses, bands, verdicts, yields]) map.clear();
  }
}

function copy<T>(from: ReadonlyMap<string, T>, to: Map<string, T>, isKept: (key: string) => boolean = () => true): void {
  for (const [key, value] of from) if (!to.has(key) && isKept(key)) to.set(key, value);
}

export function remember<T>(map: Map<string, T>, key: string, make: () => T): T {
  if (map.has(key)) return map.get(key) as T;
  const value = make();
  map.set(key, value);
  return value;
}
