/** The contents beside the pages: which page is open, its sections and where in them the reader is; a drawer where there is no room. */
import { all, byId, make } from "./dom";
import { pageTurned } from "./pages";

export function openRail(): void {
  const nav = byId("contents");
  const button = make("button", { type: "button", class: "drawer", "aria-expanded": "false", "aria-controls": "contents" }, "Contents");
  nav.before(button);
  const open = (isOpen: boolean) => {
    button.setAttribute("aria-expanded", String(isOpen));
    nav.classList.toggle("drawn", isOpen);
  };
  button.addEventListener("click", () => open(button.getAttribute("aria-expanded") === "false"));
  nav.addEventListener("click", ({ target }) => {
    if (target instanceof Element && target.closest("a")) open(false);
  });
  document.addEventListener("keydown", ({ key }) => {
    if (key !== "Escape" || button.getAttribute("aria-expanded") === "false") return;
    open(false);
    button.focus();
  });
  nav.classList.add("folding");
  for (const heading of all(".sheet :is(h3, h4)[id]"))
    heading.append(" ", make("a", { class: "here", href: `#${heading.id}`, "aria-label": "Link to this heading" }, "#"));
  pageTurned((page) => tellPage(nav, page));
  let waiting = false;
  addEventListener("scroll", () => {
    if (waiting) return;
    waiting = true;
    requestAnimationFrame(() => {
      waiting = false;
      tellPlace(nav);
    });
  });
}

/** Marks the page in the list, with its sections below it. */
function tellPage(nav: HTMLElement, page: Element): void {
  for (const old of all(".sections", nav)) old.remove();
  for (const link of all<HTMLAnchorElement>("a", nav)) {
    if (link.hash.slice(1) !== page.id) link.removeAttribute("aria-current");
    else {
      link.setAttribute("aria-current", "page");
      const items = all("h3[id]", page).map((heading) => make("li", {}, make("a", { href: `#${heading.id}` }, titleOf(heading))));
      if (items.length > 0) link.parentElement?.append(make("ol", { class: "sections" }, ...items));
    }
  }
  tellPlace(nav);
}

function titleOf(heading: Element): string {
  const parts = [...heading.childNodes].filter((node) => !(node instanceof Element && node.classList.contains("here")));
  return parts
    .map(({ textContent }) => textContent ?? "")
    .join("")
    .trim();
}

/** Marks the section that the top of the window stands in. */
function tellPlace(nav: HTMLElement): void {
  const links = all<HTMLAnchorElement>(".sections a", nav);
  const top = (link: HTMLAnchorElement) => document.getElementById(link.hash.slice(1))?.getBoundingClientRect().top ?? 0;
  const here = links.filter((link) => top(link) < innerHeight / 4).at(-1);
  for (const link of links) {
    if (link === here) link.setAttribute("aria-current", "location");
    else link.removeAttribute("aria-current");
  }
}
