/** How much of the document is unfolded: its story, or the workings too, or the code of the cells besides. */
import { all, byId, make } from "./dom";

const views = ["story", "workings", "code"] as const;
export type View = (typeof views)[number];
const words: Readonly<Record<View, string>> = { story: "Story", workings: "Workings", code: "Code" };

export const isView = (text: string | null): text is View => views.some((view) => view === text);

/** What is shown now. */
export function shownView(): View {
  const { view = null } = document.documentElement.dataset;
  return isView(view) ? view : "story";
}

/** Folds and unfolds every block of the document; a reader may then fold and unfold each. */
export function setView(view: View): void {
  if (document.documentElement.dataset.view === view) return;
  document.documentElement.dataset.view = view;
  for (const fold of all<HTMLDetailsElement>("details.worked, details.givens-block, details.workings")) fold.open = view !== "story";
  for (const fold of all<HTMLDetailsElement>("details.code")) fold.open = view === "code";
  for (const radio of all<HTMLInputElement>("#views input")) radio.checked = radio.value === view;
}

/** Puts the switch into the page; `chosen` is told what a reader has chosen. */
export function openViews(chosen: (view: View) => void): void {
  const box = byId("views");
  const choices = views.map((view) => {
    const radio = make("input", { type: "radio", name: "view", value: view, autocomplete: "off" });
    radio.addEventListener("change", () => {
      setView(view);
      chosen(view);
    });
    return make("label", {}, radio, ` ${words[view]}`);
  });
  box.append(make("legend", { class: "unseen" }, "How much is shown"), ...choices);
  box.hidden = false;
  setView("story");
}
