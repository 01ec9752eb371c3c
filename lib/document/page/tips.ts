/** What a verdict means: beside its badge while the pointer is over it, while it has the focus, and after a tap. Escape closes it. */
import type { VerdictWord } from "../../analysis/result";
import { verdictMeanings } from "../text/verdict-text";
import { byId, make } from "./dom";

/** Time to move the pointer from the badge to the words, ms. */
const pause = 200;

export function openTips(): void {
  const tip = make("div", { id: "tip", class: "tip", role: "tooltip", hidden: "" });
  byId("content").append(tip);
  let shown: HTMLElement | undefined;
  let closing: ReturnType<typeof setTimeout> | undefined;
  const close = () => {
    clearTimeout(closing);
    shown?.removeAttribute("aria-describedby");
    shown = undefined;
    tip.hidden = true;
  };
  const open = (badge: HTMLElement) => {
    clearTimeout(closing);
    if (badge === shown) return;
    close();
    shown = badge;
    fill(tip, badge);
    tip.hidden = false;
    badge.setAttribute("aria-describedby", tip.id);
    place(tip, badge);
  };
  const later = () => {
    clearTimeout(closing);
    closing = setTimeout(close, pause);
  };
  document.addEventListener("pointerover", ({ target }) => {
    const badge = badgeAt(target);
    if (badge !== undefined) open(badge);
    else if (isWithin(target, tip)) clearTimeout(closing);
    else if (shown !== undefined && shown !== document.activeElement) later();
  });
  document.addEventListener("focusin", ({ target }) => {
    const badge = badgeAt(target);
    if (badge !== undefined) open(badge);
    else close();
  });
  document.addEventListener("click", ({ target }) => {
    const badge = badgeAt(target);
    if (badge !== undefined) open(badge);
    else if (!isWithin(target, tip)) close();
  });
  document.addEventListener("keydown", ({ key }) => {
    if (key === "Escape") close();
  });
  addEventListener("hashchange", close);
  addEventListener("resize", close);
}

function badgeAt(target: EventTarget | null): HTMLElement | undefined {
  return (target instanceof Element && target.closest<HTMLElement>("button[data-verdict]")) || undefined;
}

function isWithin(target: EventTarget | null, element: Element): boolean {
  return target instanceof Node && element.contains(target);
}

function fill(tip: HTMLElement, { dataset }: HTMLElement): void {
  const word = dataset.verdict as VerdictWord;
  const decided = dataset.decided ?? "";
  tip.replaceChildren(
    make("p", {}, make("strong", {}, word), ` ${verdictMeanings[word]}`),
    ...(decided === "" ? [] : [make("p", {}, decided)]),
    make("p", {}, make("a", { href: "#conventions" }, "How the numbers are meant")),
  );
}

/** Below the badge, or above it where the window ends; never beyond its sides. */
function place(tip: HTMLElement, badge: HTMLElement): void {
  const box = badge.getBoundingClientRect();
  const { width, height } = tip.getBoundingClientRect();
  const below = box.bottom + 4 + height < innerHeight || box.top < height + 4;
  tip.style.left = `${Math.max(8, Math.min(box.left, document.documentElement.clientWidth - width - 8)) + scrollX}px`;
  tip.style.top = `${(below ? box.bottom + 4 : box.top - height - 4) + scrollY}px`;
}
