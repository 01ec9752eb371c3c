/** The worker: worst cases, intervals, verdicts, plots and drawings of the changed book, in small steps between which it listens. */
import { answering } from "../../analysis/ask";
import { Evaluation } from "../../analysis/evaluation";
import type { FoundData } from "../../analysis/found";
import { Graph } from "../../graph/graph";
import { pictureRows, plotData } from "../../sheet/plot/data";
import { renderSpec } from "../../sheet/plot/render";
import type { Room } from "../../sheet/plot/room";
import { figurePrefix } from "../live/figures";
import { withData } from "../live/spec-data";
import { type View, view } from "../model/book-data";
import { renderPart } from "../model/parts";
import { notComputed } from "../text/computed";
import { type Html, html } from "../text/html";
import { type Shown, showText } from "../text/show";
import { attempt } from "./attempt";
import type { Answers, Items, PartKey, Question, Reply, Request } from "./messages";
import { planned } from "./plan";
import { summary } from "./summary";

/** Time slice before messages are looked at, ms. */
const slice = 12;

/** Starts the worker: `post` sends a reply, `receive` registers for requests. */
export function startWorker(post: (reply: Reply) => void, receive: (listen: (request: Request) => void) => void): void {
  let worker: BookWorker | undefined;
  receive((request) => {
    if (request.type === "open") worker = new BookWorker(request, post);
    else worker?.receive(request);
  });
}

type Steps<T> = Generator<undefined, T>;

class BookWorker {
  #turn = 0;
  #room: Room = "wide";
  readonly #original: Evaluation;
  #evaluation: Evaluation;
  /** Questions are answered one after another. */
  #last: Promise<void> = Promise.resolve();
  /** What the parts of the page were made from that it has now; those that are as published may be missing. */
  readonly #sent = new Map<number, string>();
  /** The same of answers that the page may not have shown before the next turn. */
  #offered: { readonly number: number; readonly made: ReadonlyMap<number, string> }[] = [];
  /** Where the nodes are shown takes a walk through the book to find. */
  readonly #views = new WeakMap<Evaluation, View>();

  constructor(
    private readonly work: Extract<Request, { type: "open" }>,
    private readonly post: (reply: Reply) => void,
  ) {
    this.#original = Evaluation.remembering(Graph.from(work.book.nodes), work.book.found);
    this.#evaluation = this.#original;
  }

  receive(request: Exclude<Request, { type: "open" }>): void {
    if (request.type === "turn") {
      this.#turn = request.turn;
      this.#room = request.room;
      for (const { number, made } of this.#offered)
        if (number <= request.applied) for (const [index, key] of made) this.#sent.set(index, key);
      this.#offered = [];
      const from = [this.#original, this.#evaluation];
      this.#evaluation = new Evaluation(this.#original.graph.withChanges(request.changes), { from });
    } else if (request.type === "learn") {
      if (request.turn === this.#turn) this.#evaluation.learn(request.found);
    } else this.#last = this.#last.then(() => this.#respond(request)).catch((fault) => this.#fail(request.turn, fault));
  }

  #fail(turn: number, fault: unknown): void {
    this.post({ type: "failed", turn, message: fault instanceof Error ? fault.message : String(fault) });
  }

  async #respond(question: Question): Promise<void> {
    const { turn, number } = question;
    if (turn !== this.#turn) return;
    const steps = this.#steps(question);
    let pause = performance.now() + slice;
    for (let step = steps.next(); ; step = steps.next()) {
      if (step.done === true) {
        this.post({ type: "answered", turn, number, answer: step.value });
        return;
      }
      if (performance.now() < pause) continue;
      await pausing();
      if (this.#turn !== turn) return;
      pause = performance.now() + slice;
    }
  }

  #steps(question: Question): Steps<Answers[keyof Answers]> {
    switch (question.type) {
      case "plan":
        return this.#plan(question.items);
      case "answer":
        return this.#answer(question.asks);
      case "render":
        return this.#render(question);
      case "sum":
        return this.#sum();
    }
  }

  *#plan(items: Items): Steps<Answers["plan"]> {
    const { shown, parts } = this.work;
    return planned(this.#evaluation, (standIn) => {
      const state = this.#view(standIn, (ref) => this.#numbersOf(ref, standIn, this.#room));
      const tried = (make: () => unknown) => attempt(make, new Set());
      for (const { kind, ref } of items.parts.map((index) => parts[index] as PartKey)) tried(() => renderPart(kind, ref, state));
      for (const text of items.texts.map((index) => shown[index] as Shown)) tried(() => showText(text, standIn));
    });
  }

  *#answer(asks: Extract<Question, { type: "answer" }>["asks"]): Steps<FoundData> {
    const evaluation = this.#evaluation;
    const mark = evaluation.mark;
    for (const ask of asks) {
      const steps = answering(ask, evaluation);
      // What has no answer is told where it is shown.
      while (attempt(() => steps.next().done !== true, new Set()) === true) yield;
      yield;
    }
    return evaluation.since(mark);
  }

  *#render({ number, items: { texts, parts } }: Extract<Question, { type: "render" }>): Steps<Answers["render"]> {
    const problems = new Set<string>();
    const changed: (readonly [number, string])[] = [];
    const from = new Map<number, string>();
    for (const index of parts) {
      from.set(index, this.#made(index, this.#evaluation, this.#room, problems));
      const markup = this.#changed(index, from.get(index) as string);
      if (markup !== undefined) changed.push([index, markup]);
      yield;
    }
    this.#offered.push({ number, made: from });
    const made: (readonly [number, string])[] = [];
    for (const index of texts) {
      const shown = this.work.shown[index] as Shown;
      made.push([index, attempt(() => showText(shown, this.#evaluation), problems) ?? notComputed]);
      yield;
    }
    return { number, texts: made, parts: changed, problems: [...problems] };
  }

  *#sum(): Steps<Answers["sum"]> {
    return summary(
      this.#view(this.#evaluation, () => ""),
      this.work.shown,
    );
  }

  #view(evaluation: Evaluation, plot: View["plot"]): View {
    const known = this.#views.get(evaluation) ?? view(this.work.book, evaluation, plot);
    this.#views.set(evaluation, known);
    return { ...known, plot };
  }

  /** The markup of a part that differs from what the page has: at first what was published. */
  #changed(index: number, made: string): string | undefined {
    if (made === (this.#sent.get(index) ?? this.#made(index, this.#original, "wide", new Set()))) return undefined;
    return this.#isPlot(index) ? this.#markup(index, this.#evaluation, (ref) => this.#draw(ref), new Set()) : made;
  }

  /** What a part is made from: of a plot its numbers and words, so that it is drawn only where they differ; of others the markup. */
  #made(index: number, evaluation: Evaluation, room: Room, problems: Set<string>): string {
    return this.#markup(index, evaluation, (ref) => this.#numbersOf(ref, evaluation, room), problems);
  }

  #markup(index: number, evaluation: Evaluation, plot: View["plot"], problems: Set<string>): string {
    const { kind, ref } = this.work.parts[index] as PartKey;
    const own = new Set<string>();
    const markup = attempt(() => renderPart(kind, ref, this.#view(evaluation, plot)).text, own) ?? cannotBeShown([...own]).text;
    for (const text of own) problems.add(text);
    return markup;
  }

  #isPlot(index: number): boolean {
    return this.work.parts[index]?.kind === "plot";
  }

  #numbersOf(ref: string, evaluation: Evaluation, room: Room): string {
    return html`<svg><desc>${room} ${JSON.stringify(plotData(this.#plot(ref), evaluation, room))}</desc></svg>`.text;
  }

  #draw(ref: string): string {
    const rows = pictureRows(plotData(this.#plot(ref), this.#evaluation, this.#room));
    return renderSpec(withData(this.work.book.plots[ref]?.[this.#room], rows), figurePrefix(ref));
  }

  #plot(ref: string) {
    const block = this.work.book.blocks[ref];
    if (block?.type !== "plot") throw new Error(`${ref} is no plot`);
    return block;
  }
}

function cannotBeShown(problems: readonly string[]): Html {
  return html`<p class="warnings">It ${notComputed} with these values: ${problems.join("; ")}</p>`;
}

/** Lets messages in. A timer would wait for four milliseconds more (HTML standard, timers nested more than five deep). */
function pausing(): Promise<void> {
  const { port1, port2 } = new MessageChannel();
  return new Promise((resume) => {
    Object.assign(port1, {
      onmessage: () => {
        port1.close();
        resume();
      },
    });
    port2.postMessage(undefined);
  });
}
