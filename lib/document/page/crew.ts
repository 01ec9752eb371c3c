/** The page's workers: the first finds texts, verdicts and everything that stands in words, the others share the plots. */
import type { Changes } from "../../graph/graph";
import type { BookData } from "../model/book-data";
import type { Shown } from "../text/show";
import type { PartKey, Reply, Request, Summary } from "./messages";

/** What comes back; `index` is that of the texts and parts given. */
export interface Listener {
  text(index: number, text: string): void;
  part(index: number, markup: string): void;
  done(summary: Summary): void;
}

/** How many workers a machine of so many processors is given, one where a browser keeps that to itself; the page itself hardly works. */
export function crewSize(processors: number | undefined): number {
  return Math.max(1, Math.min(4, processors ?? 1));
}

export class Crew {
  readonly #workers: readonly Worker[];
  #generation = -1;
  /** Of the present generation. */
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

  /** Gives up what was asked before. */
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

/** Plots go to whoever has least to draw, those with most points first; all else goes to the first worker, and plots too where it is alone. */
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
