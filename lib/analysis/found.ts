/** What an evaluation has found: kept, sent between threads and taken over by evaluations of other states of the book. */
import type { NodeValue } from "../graph/curve";
import type { GraphNode, NodeId } from "../graph/node";
import { type Ask, passesKey, verdictKey, yieldKey } from "./ask";
import type { Band } from "./band";
import { type BriefAnalysis, type BriefFound, type BriefWorst, restored } from "./brief";
import type { Analysis, RangePoint, Verdict, Yield } from "./result";
import { nodeOfKey } from "./sampler";
import type { WorstCaseFound } from "./worst-case";
import type { Passes } from "./yield";

/** Plain data by node; by node and condition where a `keyOf` is the key. */
export interface FoundData {
  readonly worst: ReadonlyMap<NodeId, WorstCaseFound | undefined>;
  readonly points: ReadonlyMap<NodeId, RangePoint[]>;
  readonly analyses: ReadonlyMap<NodeId, Analysis>;
  readonly bands: ReadonlyMap<NodeId, Band>;
  /** By node, limit and how it is judged. */
  readonly verdicts: ReadonlyMap<string, Verdict>;
  /** By node and limit: which of the units drawn meet it. */
  readonly passes: ReadonlyMap<string, Passes>;
  /** By the results and limits asked for together. */
  readonly yields: ReadonlyMap<string, Yield>;
}

/** What an evaluation has found, as plain data that can be kept and given to another of the same library. */
export interface EvaluationData extends FoundData {
  readonly nodes: readonly GraphNode[];
  readonly seed: number;
  readonly samples: number;
  readonly nominals: ReadonlyMap<NodeId, NodeValue>;
}

const byNode = ["worst", "briefWorst"] as const;
const byDraws = ["points", "analyses", "briefAnalyses", "bands"] as const;
const byCondition = ["verdicts", "passes"] as const;
const sent = ["worst", "points", "analyses", "bands", "verdicts", "passes", "yields"] as const;

export class Found implements FoundData {
  readonly worst = new Map<NodeId, WorstCaseFound | undefined>();
  readonly points = new Map<NodeId, RangePoint[]>();
  readonly analyses = new Map<NodeId, Analysis>();
  readonly bands = new Map<NodeId, Band>();
  readonly verdicts = new Map<string, Verdict>();
  readonly passes = new Map<string, Passes>();
  readonly yields = new Map<string, Yield>();
  /** What was kept in brief; it is restored where it is asked for. */
  readonly briefWorst = new Map<NodeId, BriefWorst | null>();
  readonly briefAnalyses = new Map<NodeId, BriefAnalysis>();

  /** Without methods, so that it can be kept and sent. */
  get data(): FoundData {
    const { worst, points, analyses, bands, verdicts, passes, yields } = this;
    return { worst, points, analyses, bands, verdicts, passes, yields };
  }

  /** What another evaluation has found, of the same state of the book. */
  learn(found: Partial<FoundData>): void {
    for (const name of sent) copy<unknown>(found[name] ?? new Map(), this[name] as Map<string, unknown>);
  }

  /** What a published book says of itself. */
  remember(published: BriefFound): void {
    this.learn(restored(published));
    copy(new Map(Object.entries(published.worst)), this.briefWorst);
    copy(new Map(Object.entries(published.analyses)), this.briefAnalyses);
  }

  /** What has been found of the nodes that are the same here; `draws`: also what rests on draws; `whole`: no node differs. */
  takeOver(other: Found, isKept: (id: NodeId) => boolean, { draws, whole }: { readonly draws: boolean; readonly whole: boolean }): void {
    const isKeyKept = (key: string) => isKept(nodeOfKey(key));
    for (const name of byNode) copy(other[name], this[name] as Map<string, unknown>, isKept);
    if (!draws) return;
    for (const name of byDraws) copy(other[name], this[name] as Map<string, unknown>, isKept);
    for (const name of byCondition) copy(other[name], this[name] as Map<string, unknown>, isKeyKept);
    if (whole) copy(other.yields, this.yields);
  }

  /** How much is known, for {@link since}. */
  get mark(): readonly number[] {
    return sent.map((name) => this[name].size);
  }

  /** What has been found since a mark, to be sent to another evaluation. */
  since(mark: readonly number[]): FoundData {
    const entries = sent.map((name, index) => [name, new Map([...(this[name] as Map<string, unknown>)].slice(mark[index]))] as const);
    return Object.fromEntries(entries) as unknown as FoundData;
  }

  /** Whether an answer takes no time; `argumentsOf`: of a result, what its validity looks at. */
  knows(ask: Ask, argumentsOf: (id: NodeId) => readonly NodeId[]): boolean {
    switch (ask.kind) {
      case "analysis":
        return this.analyses.has(ask.node) || this.briefAnalyses.has(ask.node);
      case "validity":
        return argumentsOf(ask.node).every((id) => this.worst.has(id) || this.briefWorst.has(id));
      case "verdict":
        return this.verdicts.has(verdictKey(ask));
      case "band":
        return this.bands.has(ask.node);
      case "passes":
        return this.passes.has(passesKey(ask));
      case "yield":
        return this.yields.has(yieldKey(ask.asked));
    }
  }

  /** What rests on draws of some nodes; worst cases stay. */
  forget(isForgotten: (id: NodeId) => boolean): void {
    for (const name of byDraws) for (const id of this[name].keys()) if (isForgotten(id)) this[name].delete(id);
    for (const name of byCondition) for (const key of this[name].keys()) if (isForgotten(nodeOfKey(key))) this[name].delete(key);
    this.yields.clear();
  }

  clear(): void {
    for (const name of [...sent, "briefWorst", "briefAnalyses"] as const) this[name].clear();
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
