/** The live page: the reader's changes go in, nominal numbers follow at once, everything else from the worker. */

import type { BriefAnalysis, BriefFound } from "../../analysis/brief";
import { Evaluation } from "../../analysis/evaluation";
import type { Analysis } from "../../analysis/result";
import { Graph, isChanged } from "../../graph/graph";
import type { ChoiceNode, NodeId } from "../../graph/node";
import { isStateLink } from "../../prose/links";
import { entryOf } from "../../quantity/entry-of";
import { unitOf } from "../../quantity/unit";
import type { Room } from "../../sheet/plot/room";
import { intervalText } from "../../sheet/words";
import { headline, whatMoved } from "../live/moved";
import { stateLink } from "../live/state-link";
import { type BookData, type PublishedBook, view } from "../model/book-data";
import { madeFrom, showText, textOrNone } from "../text/show";
import { addressOf } from "./address";
import { openAsked } from "./asked";
import { attempt } from "./attempt";
import { byId, fill, make } from "./dom";
import { openFields } from "./fields";
import { openFindField } from "./find-field";
import { watchView } from "./in-view";
import { openStateLinks, showLink } from "./links";
import { byKey, liveParts, liveTexts, setPart, setText } from "./live-elements";
import type { Summary } from "./messages";
import { renderMovements } from "./moved-list";
import { type PageState, pageState } from "./page-state";
import { Pending } from "./pending";
import { openStatistics } from "./statistics";
import { type InputKind, Store } from "./store";
import { summary } from "./summary";
import { shownView } from "./views";
import { Workers } from "./workers";

/** On these a plot is drawn for a telephone. */
const narrowScreens = "(max-width: 37.5rem)";

/** How far the page has followed the last change: what the reader sees, all numbers, all plots too. */
type Stands = "nominal" | "seen" | "numbers" | "all";

/** `window.workings`. */
export interface Offered {
  state(): PageState;
  stands(): Stands;
  /** The link to the reader's changes; empty where there are none. */
  link(): string;
}

/** Opens the page on its book; `workers` run the same program. Returns what `window.workings` offers. */
export function openPage(book: PublishedBook, workers: readonly Worker[]): Offered {
  const graph = Graph.from(book.nodes);
  const texts = liveTexts();
  const keyed = byKey(texts);
  const parts = liveParts();
  const shown = texts.map((text) => text.shown);
  const store = new Store();
  const fields = openFields(book.nodes, store);
  let known = publishedSpreads(book.found);
  let latest: Summary | undefined;
  let stands: Stands = "all";
  let current = graph;
  const original = new QuickEvaluation(graph, known);
  let quick = original;

  const pending = new Pending(texts, parts);
  const pool = new Workers(
    workers,
    book,
    shown,
    parts.map(({ key }) => key),
    {
      text: (index, text) => {
        const entry = texts[index];
        if (entry) setText(entry, text);
      },
      part: (index, markup) => {
        const entry = parts[index];
        if (entry) setPart(entry, markup, keyed, attach);
      },
      seen: (left) => {
        stands = "seen";
        // Without changes every number stands; only plots are drawn for another width.
        pending.add(
          isChanged(store.changes) ? left : { texts: [], parts: left.parts.filter((index) => parts[index]?.key.kind === "plot") },
        );
        document.body.classList.remove("computing");
        if (isChanged(store.changes)) panel.busy("What you see is recalculated; the rest follows…");
      },
      stand: pending.remove,
      numbers: (summary) => {
        stands = "numbers";
        known = summary.analyses;
        latest = summary;
        quick = new QuickEvaluation(current, known, [quick]);
        asked.now();
        tell(summary);
      },
      rest: () => {
        stands = "all";
      },
      failed: (message) => panel.busy(`The page could not recalculate (${message}). Reload it, and change the input again.`),
    },
  );
  watchView(texts, parts, (seen) => pool.look(seen));

  const panel = changesPanel(store);
  const follow = openStateLinks(book.nodes, store);
  store.listen((changes) => {
    for (const sync of fields) sync(changes);
    current = graph.withChanges(changes);
    const before = quick;
    quick = new QuickEvaluation(current, known, [original, before]);
    nominalNow(before);
    stands = "nominal";
    asked.now();
    statisticsNow();
    document.body.classList.add("computing");
    panel.busy("Recalculating…");
    pool.turn(changes, room());
  });
  const narrow = matchMedia(narrowScreens);
  const room = (): Room => (narrow.matches ? "narrow" : "wide");
  // Without changes nothing moves but the plots, which are drawn for the other width.
  const drawAnew = () => {
    stands = "nominal";
    pool.turn(store.changes, room());
  };
  narrow.addEventListener("change", drawAnew);

  const published = Evaluation.remembering(graph, book.found);
  const isWhole = () => stands === "numbers" || stands === "all";
  const asked = openAsked(book, {
    quick: () => quick,
    whole: () => (isChanged(store.changes) ? (isWhole() ? quick : undefined) : published),
    known: (id) => latest?.analyses[id],
  });
  asked.attach(document);
  const statisticsNow = openStatistics(book, () => new Evaluation(current, { from: [quick] }));
  if (addressOf(location.hash).place !== "" || isStateLink(location.hash)) follow(location.hash);
  const finding = openFindField(book, {
    graph: () => current,
    value: (id) => {
      const node = current.get(id);
      const show = known[id] ? "result" : "nominal";
      const text = attempt(() => showText({ node: id, show, unit: node.unit }, quick), new Set());
      if (node.kind === "given") return node.text;
      if (node.kind === "choice") return labelOf(node, book);
      return typeof text === "string" ? text : undefined;
    },
    interval: (id) => (known[id] ? intervalText(known[id] as Analysis, unitOf(current.get(id).unit)) || undefined : undefined),
  });

  /** Adds what the page makes to a part that was filled anew. */
  function attach(element: Element): void {
    asked.attach(element);
    finding.attach(element);
  }

  /** Writes the nominal texts that have changed since `before` at once; the workers answer later. */
  function nominalNow(before: Evaluation): void {
    quick.prepareAll(texts.map((entry) => entry.shown.node));
    for (const entry of texts) {
      const { node, show } = entry.shown;
      const from = madeFrom[show];
      if (from === "spread" || (from === "digits" && !known[node]) || nominalOf(node, before) === nominalOf(node, quick)) continue;
      setText(entry, textOrNone(entry.shown, quick));
    }
  }

  function tell(summary: Summary): void {
    const moved = whatMoved(store.changes, book.nodes, texts, summary, book.verdicts);
    const words = headline(moved);
    panel.show(words, renderMovements(moved).text);
    byId("said").textContent = words;
  }

  /** As published, until the first change is evaluated. */
  const summaryNow = () => {
    latest ??= summary(
      view(book, published, () => ""),
      shown,
    );
    return latest;
  };
  if (narrow.matches && !isChanged(store.changes)) drawAnew();
  const state = () => pageState(current, quick, stands === "all" ? summaryNow() : latest, store.changes, stands === "all");
  const link = () => (isChanged(store.changes) ? stateLink(store.changes, here()) : "");
  return { state, stands: () => stands, link };
}

/** The spreads of a published book: as much of its analyses as rounding a nominal value takes. */
function publishedSpreads({ analyses, worst }: BriefFound): Readonly<Record<NodeId, Spread>> {
  const spread = (id: NodeId, { interval }: BriefAnalysis): Spread => {
    const [low, high] = entryOf(worst, id) ?? [];
    return {
      worst: low === undefined ? null : { low: Number(low), high: Number(high), lowAt: {}, highAt: {}, searched: false },
      interval: interval && { low: Number(interval[0]), high: Number(interval[1]), samples: interval[2] },
    };
  };
  return Object.fromEntries(Object.entries(analyses).map(([id, kept]) => [id, spread(id, kept)]));
}

type Spread = Pick<Analysis, "worst" | "interval">;

const nothingElse = { contributions: [], standardUncertainty: 0, frozen: false, warnings: [] };

/** The evaluation of the page's own thread: nominal values of the present changes, rounded by the spread last known. */
class QuickEvaluation extends Evaluation {
  readonly #known: Readonly<Record<NodeId, Spread>>;

  constructor(graph: Graph, known: Readonly<Record<NodeId, Spread>>, from: readonly Evaluation[] = []) {
    super(graph, { from });
    this.#known = known;
  }

  /** The nominal values of many results, in one pass if all of them have one. */
  prepareAll(ids: readonly NodeId[]): void {
    attempt(() => this.prepare(ids), new Set());
  }

  override analysis(id: NodeId): Analysis {
    const known = this.#known[id];
    return known ? { ...nothingElse, ...known, node: id, nominal: this.nominal(id) } : super.analysis(id);
  }
}

/** Undefined where there is none with the values of the evaluation. */
function nominalOf(id: NodeId, evaluation: Evaluation): number | undefined {
  return attempt(() => evaluation.nominal(id), new Set());
}

/** What a decision has chosen, in words. */
function labelOf({ id, chosen }: ChoiceNode, { blocks }: BookData): string {
  const block = Object.values(blocks).find((one) => one.type === "decision" && one.choice === id);
  return (block?.type === "decision" && block.alternatives.find(({ name }) => name === chosen)?.label) || chosen;
}

/** What of the document is shown, for links to this state. */
function here(): { readonly at: string; readonly show: string } {
  return { at: document.querySelector(".page:not([hidden])")?.id ?? "front", show: shownView() };
}

interface Panel {
  busy(text: string): void;
  show(words: string, markup: string): void;
}

function changesPanel(store: Store): Panel {
  const box = byId("changes");
  const words = make("span", { class: "words" });
  const undo = make("button", { type: "button" }, "Undo");
  const reset = make("button", { type: "button" }, "Reset all");
  const link = make("button", { type: "button" }, "Link to this state");
  const body = make("div", { class: "moved-list", tabindex: "0", role: "group", "aria-label": "What moved" });
  const details = make("details", {}, make("summary", {}, words), body);
  box.append(details, make("div", { class: "buttons" }, undo, reset, link));
  undo.addEventListener("click", () => store.undo());
  reset.addEventListener("click", () => store.reset());
  link.addEventListener("click", () => showLink(stateLink(store.changes, here())));
  body.addEventListener("click", ({ target }) => {
    const button = target instanceof Element ? target.closest<HTMLButtonElement>("[data-reset]") : null;
    if (button) store.set(button.dataset.resetKind as InputKind, button.dataset.reset ?? "", undefined);
  });
  document.addEventListener("keydown", (event) => {
    const typing = event.target instanceof HTMLInputElement && event.target.type === "text";
    if ((event.ctrlKey || event.metaKey) && event.key === "z" && !typing && store.undoable) store.undo();
  });
  return {
    busy: (text) => {
      box.hidden = false;
      words.textContent = text;
      undo.disabled = !store.undoable;
    },
    show: (text, markup) => {
      words.textContent = text;
      fill(body, markup);
      box.hidden = !isChanged(store.changes) && !store.undoable;
      reset.disabled = link.disabled = !isChanged(store.changes);
      undo.disabled = !store.undoable;
    },
  };
}
