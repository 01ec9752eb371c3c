/** Finds numbers of the book by name, symbol or meaning, and what rests on one of them. */
import { inputsOf } from "../graph/inputs";
import type { GraphNode, NodeId } from "../graph/node";
import { type BookData, ownersOf, targetOf } from "./book-data";
import { anchor } from "./html";
import { nodeWords, symbolText } from "./names";

export interface Place {
  readonly node: GraphNode;
  /** Id of the element that shows it. */
  readonly target: string;
}

/** A place with what a query is held against, in lower case. */
interface Indexed extends Place {
  readonly text: string;
  readonly names: readonly string[];
}

export class Finder {
  readonly #places: readonly Indexed[];
  readonly #byId: ReadonlyMap<NodeId, Place>;
  readonly #users: ReadonlyMap<NodeId, readonly NodeId[]>;
  readonly #book: Pick<BookData, "nodes" | "requirements">;

  constructor(book: Pick<BookData, "nodes" | "blocks" | "requirements">) {
    const owners = ownersOf(book.blocks);
    this.#book = book;
    this.#places = book.nodes.flatMap((node) => {
      const target = targetOf(node, { owners });
      if (target === undefined) return [];
      const names = [node.symbol ?? "", symbolText(node.symbol ?? ""), node.id, node.id.split(".").at(-1) ?? ""].map(folded);
      return [{ node, target, names, text: folded(`${names.join(" ")} ${node.meaning ?? ""}`) }];
    });
    this.#byId = new Map(this.#places.map((place) => [place.node.id, place]));
    this.#users = usersOf(book.nodes);
  }

  /** Every place. */
  places(): readonly Place[] {
    return this.#places;
  }

  /** By id of an element the node that it shows: where it is shown first, and a given also in the register. */
  nodesByTarget(): ReadonlyMap<string, NodeId> {
    const givens = this.#book.nodes.filter((node) => node.kind === "given" || node.kind === "table");
    // A further part of a given comes after it and must not stand for it.
    const register = givens.toReversed().map(({ path, id }) => [anchor("register", path), id] as const);
    return new Map([...register, ...this.#places.map(({ node, target }) => [target, node.id] as const)]);
  }

  /**
   * Places that hold every word of a query: those whose name, or the last part of it, is the query first, then those whose meaning begins
   * with it; what stands for itself before one member of several.
   */
  find(query: string, most: number): Place[] {
    const whole = folded(query).trim();
    const words = whole.split(/\s+/).filter(Boolean);
    if (words.length === 0) return [];
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
    const all = new Set<NodeId>([id]);
    for (const one of all) for (const user of this.#users.get(one) ?? []) all.add(user);
    const near = new Set<NodeId>([id]);
    for (const one of near) {
      for (const user of this.#users.get(one) ?? []) {
        const place = this.#byId.get(user);
        if (place) places.set(user, place);
        else near.add(user);
      }
    }
    const requirements = this.#book.requirements.filter(({ answers }) => answers.some(({ node }) => all.has(node))).map((one) => one.id);
    return { places: [...places.values()], requirements };
  }
}

function usersOf(nodes: readonly GraphNode[]): ReadonlyMap<NodeId, readonly NodeId[]> {
  const users = new Map<NodeId, NodeId[]>();
  for (const node of nodes) {
    for (const input of inputsOf(node)) {
      const known = users.get(input);
      if (known) known.push(node.id);
      else users.set(input, [node.id]);
    }
  }
  return users;
}

function folded(text: string): string {
  return text.toLowerCase();
}
