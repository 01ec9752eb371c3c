/** The field that finds a number, the tooltip that says what a number is, and the list of what depends on it. */
import type { Graph } from "../../graph/graph";
import { spelledName } from "../../graph/identity";
import type { NodeId } from "../../graph/node";
import type { BookData } from "../model/book-data";
import { Finder, type Place } from "../model/finder";
import { nodeWords, symbolText } from "../model/names";
import { anchor } from "../text/html";
import { all, byId, make } from "./dom";

/** What the page knows of a number with the present changes. */
export interface Known {
  /** The graph with the present changes. */
  graph(): Graph;
  /** `4.5 V`; undefined where it cannot be computed. */
  value(id: NodeId): string | undefined;
  interval(id: NodeId): string | undefined;
}

const most = 12;

/** Starts all three; `attach` adds the lists to an element that was filled anew. */
export function openFindField(book: BookData, known: Known): { attach(element: ParentNode): void } {
  let state = known.graph();
  let made = new Finder(book, state);
  const finder = () => {
    if (state !== known.graph()) {
      state = known.graph();
      made = new Finder(book, state);
    }
    return made;
  };
  openField(finder, known);
  openTitles(book, known);
  const attach = (element: ParentNode) => openUses(element, finder, known);
  attach(document);
  return { attach };
}

function openField(finder: () => Finder, known: Known): void {
  const box = byId("find");
  const field = make("input", {
    type: "search",
    placeholder: "name, symbol or value",
    "aria-label": "Find a number by name, symbol, meaning or value",
    autocomplete: "off",
    spellcheck: "false",
  });
  const list = make("ul", { class: "found" });
  const count = make("p", { class: "unseen", role: "status" });
  box.append(make("label", {}, make("span", {}, "Find a number"), field), list, count);
  box.hidden = false;
  const show = () => {
    const found = finder().find(field.value, most, ({ id }) => known.value(id) ?? "");
    list.replaceChildren(...found.map((place) => make("li", {}, linkTo(place, known))));
    const asked = field.value.trim() !== "";
    count.textContent = asked ? `${found.length === most ? `first ${most}` : found.length} found` : "";
    if (asked && found.length === 0) list.replaceChildren(make("li", {}, "nothing of that name, symbol, meaning or value"));
  };
  field.addEventListener("input", show);
  box.addEventListener("keydown", (event) => {
    if (event.key === "Enter" && event.target === field) list.querySelector("a")?.click();
    if (event.key !== "Escape") return;
    field.value = "";
    show();
    field.focus();
  });
  document.addEventListener("keydown", (event) => {
    const typing = event.target instanceof HTMLInputElement || event.target instanceof HTMLTextAreaElement;
    if (event.key !== "/" || typing || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    field.focus();
  });
}

function linkTo({ node, target }: Place, known: Known): HTMLElement {
  const words = [node.symbol ? `${symbolText(node.symbol)}:` : "", nodeWords(node), known.value(node.id) ?? ""].filter(Boolean);
  return make("a", { href: `#${target}` }, words.join(" "), make("span", { class: "symbol" }, ` ${spelledName(node.id)}`));
}

/** Symbol, meaning, value and spread of a number under the pointer or the focus, made when it is asked for. */
function openTitles(book: BookData, known: Known): void {
  const nodes = new Map(book.nodes.map((node) => [node.id, node]));
  const tell = (event: Event) => {
    const element = event.target instanceof Element ? event.target.closest<HTMLElement>("[data-node]") : null;
    const node = nodes.get(element?.dataset.node ?? "");
    if (!element || !node) return;
    const value = known.value(node.id);
    const interval = known.interval(node.id);
    const parts = [node.symbol ? symbolText(node.symbol) : "", nodeWords(node)].filter(Boolean).join(", ");
    element.setAttribute("title", `${parts}${value ? `: ${value}` : ""}${interval ? `; 95 % of units ${interval}` : ""}`);
  };
  document.addEventListener("pointerover", tell);
  document.addEventListener("focusin", tell);
}

/** Adds to each result and each given of the register a folded list of what is computed from it. */
function openUses(root: ParentNode, finder: () => Finder, known: Known): void {
  const places = [
    ...all<HTMLElement>(".result[id^='node-'] > .worked > .steps", root),
    ...all<HTMLElement>(".register tr[id^='register-'] > th", root),
  ];
  for (const element of places) {
    const target = element.closest("[id]")?.id ?? "";
    const box = make("details", { class: "uses" }, make("summary", {}, "What depends on it"));
    box.addEventListener("toggle", () => {
      const id = finder().nodeAt(target);
      if (box.open && id !== undefined) fillUses(box, finder(), id, known);
    });
    element.append(box);
  }
}

function fillUses(box: HTMLDetailsElement, finder: Finder, id: NodeId, known: Known): void {
  const { places, requirements } = finder.uses(id);
  const list = make(
    "ul",
    {},
    ...places.map((place) => make("li", {}, linkTo(place, known))),
    ...requirements.map((name) => make("li", {}, "requirement ", make("a", { href: `#${anchor("requirement", name)}` }, name))),
  );
  box.replaceChildren(
    ...[...box.children].slice(0, 1),
    places.length + requirements.length > 0 ? list : make("p", {}, "nothing in this book"),
  );
}
