/** Other statistics of a result: filled when a reader unfolds them or asks otherwise, and anew while they are open and an input is turned. */
import type { Evaluation } from "../../analysis/evaluation";
import type { NodeId } from "../../graph/node";
import type { StatisticsAsked } from "../../sheet/statistics-words";
import { renderStatistics, statisticsFields } from "../live/statistics";
import type { BookData } from "../model/book-data";
import { all, fill, make } from "./dom";

/** `evaluation` makes one of the present state, with all of its analyses. Returns what is to be called when the state has changed. */
export function openStatistics(book: BookData, evaluation: () => Evaluation): () => void {
  const others = publishedResults(book);
  const asked = new WeakMap<HTMLDetailsElement, StatisticsAsked>();
  const show = (place: HTMLDetailsElement): void => {
    const { statistics: id = "" } = place.dataset;
    const wanted = asked.get(place) ?? { coverage: 0.95 };
    for (const old of place.querySelectorAll(":scope > :not(summary)")) old.remove();
    const fields = make("div");
    fill(fields, statisticsFields(id, wanted, others).text);
    const lines = make("div", { class: "scroll", "aria-live": "polite" });
    fill(lines, renderStatistics(id, evaluation(), wanted).text);
    place.append(fields, lines);
  };
  // Parts that are filled anew bring places of their own, and this event does not bubble.
  document.addEventListener(
    "toggle",
    ({ target }) => {
      if (target instanceof HTMLDetailsElement && target.open && target.dataset.statistics !== undefined) show(target);
    },
    true,
  );
  document.addEventListener("change", ({ target }) => {
    const place = target instanceof HTMLSelectElement ? target.closest<HTMLDetailsElement>("details[data-statistics]") : null;
    if (place === null || !(target instanceof HTMLSelectElement)) return;
    const before = asked.get(place) ?? { coverage: 0.95 };
    const { value, dataset } = target;
    const { beside: _, ...rest } = before;
    asked.set(
      place,
      dataset.asked === "coverage" ? { ...before, coverage: Number(value) } : value === "" ? rest : { ...rest, beside: value },
    );
    show(place);
    place.querySelector<HTMLSelectElement>(`select[data-asked="${dataset.asked}"]`)?.focus();
  });
  return () => {
    for (const place of all<HTMLDetailsElement>("details[data-statistics][open]")) show(place);
  };
}

function publishedResults({ blocks }: BookData): ReadonlyMap<string, NodeId> {
  return new Map(
    Object.entries(blocks).flatMap(([ref, block]) =>
      block.type === "publish" ? Object.entries(block.names).map(([name, node]) => [`${ref.split("/")[0]}.${name}`, node] as const) : [],
    ),
  );
}
