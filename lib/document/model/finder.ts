/** Finds numbers of the book by name, symbol or meaning, and what is computed from one of them. */
import type { Graph } from "../../graph/graph";
import { spelledName } from "../../graph/identity";
import { inputsOf } from "../../graph/inputs";
import type { GraphNode, NodeId } from "../../graph/node";
import { anchor } from "../text/html";
import { decidedInputs, isOfAnother } from "./alternative";
import { type BookData, placesOf, targetOf } from "./book-data";
import { nodeWords, symbolText } from "./names";

export interface Place {
  readonly node: GraphNode;
  /** Id of the element that shows it. */
  readonly target: string;
}

/** A place with the texts that a query is compared with, in lower case. */
interface Indexed extends Place {
  readonly text: string;
  readonly names: readonly string[];
}

export class Finder {
  readonly #places: readonly Indexed[];
  readonly #byId: ReadonlyMap<NodeId, Place>;
  readonly #users: ReadonlyMap<NodeId, readonly NodeId[]>;
  readonly #nodes: readonly GraphNode[];
  readonly #requirements: BookData["requirements"];
  readonly #graph: Graph;

  /** The book in the state of `graph`. */
  constructor(book: Pick<BookData, "blocks" | "requirements">, graph: Graph) {
    const places = placesOf(book.blocks, graph);
    this.#requirements = book.requirements;
    this.#graph = graph;
    this.#nodes = graph.nodes();
    // A decision's result stands for that of the alternative, and for further results that are the same.
    const stoodFor = new Set(
      [...places.workings.values()]
        .flat()
        .flatMap(({ node, results }) => [node, ...results].filter((id) => id !== results[0] && results.length > 0)),
    );
    this.#places = this.#nodes.flatMap((node) => {
      const target = targetOf(node, places);
      if (target === undefined || stoodFor.has(node.id)) return [];
      const names = [node.symbol ?? "", symbolText(node.symbol ?? ""), spelledName(node.id), node.id.split(".").at(-1) ?? ""].map(folded);
      return [{ node, target, names, text: folded(`${names.join(" ")} ${node.meaning ?? ""}`) }];
    });
    this.#byId = new Map(this.#places.map((place) => [place.node.id, place]));
    this.#users = usersOf(this.#nodes, graph);
  }

  /** Every place. */
  places(): readonly Place[] {
    return this.#places;
  }

  /** The node that an element shows: where it is shown first, and a given also in the register. */
  nodeAt(target: string): NodeId | undefined {
    const given = () => this.#nodes.find((node) => "path" in node && node.kind !== "choice" && anchor("register", node.path) === target);
    return this.#places.find((place) => place.target === target)?.node.id ?? given()?.id;
  }

  /**
   * Places that hold every word of a query: those whose name, or the last part of it, is the query first, then those whose meaning begins
   * with it; what stands for itself before one member of several. A query that begins with a digit finds values instead.
   */
  find(query: string, most: number, textOf: (node: GraphNode) => string = () => ""): Place[] {
    const whole = folded(query).trim();
    const words = whole.split(/\s+/).filter(Boolean);
    if (words.length === 0) return [];
    if (/^[−-]?\d/.test(whole)) {
      const value = spaced(whole).replace(/^-/, "−");
      return this.#places.filter(({ node }) => spaced(textOf(node)).startsWith(value)).slice(0, most);
    }
    const rank = ({ names, node }: Indexed) => (names.includes(whole) ? 0 : folded(nodeWords(node)).startsWith(whole) ? 1 : 2);
    const member = ({ node }: Indexed) => Number(node.id.includes("["));
    return this.#places
      .filter(({ text }) => words.every((word) => text.includes(word)))
      .toSorted((a, b) => rank(a) - rank(b) || member(a) - member(b) || a.text.length - b.text.length || (a.node.id < b.node.id ? -1 : 1))
      .slice(0, most);
  }

  /** The nearest places that are computed from a node, and the requirements that it bears on. */
  uses(id: NodeId): { readonly places: readonly Place[]; readonly requirements: readonly string[] } {
    const places = new Map<NodeId, Place>();
    const node = this.#graph.has(id) ? this.#graph.get(id) : undefined;
    const itself = node?.kind === "switch" ? [id, ...decidedInputs(node, this.#graph)] : [id];
    const all = new Set<NodeId>(itself);
    for (const one of all) for (const user of this.#users.get(one) ?? []) all.add(user);
    const near = new Set<NodeId>(itself);
    for (const one of near) {
      for (const user of this.#users.get(one) ?? []) {
        const place = this.#byId.get(user);
        if (user === id) continue;
        if (place) places.set(user, place);
        else near.add(user);
      }
    }
    const requirements = this.#requirements.filter(({ answers }) => answers.some(({ node }) => all.has(node))).map((one) => one.id);
    return { places: [...places.values()], requirements };
  }
}

/** As decided: what alternatives that were not chosen compute is left out. */
function usersOf(nodes: readonly GraphNode[], graph: Graph): ReadonlyMap<NodeId, readonly NodeId[]> {
  const users = new Map<NodeId, NodeId[]>();
  for (const node of nodes) {
    if (isOfAnother(node.id, graph)) continue;
    for (const input of node.kind === "switch" ? [node.choice, ...decidedInputs(node, graph)] : inputsOf(node)) {
      const known = users.get(input);
      if (known) known.push(node.id);
      else users.set(input, [node.id]);
    }
  }
  return users;
}

/** With ordinary spaces. */
function spaced(text: string): string {
  return folded(text).replaceAll("\u00a0", " ");
}

function folded(text: string): string {
  return text.toLowerCase();
}
