/**
 * The program that the page of `workings watch` has beside its own: it hears from the command, says what went wrong, and loads the new
 * document, in which the reader finds the inputs as they were turned and the place as it was.
 */
import { make } from "./dom";
import type { Offered } from "./page";
import { type Place, placeOf, restore } from "./place";

/** What `workings watch` tells, as lib/cli/watch/server.ts sends it. */
interface Told {
  /** Of the newest document. */
  readonly version: number;
  readonly words: string;
  readonly problems: readonly { readonly title: string; readonly text: string }[];
  readonly isGood: boolean;
}

const kept = "workings.place";
/** Folds and pages are laid out a few frames after the program has filled them. */
const framesStill = 20;
const own = Number(document.documentElement.dataset.version);
const box = make("aside", { id: "watch", class: "watch", role: "status", "aria-live": "polite" });
document.body.prepend(box);
const offered = () => (window as { readonly workings?: Offered }).workings;

let typing = false;
let newest = own;
// What is being typed, or a slider that is being moved, counts only at its end: until then the document stays.
document.addEventListener("input", () => {
  typing = true;
});
for (const end of ["change", "focusout"])
  document.addEventListener(end, () => {
    typing = false;
    // The change itself is still to be taken up by the page's own listeners.
    setTimeout(refresh);
  });

void returnToPlace();
listen();

function listen(): void {
  const source = new EventSource("events");
  source.addEventListener("message", ({ data }: MessageEvent<string>) => {
    const told = JSON.parse(data) as Told;
    newest = told.version;
    show(told);
    refresh();
  });
  source.addEventListener("end", () => {
    source.close();
    lost("workings watch has ended.");
  });
  source.addEventListener("error", () => lost("workings watch does not answer."));
}

function show({ words, problems, isGood }: Told): void {
  box.className = isGood ? "watch" : "watch wrong";
  const details = problems.map(({ title, text }) => make("div", {}, make("strong", {}, title), make("pre", {}, text)));
  box.replaceChildren(make("p", {}, words), ...details);
}

function lost(words: string): void {
  box.className = "watch wrong";
  box.replaceChildren(
    make("p", {}, `${words} This page shows the book as it was then; start the command again and open the address that it prints.`),
  );
}

function refresh(): void {
  if (newest === own || typing) return;
  const link = offered()?.link();
  sessionStorage.setItem(kept, JSON.stringify(placeOf(document)));
  // Before the program runs, the changes still stand in the address.
  if (link !== undefined) history.replaceState(null, "", location.pathname + link);
  location.reload();
}

/** At once, which moves little, and at every frame until the page's program has opened the document and its height has stood still. */
async function returnToPlace(): Promise<void> {
  const text = sessionStorage.getItem(kept);
  if (text === null) return;
  sessionStorage.removeItem(kept);
  history.scrollRestoration = "manual";
  const place = JSON.parse(text) as Place;
  restore(place, document);
  let moved = false;
  for (const act of ["wheel", "keydown", "pointerdown", "touchstart"]) addEventListener(act, () => (moved = true), { once: true });
  const until = performance.now() + 10_000;
  const isDone = () => offered() !== undefined && !document.body.classList.contains("computing");
  const height = () => document.documentElement.scrollHeight;
  for (let still = 0; still < framesStill && performance.now() < until && !moved; ) {
    const before = height();
    await new Promise((frame) => requestAnimationFrame(frame));
    restore(place, document);
    still = isDone() && height() === before ? still + 1 : 0;
  }
}
