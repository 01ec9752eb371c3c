/** Tables of what each given is worth: filled when a reader unfolds one, and anew while it is open and an input is turned. */
import type { Evaluation } from "../../analysis/evaluation";
import { renderSwings } from "../live/swings";
import { type BookData, view } from "../model/book-data";
import { all, fill, make } from "./dom";

/** `evaluation` gives that of the present state. Returns what is to be called when the state has changed. */
export function openSwings(book: BookData, evaluation: () => Evaluation): () => void {
  const show = (place: HTMLDetailsElement): void => {
    const { swings = "" } = place.dataset;
    for (const old of place.querySelectorAll(":scope > :not(summary)")) old.remove();
    const table = make("div", { class: "scroll" });
    fill(
      table,
      renderSwings(
        swings,
        view(book, evaluation(), () => ""),
      ).text,
    );
    place.append(table);
  };
  // Parts that are filled anew bring places of their own, and this event does not bubble.
  document.addEventListener(
    "toggle",
    ({ target }) => {
      if (target instanceof HTMLDetailsElement && target.open && target.dataset.swings !== undefined) show(target);
    },
    true,
  );
  return () => {
    for (const place of all<HTMLDetailsElement>("details[data-swings][open]")) show(place);
  };
}
