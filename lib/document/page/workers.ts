/** The page's web workers: the first computes texts, verdicts and tables, the others share the plots. */
import type { Changes } from "../../graph/graph";
import type { BookData } from "../model/book-data";
import type { Shown } from "../text/show";
import type { PartKey, Reply, Request, Summary } from "./messages";

/** Receives what the workers compute; `index` counts the texts and parts given to the constructor. */
export interface Listener {
  text(index: number, text: string): void;
  part(index: number, markup: string): void;
  done(summary: Summary): void;
}

/** Number of workers: one a processor, at most four; one where the browser does not tell. The page's own thread hardly computes. */
export function workerCount(processors: number | undefined): number {
  return Math.max(1, Math.min(4, processors ?? 1));
}

export class Workers {
  readonly #workers: readonly Worker[];
  #generation = -1;
  /** Workers that have not finished the present request. */
  #waiting = new Set<Worker>();
  #summary: Omit<Summary, "problems"> | undefined;
  #problems = new Set<string>();

  /** Starts the workers on a book, and evaluates it as published. */
  constructor(workers: readonly Worker[], book: BookData, shown: readonly Shown[], parts: readonly PartKey[], listener: Listener) {
    this.#workers = workers;
    const shares = shared(parts, book, workers.length);
    for (const [rank, worker] of workers.entries()) {
      const share = shares[rank] ?? [];
      worker.addEventListener("message", ({ data }: MessageEvent<Reply>) => this.#receive(worker, data, share, listener));
      const request: Request = {
        type: "open",
        book,
        leads: rank === 0,
        shown: rank === 0 ? shown : [],
        parts: share.map(({ key }) => key),
      };
      worker.postMessage(request);
    }
    this.evaluate({});
  }

  /** Asks for an evaluation; answers to earlier requests are ignored from now on. */
  evaluate(changes: Changes): void {
    this.#generation++;
    this.#waiting = new Set(this.#workers);
    this.#summary = undefined;
    this.#problems = new Set();
    const request: Request = { type: "evaluate", generation: this.#generation, changes };
    for (const worker of this.#workers) worker.postMessage(request);
  }

  #receive(worker: Worker, reply: Reply, share: readonly Share[], listener: Listener): void {
    if (reply.generation !== this.#generation) return;
    if (reply.type === "text") listener.text(reply.index, reply.text);
    else if (reply.type === "part") listener.part(share[reply.index]?.index ?? -1, reply.markup);
    else {
      this.#waiting.delete(worker);
      for (const problem of reply.problems) this.#problems.add(problem);
      this.#summary ??= reply.summary;
      if (this.#waiting.size === 0 && this.#summary) listener.done({ ...this.#summary, problems: [...this.#problems] });
    }
  }
}

/** A part with its index among all. */
interface Share {
  readonly key: PartKey;
  readonly index: number;
}

/** Each plot goes to the worker with the fewest points so far, the largest plots first; everything else, and plots too where there is one worker, goes to the first. */
function shared(parts: readonly PartKey[], book: BookData, workers: number): Share[][] {
  const shares: Share[][] = Array.from({ length: workers }, () => []);
  const loads = shares.map(() => 0);
  const all = parts.map((key, index) => ({ key, index }));
  const plots = all.filter(({ key }) => key.kind === "plot").map((share) => ({ share, points: bandPoints(share.key.ref, book) }));
  shares[0]?.push(...all.filter(({ key }) => key.kind !== "plot"));
  for (const { share, points } of plots.toSorted((a, b) => b.points - a.points)) {
    const least = workers === 1 ? 0 : loads.indexOf(Math.min(...loads.slice(1)), 1);
    shares[least]?.push(share);
    loads[least] = (loads[least] ?? 0) + points;
  }
  return shares;
}

/** Points of the bands of a plot, which are what takes time. */
function bandPoints(ref: string, { blocks, nodes }: BookData): number {
  const block = blocks[ref];
  const curves = block?.type === "plot" ? block.series.filter(({ band }) => band === true).map(({ curve }) => curve) : [];
  return nodes.reduce((sum, node) => sum + (node.kind === "sweep" && curves.includes(node.id) ? node.points.length : 0), 1);
}
