/** The worker: worst cases, intervals, verdicts, plots and drawings of the changed book, in small steps. */
import { Evaluation, type EvaluationOptions } from "../../analysis/evaluation";
import type { Analysis } from "../../analysis/result";
import { type Changes, Graph, isChanged } from "../../graph/graph";
import type { NodeId } from "../../graph/node";
import { assessDecision } from "../../sheet/decision";
import { plotData } from "../../sheet/plot/data";
import { renderSpec } from "../../sheet/plot/render";
import { unconfirmed, unconfirmedText } from "../live/confirmation";
import { figurePrefix } from "../live/figures";
import { requirementVerdict, verdictProblems, verdictsOutside } from "../live/requirements";
import { withData } from "../live/spec-data";
import { type BookData, type View, view } from "../model/book-data";
import { type PartKind, renderPart } from "../model/parts";
import { computed, notComputed } from "../text/computed";
import { type Html, html } from "../text/html";
import { madeFrom, type Shown, showText } from "../text/show";
import { attempt } from "./attempt";
import type { PartKey, Reply, Request, Summary } from "./messages";

/** Time slice before yielding to messages, ms. */
const slice = 12;
/** Samples of the first, rough pass. */
const roughSamples = 500;

/** Starts the worker: `post` sends a reply, `receive` registers for requests. */
export function startWorker(post: (reply: Reply) => void, receive: (listen: (request: Request) => void) => void): void {
  let worker: BookWorker | undefined;
  receive((request) => {
    if (request.type === "open") worker = new BookWorker(request, post);
    else void worker?.evaluate(request.generation, request.changes);
  });
}

class BookWorker {
  #generation = -1;
  /** Texts and markup that the page shows now, so that only differences are sent. */
  readonly #sent = new Map<string, string>();
  /** The book as published, and in the state asked for last. */
  readonly #original: Evaluation;
  #latest: Evaluation;
  readonly #plots = new Map<string, { readonly numbers: string; readonly picture: string }>();

  private readonly book: BookData;

  constructor(
    private readonly work: Extract<Request, { type: "open" }>,
    private readonly post: (reply: Reply) => void,
  ) {
    this.book = work.book;
    this.#original = new Evaluation(Graph.from(work.book.nodes));
    this.#latest = this.#original;
  }

  /** In two passes: a rough one with few samples, shown at once, then one with as many samples as a run of the worksheets. */
  async evaluate(generation: number, changes: Changes): Promise<void> {
    this.#generation = generation;
    const rough = isChanged(changes) ? this.#at(changes, { samples: roughSamples }) : undefined;
    if (rough !== undefined && !(await this.#pass(generation, rough, new Set()))) return;
    const evaluation = rough === undefined ? this.#original : this.#at(changes, {}, rough);
    this.#latest = evaluation;
    const problems = new Set<string>();
    if (!(await this.#pass(generation, evaluation, problems))) return;
    const found = this.work.leads ? attempt(() => summary(this.#view(evaluation), this.work.shown, problems), problems) : undefined;
    this.post({ type: "done", generation, problems: [...problems], ...(this.work.leads && { summary: found ?? nothingFound }) });
  }

  /** Computes and sends everything that the page shows. False where a later request has come in meanwhile. */
  async #pass(generation: number, evaluation: Evaluation, problems: Set<string>): Promise<boolean> {
    let pause = performance.now() + slice;
    for (const step of this.#steps(generation, this.#view(evaluation), problems)) {
      step();
      if (performance.now() < pause) continue;
      await new Promise((resume) => setTimeout(resume, 0));
      if (this.#generation !== generation) return false;
      pause = performance.now() + slice;
    }
    return true;
  }

  #at(changes: Changes, options: EvaluationOptions, ...more: readonly Evaluation[]): Evaluation {
    const from = [this.#original, this.#latest, ...more];
    return new Evaluation(this.#original.graph.withChanges(changes), { ...options, from });
  }

  *#steps(generation: number, state: View, problems: Set<string>): Generator<() => void> {
    const ordered = this.work.parts.map((key, index) => ({ key, index })).toSorted((a, b) => rank(a.key) - rank(b.key));
    const [first, others] = [ordered.filter(({ key }) => key.kind === "verdicts"), ordered.filter(({ key }) => key.kind !== "verdicts")];
    for (const { key, index } of first) yield () => this.#part(generation, key, index, state, problems);
    for (const [index, shown] of this.work.shown.entries()) yield () => this.#text(generation, shown, index, state.evaluation, problems);
    for (const { key, index } of others) {
      yield* this.#bandSteps(key, state.evaluation);
      yield () => this.#part(generation, key, index, state, problems);
    }
  }

  /** The bands of a plot point by point; what cannot be computed is told when the plot is drawn. */
  *#bandSteps({ kind, ref }: PartKey, evaluation: Evaluation): Generator<() => void> {
    const block = this.book.blocks[ref];
    if (kind !== "plot" || block?.type !== "plot") return;
    for (const { curve, band } of block.series) {
      if (curve === undefined || band !== true) continue;
      const steps = evaluation.bandSteps(curve);
      let more = true;
      while (more) {
        yield () => {
          more = attempt(() => steps.next().done !== true, new Set()) === true;
        };
      }
    }
  }

  /** The book in a state; a plot whose numbers are those of before keeps its picture. */
  #view(evaluation: Evaluation): View {
    return view(this.book, evaluation, (ref) => {
      const block = this.book.blocks[ref];
      if (block?.type !== "plot") throw new Error(`${ref} is no plot`);
      const data = plotData(block, evaluation);
      const numbers = JSON.stringify(data);
      const known = this.#plots.get(ref);
      if (known?.numbers === numbers) return known.picture;
      const picture = renderSpec(withData(this.book.plots[ref], data), figurePrefix(ref));
      this.#plots.set(ref, { numbers, picture });
      return picture;
    });
  }

  #text(generation: number, shown: Shown, index: number, evaluation: Evaluation, problems: Set<string>): void {
    const text = attempt(() => showText(shown, evaluation), problems) ?? notComputed;
    if (this.#sent.get(`text ${index}`) === text) return;
    this.#sent.set(`text ${index}`, text);
    if (generation === 0) return;
    this.post({ type: "text", generation, index, text });
  }

  #part(generation: number, { kind, ref }: PartKey, index: number, state: View, problems: Set<string>): void {
    const own = new Set<string>();
    const markup = attempt(() => renderPart(kind, ref, state).text, own) ?? cannotBeShown([...own]).text;
    for (const text of own) problems.add(text);
    if (this.#sent.get(`part ${index}`) === markup) return;
    this.#sent.set(`part ${index}`, markup);
    if (generation === 0) return;
    this.post({ type: "part", generation, index, markup });
  }
}

function cannotBeShown(problems: readonly string[]): Html {
  return html`<p class="warnings">It ${notComputed} with these values: ${problems.join("; ")}</p>`;
}

/** Order in which parts are computed: those that stand open first, folded ones last. */
function rank({ kind }: PartKey): number {
  const order: readonly PartKind[] = ["requirement", "decision", "table", "warnings", "contributions", "drawing", "plot", "workings"];
  return order.indexOf(kind);
}

const nothingFound: Omit<Summary, "problems"> = { verdicts: {}, flags: {}, assumptions: [], outside: [], analyses: {} };

function summary(state: View, shown: readonly Shown[], problems: Set<string>): Omit<Summary, "problems"> {
  const { book, evaluation } = state;
  for (const text of verdictProblems(book.requirements, state)) problems.add(text);
  const analyses: Record<NodeId, Analysis> = {};
  for (const { node, show } of shown) {
    if (madeFrom[show] === "value" || analyses[node]) continue;
    const analysis = computed(() => evaluation.analysis(node)).value;
    if (analysis) analyses[node] = analysis;
  }
  const verdicts = book.requirements.map((requirement) => [requirement.id, requirementVerdict(requirement, state)] as const);
  const flags = Object.values(book.blocks).flatMap((block) => {
    const found = block.type === "decision" ? assessDecision(block, evaluation).flags : [];
    return block.type === "decision" && found.length > 0 ? [[block.name, found] as const] : [];
  });
  const blocks = Object.values(book.blocks);
  const assumptions = unconfirmed(blocks, state).map((block) => unconfirmedText(block, state));
  return {
    verdicts: Object.fromEntries(verdicts),
    flags: Object.fromEntries(flags),
    assumptions,
    outside: verdictsOutside(book.requirements, state),
    analyses,
  };
}
