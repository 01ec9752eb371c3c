/**
 * The page's workers, run here in the page's own order of messages: what is seen comes first, a change drops the one before, and at rest
 * every text and part is that of a fresh evaluation, however many workers share the work.
 */
import { beforeAll, describe, expect, it } from "vitest";
import { Evaluation } from "../../lib/analysis/evaluation";
import type { Book } from "../../lib/book/book";
import { readStateLink } from "../../lib/document/live/state-link";
import { type PublishedBook, view } from "../../lib/document/model/book-data";
import { renderPart } from "../../lib/document/model/parts";
import { shownNumbers } from "../../lib/document/model/shown-numbers";
import type { Items, PartKey, Rendered, Reply, Request, Summary } from "../../lib/document/page/messages";
import { startWorker } from "../../lib/document/page/worker";
import { Workers } from "../../lib/document/page/workers";
import { prepareBook } from "../../lib/document/publish";
import { type Shown, showText } from "../../lib/document/text/show";
import type { Changes } from "../../lib/graph/graph";
import type { Block } from "../../lib/sheet/block";
import { pair } from "../demo-book";
import { inFull, isFull } from "../full";
import { codeCell, display, lampBlocks, lampSheet, notebook } from "./fixture";
import { fixtureBook } from "./make";

/** A worker's program in this thread, behind messages that are copied and come later. */
class Local {
  readonly requests: Request["type"][] = [];
  /** Called when the program has sent a reply that has not arrived. */
  underway: (reply: Reply) => void = () => undefined;
  #receive: (request: Request) => void = () => undefined;
  #listener: (event: { data: Reply }) => void = () => undefined;

  constructor(broken = false) {
    const post = (reply: Reply) => {
      setImmediate((data) => this.#listener({ data }), structuredClone(reply));
      this.underway(reply);
    };
    startWorker(post, (listen) => {
      this.#receive = (request) =>
        broken && request.type === "plan" ? post({ type: "failed", turn: request.turn, message: "broken" }) : listen(request);
    });
  }

  postMessage(request: Request): void {
    this.requests.push(request.type);
    setImmediate((copy) => this.#receive(copy), structuredClone(request));
  }

  addEventListener(_: "message", listener: (event: { data: Reply }) => void): void {
    this.#listener = listener;
  }
}

let original: Book;
let book: PublishedBook;
let shown: Shown[];
let parts: PartKey[];

beforeAll(
  () => {
    original = isFull ? pair.made() : lampTwice();
    const { content } = prepareBook(original);
    book = JSON.parse(JSON.stringify(content.data));
    shown = shownNumbers(Object.values(book.blocks), original.graph);
    const found = new Map<string, PartKey>();
    for (const markup of [content.verdicts, content.decisions, content.body])
      for (const [, kind = "", ref = ""] of markup.text.matchAll(/data-part="([^"]*)" data-ref="([^"]*)"/g))
        found.set(`${kind} ${ref}`, { kind: kind as PartKey["kind"], ref });
    parts = [...found.values()].filter(({ ref }) => !ref.includes("&"));
  },
  inFull(600_000, 120_000),
);

/** The small book with a second plot, which waits while the first is seen. */
function lampTwice(): Book {
  const plot = lampBlocks.find(({ type }) => type === "plot") as Block & { readonly type: "plot" };
  const more = codeCell("again", [display({ ...plot, name: "again" }), display({ ...plot, name: "last" })]);
  return fixtureBook([{ ...lampSheet, notebook: notebook([...(lampSheet.notebook.cells as readonly unknown[]), more]) }]);
}

interface Watched {
  readonly pool: Workers;
  readonly workers: readonly Local[];
  readonly texts: Map<number, string>;
  readonly parts: Map<number, string>;
  /** In the order in which they came. */
  readonly events: (string | Items)[];
  /** When everything stands, or the program has failed. */
  rest(): Promise<Summary | string>;
}

function watched(count: number, broken = false): Watched {
  const workers = Array.from({ length: count }, () => new Local(broken));
  const [texts, markup, events] = [new Map<number, string>(), new Map<number, string>(), [] as (string | Items)[]];
  let told: Summary | undefined;
  let ended: (how: Summary | string) => void = () => undefined;
  const pool = new Workers(workers, book, shown, parts, {
    text: (index, text) => texts.set(index, text),
    part: (index, made) => markup.set(index, made),
    seen: () => events.push("seen"),
    stand: (items) => events.push(items),
    numbers: (summary) => {
      events.push("numbers");
      told = summary;
    },
    rest: () => ended(told as Summary),
    failed: (message) => ended(message),
  });
  const rest = () => new Promise<Summary | string>((resolve) => (ended = resolve));
  return { pool, workers, texts, parts: markup, events, rest };
}

const turned = isFull ? "indicators.green.forward" : "lamp.forward";
const change = (text: string): Changes =>
  readStateLink(`#with?${encodeURIComponent(turned)}=${encodeURIComponent(text)}`, book.nodes).changes;
const fresh = (changes: Changes) => new Evaluation(original.graph.withChanges(changes));
const isPlot = (index: number) => parts[index]?.kind === "plot";
const indices = (wanted: (part: PartKey) => boolean) => [...parts.entries()].flatMap(([index, part]) => (wanted(part) ? [index] : []));
const batches = (events: Watched["events"]) => events.filter((event): event is Items => typeof event !== "string");

/** Every text, and every part but the pictures of plots, against an evaluation that starts from nothing. */
function expectFresh({ texts, parts: markup }: Watched, changes: Changes): void {
  const evaluation = fresh(changes);
  for (const [index, one] of shown.entries()) expect(texts.get(index), JSON.stringify(one)).toBe(showText(one, evaluation));
  const state = view(book, evaluation, () => "");
  const before = view(book, original.evaluation, () => "");
  for (const [index, { kind, ref }] of parts.entries())
    if (!isPlot(index))
      expect(markup.get(index) ?? renderPart(kind, ref, before).text, `${kind} ${ref}`).toBe(renderPart(kind, ref, state).text);
}

describe("the page's workers", () => {
  it("are asked for nothing when the page opens", async () => {
    const { workers, events, pool } = watched(2);
    pool.look({ texts: [0, 1], parts: [0] });
    await new Promise((resume) => setTimeout(resume, 50));
    expect(workers.map(({ requests }) => requests)).toEqual([["open"], ["open"]]);
    expect(events).toEqual([]);
  });

  it("do first what is seen, numbers before plots, then all other numbers, and other plots one by one at the end", {
    timeout: 400_000,
  }, async () => {
    const one = watched(2);
    const [plot = -1, ...others] = indices(({ kind }) => kind === "plot");
    const table = indices(({ kind }) => kind === "table")[0] as number;
    one.pool.look({ texts: [5], parts: [plot, table] });
    one.pool.turn(change("2.9 V ±5 %"));
    await one.rest();
    const made = batches(one.events);
    expect(made.slice(0, 2)).toEqual([
      { texts: [5], parts: [table] },
      { texts: [], parts: [plot] },
    ]);
    expect(one.events.indexOf("seen")).toBe(2);
    expect(made[2]?.texts.length).toBe(shown.length - 1);
    expect(made[2]?.parts.some(isPlot)).toBe(false);
    expect(one.events.indexOf("numbers")).toBe(4);
    expect(made.slice(3)).toEqual(others.map((index) => ({ texts: [], parts: [index] })));
    expect(others.length).toBeGreaterThan(0);
  });

  it.each(isFull ? [1, 3] : [3])(
    "give at rest what a fresh evaluation gives, with %i of them, also back at the original",
    { timeout: 1_800_000 },
    async (count) => {
      const one = watched(count);
      for (const changes of [change("2.9 V ±5 %"), change("2.7 V ±1 %"), {}]) {
        one.pool.turn(changes);
        const summary = await one.rest();
        expectFresh(one, changes);
        const evaluation = fresh(changes);
        for (const [id, analysis] of Object.entries((summary as Summary).analyses)) expect(analysis, id).toEqual(evaluation.analysis(id));
      }
    },
  );

  it("drop a turn when another begins: nothing of it is sent afterwards, and no numbers are told of it", { timeout: 600_000 }, async () => {
    const one = watched(2);
    one.pool.turn(change("3.1 V ±5 %"));
    while (one.texts.size === 0) await new Promise((resume) => setImmediate(resume));
    one.events.length = 0;
    one.texts.clear();
    one.pool.turn(change("2.8 V ±5 %"));
    await one.rest();
    expectFresh(one, change("2.8 V ±5 %"));
    expect(one.events.filter((event) => event === "numbers")).toHaveLength(1);
  });

  it("send again what was under way when another turn began", { timeout: 600_000 }, async () => {
    const one = watched(1);
    let isLate = false;
    (one.workers[0] as Local).underway = (reply) => {
      const answer = reply.type === "answered" ? (reply.answer as Partial<Rendered>) : {};
      if (isLate || (answer.parts ?? []).length === 0) return;
      isLate = true;
      one.pool.turn(change("2.9 V ±5 %"));
    };
    one.pool.turn(change("2.9 V ±5 %"));
    await one.rest();
    expect(isLate).toBe(true);
    expectFresh(one, change("2.9 V ±5 %"));
  });

  it("turn to a plot that the reader scrolls to, whatever was next", { timeout: 600_000 }, async () => {
    const one = watched(2);
    const last = indices(({ kind }) => kind === "plot").at(-1) as number;
    one.pool.turn(change("2.9 V ±5 %"));
    await new Promise((resume) => setImmediate(resume));
    one.pool.look({ texts: [], parts: [last] });
    await one.rest();
    expect(batches(one.events)[0]).toEqual({ texts: [], parts: [last] });
  });

  it("say a fault of the program instead of recalculating for ever", async () => {
    const one = watched(1, true);
    one.pool.turn(change("2.9 V ±5 %"));
    expect(await one.rest()).toBe("broken");
  });
});
