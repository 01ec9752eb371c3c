/** What can be asked of an evaluation that takes time to answer. */
import type { NodeId } from "../graph/node";
import type { Evaluation } from "./evaluation";
import type { JudgedBy, Limit } from "./result";
import { keyOf } from "./sampler";
import type { Asked } from "./yield";

export type Ask =
  | { readonly kind: "analysis"; readonly node: NodeId }
  | { readonly kind: "validity"; readonly node: NodeId }
  | { readonly kind: "verdict"; readonly node: NodeId; readonly limit: Limit; readonly judged: JudgedBy }
  | { readonly kind: "band"; readonly node: NodeId }
  /** Which units meet a limit, for the yield. */
  | { readonly kind: "passes"; readonly node: NodeId; readonly limit: Limit }
  | { readonly kind: "yield"; readonly asked: readonly Asked[] };

/** An evaluation that is told what it is asked. What `instead` gives, if anything, is the answer. */
export function overheard(evaluation: Evaluation, instead: (ask: Ask) => unknown): Evaluation {
  return new Proxy(evaluation, {
    get(target, name) {
      const value: unknown = Reflect.get(target, name, target);
      if (typeof value !== "function") return value;
      return (...args: never[]) => {
        const ask = askOf(name, args);
        return (ask && instead(ask)) ?? (value as (...args: never[]) => unknown).apply(target, args);
      };
    },
  });
}

function askOf(method: string | symbol, [first, limit, judged]: readonly unknown[]): Ask | undefined {
  switch (method) {
    case "analysis":
    case "validity":
    case "band":
      return { kind: method, node: first as NodeId };
    case "verdict":
      return { kind: "verdict", node: first as NodeId, limit: limit as Limit, judged: judged as JudgedBy };
    case "yieldOf":
      return { kind: "yield", asked: first as readonly Asked[] };
    default:
      return undefined;
  }
}

/** Has an evaluation find what an ask is about, in steps. Throws where there is no answer. */
export function* answering(ask: Ask, evaluation: Evaluation): Generator<undefined> {
  switch (ask.kind) {
    case "analysis":
      evaluation.analysis(ask.node);
      return;
    case "validity":
      evaluation.validity(ask.node);
      return;
    case "verdict":
      evaluation.verdict(ask.node, ask.limit, ask.judged);
      return;
    case "band":
      yield* bandOf(ask.node, evaluation);
      return;
    case "passes":
      evaluation.passes(ask.node, ask.limit);
      return;
    case "yield":
      evaluation.yieldOf(ask.asked);
  }
}

function* bandOf(node: NodeId, evaluation: Evaluation): Generator<undefined> {
  const steps = evaluation.bandSteps(node);
  while (steps.next().done !== true) yield;
}

/** What is known by node and condition is kept under these. */
export const verdictKey = ({ node, limit, judged }: Asked & { readonly judged: JudgedBy }): string => keyOf(node, [judged, limit]);
export const passesKey = ({ node, limit }: Asked): string => keyOf(node, [limit.low, limit.high]);
export const yieldKey = (asked: readonly Asked[]): string => JSON.stringify(asked.map(({ node, limit }) => [node, limit.low, limit.high]));
