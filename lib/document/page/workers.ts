/**
 * The page's web workers. One leads: it plans and renders. All compute what the leader's plan asks for, each the next of it when it is
 * free; no number depends on who has computed it. What the reader sees comes first, then all other numbers, the other plots last.
 */
import type { Ask } from "../../analysis/ask";
import type { Changes } from "../../graph/graph";
import type { Room } from "../../sheet/plot/room";
import type { PublishedBook } from "../model/book-data";
import type { Shown } from "../text/show";
import type { Answers, Items, PartKey, Question, Reply, Request, Summary } from "./messages";

/** As much of a web worker as is used here. */
export interface Thread {
  postMessage(request: Request): void;
  addEventListener(type: "message", listener: (event: { readonly data: Reply }) => void): void;
}

/** Receives what the workers compute; numbers count the texts and parts given to the constructor. */
export interface Listener {
  text(index: number, text: string): void;
  part(index: number, markup: string): void;
  /** All that the reader sees stands; these items are still to come. */
  seen(left: Items): void;
  /** These items stand, whether they have changed or not. */
  stand(items: Items): void;
  /** All numbers of the page stand. */
  numbers(summary: Summary): void;
  /** Everything stands, off-screen plots too. */
  rest(): void;
  /** A fault of the program: nothing more comes of this turn. */
  failed(message: string): void;
}

/** Number of workers: one a processor, at most four; one where the browser does not tell. The page's own thread hardly computes. */
export function workerCount(processors: number | undefined): number {
  return Math.max(1, Math.min(4, processors ?? 1));
}

export class Workers {
  #turn = 0;
  #number = 0;
  #applied = -1;
  #seen: Items = { texts: [], parts: [] };
  #left = { texts: new Set<number>(), parts: new Set<number>() };
  #waiting = new Map<number, (answer: never) => void>();

  /** Starts the workers on a book as published, of which nothing is computed. */
  constructor(
    private readonly workers: readonly Thread[],
    book: PublishedBook,
    private readonly shown: readonly Shown[],
    private readonly parts: readonly PartKey[],
    private readonly listener: Listener,
  ) {
    for (const worker of workers) {
      worker.addEventListener("message", ({ data }) => this.#receive(data));
      send(worker, { type: "open", book, shown, parts });
    }
  }

  /** Evaluates the book with changes, its plots for so much room; what an earlier turn has not done is dropped. */
  turn(changes: Changes, room: Room = "wide"): void {
    this.#turn++;
    this.#waiting = new Map();
    this.#left = { texts: new Set(this.shown.keys()), parts: new Set(this.parts.keys()) };
    for (const worker of this.workers) send(worker, { type: "turn", turn: this.#turn, changes, applied: this.#applied, room });
    this.#run().catch((fault) => this.listener.failed(String(fault)));
  }

  /** What is on the reader's screen now. */
  look(seen: Items): void {
    this.#seen = seen;
  }

  async #run(): Promise<void> {
    let [isSeen, isSummed] = [false, false];
    const problems = new Set<string>();
    for (;;) {
      const batch = this.#next();
      if (!isSeen && !batch.isSeen) {
        isSeen = true;
        this.listener.seen({ texts: [...this.#left.texts], parts: [...this.#left.parts] });
      }
      if (!isSummed && this.#left.texts.size === 0 && ![...this.#left.parts].some((index) => !this.#isPlot(index))) {
        isSummed = true;
        const summary = await this.#ask(0, { type: "sum" });
        this.listener.numbers({ ...summary, problems: [...new Set([...problems, ...summary.problems])] });
      }
      const { items } = batch;
      if (isEmpty(items)) break;
      const asks = await this.#ask(0, { type: "plan", items });
      const done = await this.#answer(asks, () => !batch.isSeen && this.#next().isSeen);
      if (!done) continue;
      const rendered = await this.#ask(0, { type: "render", items });
      for (const problem of rendered.problems) problems.add(problem);
      this.#applied = rendered.number;
      for (const [index, markup] of rendered.parts) this.listener.part(index, markup);
      for (const [index, text] of rendered.texts) this.listener.text(index, text);
      for (const index of items.texts) this.#left.texts.delete(index);
      for (const index of items.parts) this.#left.parts.delete(index);
      this.listener.stand(items);
    }
    this.listener.rest();
  }

  /** What comes next of what is left: numbers on the screen, plots on the screen, other numbers, other plots; plots one by one. */
  #next(): { readonly items: Items; readonly isSeen: boolean } {
    const seen = {
      texts: this.#seen.texts.filter((index) => this.#left.texts.has(index)),
      parts: this.#seen.parts.filter((index) => this.#left.parts.has(index)),
    };
    if (!isEmpty(seen)) return { items: this.#first(seen), isSeen: true };
    return { items: this.#first({ texts: [...this.#left.texts], parts: [...this.#left.parts] }), isSeen: false };
  }

  #first({ texts, parts }: Items): Items {
    const numbers = parts.filter((index) => !this.#isPlot(index));
    return texts.length + numbers.length > 0 ? { texts, parts: numbers } : { texts, parts: parts.slice(0, 1) };
  }

  #isPlot(index: number): boolean {
    return this.parts[index]?.kind === "plot";
  }

  /** Has the workers answer asks, those of one node by one worker. False where `isLeft` has cut it short. */
  async #answer(asks: readonly Ask[], isLeft: () => boolean): Promise<boolean> {
    const groups = grouped(asks);
    let wasLeft = false;
    const work = async (rank: number): Promise<void> => {
      while (groups.length > 0 && !wasLeft) {
        const share = groups.splice(0, Math.max(1, Math.min(8, Math.floor(groups.length / (3 * this.workers.length)))));
        const found = await this.#ask(rank, { type: "answer", asks: share.flat() });
        for (const [other, worker] of this.workers.entries()) if (other !== rank) send(worker, { type: "learn", turn: this.#turn, found });
        wasLeft ||= isLeft();
      }
    };
    await Promise.all(this.workers.map((_, rank) => work(rank)));
    return !wasLeft;
  }

  /** Never resolved where another turn begins meanwhile: whoever waits is dropped with it. */
  #ask<K extends keyof Answers>(rank: number, question: { readonly type: K } & Partial<Question>): Promise<Answers[K]> {
    const number = this.#number++;
    send(this.workers[rank] as Thread, { ...question, turn: this.#turn, number } as Question);
    return new Promise((resolve) => this.#waiting.set(number, resolve));
  }

  #receive(reply: Reply): void {
    if (reply.turn !== this.#turn) return;
    if (reply.type === "failed") this.listener.failed(reply.message);
    else {
      const resolve = this.#waiting.get(reply.number);
      this.#waiting.delete(reply.number);
      resolve?.(reply.answer as never);
    }
  }
}

function grouped(asks: readonly Ask[]): Ask[][] {
  const groups = new Map<string, Ask[]>();
  for (const ask of asks) {
    const key = "node" in ask ? ask.node : "";
    groups.set(key, [...(groups.get(key) ?? []), ask]);
  }
  return [...groups.values()];
}

function isEmpty({ texts, parts }: Items): boolean {
  return texts.length + parts.length === 0;
}

function send(worker: Thread, request: Request): void {
  worker.postMessage(request);
}
