/** The worker: worst cases, intervals, verdicts, plots and drawings of the changed book, in small steps. */
import type { Evaluation } from "../../analysis/evaluation";
import type { Analysis } from "../../analysis/result";
import type { Changes } from "../../graph/graph";
import { Graph } from "../../graph/graph";
import type { NodeId } from "../../graph/node";
import { assessDecision } from "../../sheet/decision";
import { plotData } from "../../sheet/plot/data";
import { renderSpec } from "../../sheet/plot/render";
import { type BookData, type View, view } from "../book-data";
import { figurePrefix } from "../live-figures";
import { requirementVerdict } from "../live-requirements";
import { renderPart } from "../parts";
import { type Shown, showText } from "../show";
import { withData } from "../spec-data";
import type { PartKey, Reply, Request, Summary } from "./messages";
import { problem } from "./problem";
import { Remembering } from "./remembering";

/** ms between two looks at the letter box. */
const slice = 12;

/** Starts the worker: `post` sends a reply, `receive` registers for requests. */
export function startWorker(post: (reply: Reply) => void, receive: (listen: (request: Request) => void) => void): void {
  let desk: Desk | undefined;
  receive((request) => {
    if (request.type === "open") desk = new Desk(request.book, request.shown, request.parts, post);
    else void desk?.evaluate(request.generation, request.changes);
  });
}

class Desk {
  #generation = -1;
  readonly #sent = new Map<string, string>();
  readonly #remembering: Remembering;

  constructor(
    private readonly book: BookData,
    private readonly shown: readonly Shown[],
    private readonly parts: readonly PartKey[],
    private readonly post: (reply: Reply) => void,
  ) {
    this.#remembering = new Remembering(Graph.from(book.nodes));
  }

  async evaluate(generation: number, changes: Changes): Promise<void> {
    this.#generation = generation;
    const state = viewAt(this.book, this.#remembering.at(changes));
    const problems = new Set<string>();
    let pause = performance.now() + slice;
    for (const step of this.#steps(generation, state, problems)) {
      step();
      if (performance.now() < pause) continue;
      await new Promise((resume) => setTimeout(resume, 0));
      if (this.#generation !== generation) return;
      pause = performance.now() + slice;
    }
    this.post({ type: "done", generation, summary: summary(state, this.shown, [...problems]) });
  }

  *#steps(generation: number, state: View, problems: Set<string>): Generator<() => void> {
    const verdictsFirst = this.parts.map((key, index) => ({ key, index })).toSorted((a, b) => rank(a.key) - rank(b.key));
    for (const { key, index } of verdictsFirst.filter(({ key: { kind } }) => kind === "verdicts"))
      yield () => this.#part(generation, key, index, state, problems);
    for (const [index, shown] of this.shown.entries()) yield () => this.#text(generation, shown, index, state.evaluation, problems);
    for (const { key, index } of verdictsFirst.filter(({ key: { kind } }) => kind !== "verdicts"))
      yield () => this.#part(generation, key, index, state, problems);
  }

  #text(generation: number, shown: Shown, index: number, evaluation: Evaluation, problems: Set<string>): void {
    const text = problem(() => showText(shown, evaluation), problems) ?? "cannot be computed";
    if (this.#sent.get(`text ${index}`) === text) return;
    this.#sent.set(`text ${index}`, text);
    this.post({ type: "text", generation, index, text });
  }

  #part(generation: number, { kind, ref }: PartKey, index: number, state: View, problems: Set<string>): void {
    const markup =
      problem(() => renderPart(kind, ref, state).text, problems) ?? '<p class="warnings">It cannot be computed with these values.</p>';
    if (this.#sent.get(`part ${index}`) === markup) return;
    this.#sent.set(`part ${index}`, markup);
    this.post({ type: "part", generation, index, markup });
  }
}

function rank({ kind }: PartKey): number {
  return ["verdicts", "decisions", "requirement", "decision", "table", "warnings", "contributions", "drawing", "plot"].indexOf(kind);
}

function viewAt(book: BookData, evaluation: Evaluation): View {
  return view(book, evaluation, (ref) => {
    const block = book.blocks[ref];
    if (block?.type !== "plot") throw new Error(`${ref} is no plot`);
    return renderSpec(withData(book.plots[ref], plotData(block, evaluation)), figurePrefix(ref));
  });
}

function summary(state: View, shown: readonly Shown[], problems: readonly string[]): Summary {
  const { book, evaluation } = state;
  const quiet = new Set<string>();
  const analyses: Record<NodeId, Analysis> = {};
  for (const { node, show } of shown) {
    if (show === "nominal" || show === "number" || analyses[node]) continue;
    const analysis = problem(() => evaluation.analysis(node), quiet);
    if (analysis) analyses[node] = analysis;
  }
  const verdicts = book.requirements.map(
    (requirement) => [requirement.id, problem(() => requirementVerdict(requirement, state), quiet) ?? "not shown"] as const,
  );
  const flags = Object.values(book.blocks).flatMap((block) => {
    const found = block.type === "decision" ? (problem(() => assessDecision(block, evaluation).flags, quiet) ?? []) : [];
    return block.type === "decision" && found.length > 0 ? [[block.name, found] as const] : [];
  });
  return { verdicts: Object.fromEntries(verdicts), flags: Object.fromEntries(flags), analyses, problems };
}
