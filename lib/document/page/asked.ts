/**
 * What a reader may ask of a result: where its spread comes from, what each given is worth, other statistics. The folds are made when the
 * document opens, filled when one is unfolded, and filled anew while it is open and an input is turned.
 */
import type { Evaluation } from "../../analysis/evaluation";
import type { Analysis } from "../../analysis/result";
import type { NodeId } from "../../graph/node";
import { hasShares, renderContributions } from "../live/contributions";
import { renderSwings } from "../live/swings";
import { type BookData, type View, view } from "../model/book-data";
import type { Html } from "../text/html";
import { all, fill, make } from "./dom";

export interface Evaluations {
  /** Nominal values of the present state. */
  quick(): Evaluation;
  /** With the analyses of the present state; undefined while they are computed. */
  whole(): Evaluation | undefined;
  /** The analysis of a result, where it is known without being computed. */
  known(id: NodeId): Pick<Analysis, "contributions"> | undefined;
}

export interface Asked {
  /** Makes the folds of the results within. */
  attach(root: ParentNode): void;
  /** Fills again what is open: the nominal values have changed, or all numbers. */
  now(): void;
}

export function openAsked(book: BookData, evaluations: Evaluations): Asked {
  const of = (evaluation: Evaluation): View => view(book, evaluation, () => "");
  const folds: Readonly<Record<string, (id: NodeId) => Html | undefined>> = {
    contributions: (id) => {
      const whole = evaluations.whole();
      return whole && renderContributions(id, of(whole));
    },
    swings: (id) => renderSwings(id, of(evaluations.quick())),
  };
  const show = (place: HTMLDetailsElement): void => {
    for (const [name, render] of Object.entries(folds)) {
      const id = place.dataset[name];
      if (id === undefined) continue;
      for (const old of place.querySelectorAll(":scope > :not(summary)")) old.remove();
      const markup = render(id);
      const box = make("div", { class: "scroll" }, ...(markup === undefined ? [make("p", {}, "Recalculating…")] : []));
      if (markup !== undefined) fill(box, markup.text);
      place.append(box);
    }
  };
  // Parts that are filled anew bring places of their own, and this event does not bubble.
  document.addEventListener(
    "toggle",
    ({ target }) => {
      if (target instanceof HTMLDetailsElement && target.open) show(target);
    },
    true,
  );
  return {
    attach(root) {
      for (const place of all<HTMLElement>(".asked", root)) {
        const { of: id = "", spread } = place.dataset;
        const shares = fold("contributions", id, "Where its spread comes from");
        shares.hidden = spread === undefined && !isSpread(evaluations, id);
        place.replaceChildren(shares, fold("swings", id, "What each given is worth"), fold("statistics", id, "Other statistics"));
      }
    },
    now() {
      for (const place of all<HTMLDetailsElement>("details[data-contributions][hidden]"))
        if (isSpread(evaluations, place.dataset["contributions"] ?? "")) place.hidden = false;
      for (const place of all<HTMLDetailsElement>("details:is([data-swings], [data-contributions])[open]")) show(place);
    },
  };
}

function isSpread({ known }: Evaluations, id: NodeId): boolean {
  return hasShares(known(id)?.contributions ?? []);
}

function fold(name: string, id: NodeId, words: string): HTMLDetailsElement {
  return make("details", { class: "contributions", [`data-${name}`]: id }, make("summary", {}, words));
}
