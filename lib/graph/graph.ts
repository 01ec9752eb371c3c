/** The directed acyclic graph of a book or a sheet: nodes by id, nothing computed. */
import { entryOf } from "../quantity/entry-of";
import { WorkingsError } from "../quantity/error";
import type { Spread } from "../quantity/spread";
import { inputsOf } from "./inputs";
import type { ChoiceNode, GivenNode, GraphNode, NodeId, TableNode } from "./node";
import { topologicalOrder } from "./order";
import { type GraphData, revive, sameContent } from "./serialise";

/** What a reader changes, by path in the design file: every node with that path follows. Numbers are SI. */
export interface Changes {
  readonly givens?: Readonly<Record<string, GivenChange>>;
  readonly tables?: Readonly<Record<string, TableChange>>;
  readonly choices?: Readonly<Record<string, string>>;
}

/** Whether there is any change in them. */
export function isChanged(changes: Changes): boolean {
  return Object.values(changes).some((entries) => Object.keys(entries ?? {}).length > 0);
}

export interface TableChange {
  readonly x: readonly number[];
  readonly y: readonly number[];
  /** Where the whole ordinate was multiplied by a factor, that factor. */
  readonly scale?: number;
}

export interface GivenChange {
  readonly nominal: number;
  readonly spread: Spread;
  readonly text: string;
  readonly unit?: string;
  /** Absent where there is none after the change. */
  readonly doubt?: Spread;
  /** The kind of the spread after the change; that of the node where absent. */
  readonly kind?: "production" | "knowledge";
}

export class Graph {
  readonly #nodes = new Map<NodeId, GraphNode>();
  #revision = 0;
  #evidence = 0;

  /** Counts replacements: what was computed before one may be wrong after it. */
  get revision(): number {
    return this.#revision;
  }

  /** Readings that narrow what is not known: what was drawn before one more came may be wrong after it. */
  get evidence(): number {
    return this.#evidence;
  }

  /** A graph of these nodes, or of what `toJSON` gave; the same node from two sheets is one node. */
  static from(nodes: Iterable<GraphNode> | GraphData): Graph {
    const graph = new Graph();
    for (const node of "nodes" in nodes ? nodes.nodes : nodes) graph.add(node);
    return graph;
  }

  /**
   * Adds a node and returns its id. The same id with the same content changes nothing; with other content it
   * throws "graph-duplicate" unless `replace` is set (a cell that is run again).
   */
  add(node: GraphNode, options: { readonly replace?: boolean } = {}): NodeId {
    const revived = revive(node);
    const present = this.#nodes.get(node.id);
    if (present === undefined) {
      this.#nodes.set(node.id, revived);
      if (isEvidence(revived)) this.#evidence++;
    } else if (!sameContent(present, revived)) this.#replace(present, revived, options.replace === true);
    return node.id;
  }

  /** Throws "graph-missing" for an id that is not here. */
  get(id: NodeId): GraphNode {
    const node = this.#nodes.get(id);
    if (node === undefined) throw new WorkingsError("graph-missing", `there is no result or given '${id}' in this graph`, { node: id });
    return node;
  }

  has(id: NodeId): boolean {
    return this.#nodes.has(id);
  }

  /** In the order in which they were added. */
  nodes(): GraphNode[] {
    return [...this.#nodes.values()];
  }

  /** Everything that `ids` depend on, they themselves included, inputs before users. Throws on a cycle. */
  ancestors(ids: Iterable<NodeId>): NodeId[] {
    return topologicalOrder(ids, (id) => inputsOf(this.get(id)));
  }

  /** The graph with other givens, tables or choices; ids stay. Throws "graph-missing" for a path that no node has. */
  withChanges(changes: Changes): Graph {
    const used = new Set<string>();
    const changed = Graph.from(this.nodes().map((node) => changeNode(node, changes, used)));
    for (const paths of [changes.givens, changes.tables, changes.choices]) {
      for (const path of Object.keys(paths ?? {})) {
        if (!used.has(path)) throw new WorkingsError("graph-missing", `nothing in this graph is read from '${path}'`, { path });
      }
    }
    return changed;
  }

  #replace(present: GraphNode, node: GraphNode, allowed: boolean): void {
    if (!allowed) throw duplicateError(present, node);
    this.#evidence += Number(isEvidence(node)) - Number(isEvidence(present));
    this.#nodes.set(node.id, node);
    this.#revision++;
  }

  toJSON(): GraphData {
    return { version: 1, nodes: this.nodes() };
  }
}

export function isEvidence(node: GraphNode): boolean {
  return node.kind === "reading" && node.evidence === true;
}

function changeNode(node: GraphNode, changes: Changes, used: Set<string>): GraphNode {
  if (node.kind === "given") return changeGiven(node, entryOf(changes.givens, node.path), used);
  if (node.kind === "table") return changeTable(node, entryOf(changes.tables, node.path), used);
  if (node.kind === "choice") return changeChoice(node, entryOf(changes.choices, node.path), used);
  return node;
}

function changeGiven(node: GivenNode, change: GivenChange | undefined, used: Set<string>): GivenNode {
  if (change === undefined) return node;
  used.add(node.path);
  const { nominal, spread, text, unit = node.unit, doubt, kind = node.knowledge ? "knowledge" : "production" } = change;
  const { doubt: _, knowledge: __, ...rest } = node;
  return { ...rest, nominal, spread, text, unit, ...(kind === "knowledge" && { knowledge: true }), ...(doubt && { doubt }) };
}

function changeTable(node: TableNode, change: TableChange | undefined, used: Set<string>): TableNode {
  if (change === undefined) return node;
  used.add(node.path);
  return { ...node, x: change.x, y: change.y };
}

function changeChoice(node: ChoiceNode, chosen: string | undefined, used: Set<string>): ChoiceNode {
  if (chosen === undefined) return node;
  used.add(node.path);
  if (!node.options.includes(chosen)) {
    throw new WorkingsError(
      "graph-choice",
      `'${chosen}' is not an alternative of ${node.path}; these are: ${node.options.map((name) => `'${name}'`).join(", ")}`,
    );
  }
  return { ...node, chosen };
}

function duplicateError(present: GraphNode, other: GraphNode): WorkingsError {
  const message = `'${other.id}' is already defined otherwise: ${describe(present)} against ${describe(other)}; give one of them another name`;
  return new WorkingsError("graph-duplicate", message, { node: other.id });
}

function describe(node: GraphNode): string {
  if (node.kind === "formula" || node.kind === "given") return `${node.kind} ${node.text}`;
  return node.kind === "model" ? `model ${node.model}` : node.kind;
}
