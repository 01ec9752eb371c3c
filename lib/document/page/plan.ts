/**
 * What must be asked of an evaluation before some items of the page can be rendered: they are rendered once with stand-ins for every
 * answer that takes time, and those are noted. What an item asks only after an answer is found when it is rendered.
 */
import { type Ask, overheard } from "../../analysis/ask";
import type { Evaluation } from "../../analysis/evaluation";
import type { Analysis } from "../../analysis/result";

/** The asks that take time, each once, those of one node behind one another. `render` is to make the items with the evaluation that it is given. */
export function planned(evaluation: Evaluation, render: (standIn: Evaluation) => void): Ask[] {
  const found = new Map<string, Map<string, Ask>>();
  const note = (ask: Ask): void => {
    if (evaluation.knows(ask)) return;
    const group = "node" in ask ? ask.node : "";
    const own = found.get(group) ?? new Map<string, Ask>();
    found.set(group, own.set(JSON.stringify(ask), ask));
  };
  render(
    overheard(evaluation, (ask) => {
      if (evaluation.knows(ask)) return undefined;
      if (ask.kind === "yield") for (const { node, limit } of ask.asked) note({ kind: "passes", node, limit });
      else note(ask);
      return standIn(ask, evaluation);
    }),
  );
  return [...found.values()].flatMap((group) => [...group.values()]);
}

function standIn(ask: Ask, evaluation: Evaluation): unknown {
  switch (ask.kind) {
    case "analysis":
      return analysisOf(ask.node, evaluation.nominal(ask.node));
    case "verdict":
      return { verdict: "not shown", judged: ask.judged, deciding: evaluation.nominal(ask.node), margin: 0 };
    case "validity":
      return [];
    case "band":
      return { x: [], low: [], high: [], worstLow: [], worstHigh: [] };
    case "passes":
      return Uint8Array.of(1);
    case "yield":
      return { estimate: 1, lower: 1, upper: 1, samples: 1, each: ask.asked.map(() => 1) };
  }
}

/** One that has a spread, so that its reader goes on asking. */
function analysisOf(node: string, nominal: number): Analysis {
  const ends = { low: nominal, high: nominal };
  const worst = { ...ends, lowAt: {}, highAt: {}, searched: false };
  const bare = { contributions: [], standardUncertainty: 0, frozen: false, warnings: [] };
  return { node, nominal, worst, interval: { ...ends, samples: 1 }, ...bare };
}
