/** Which changed given or decision carries a change of a result: each is turned alone in the book as it was before. */
import type { Evaluation } from "../../analysis/evaluation";
import { reachedFrom } from "../../graph/differing";
import type { Changes } from "../../graph/graph";
import { isUnnamed } from "../../graph/identity";
import type { ChoiceNode, GivenNode, GraphNode, NodeId, TableNode } from "../../graph/node";
import { sameContent } from "../../graph/serialise";
import { WorkingsError } from "../../quantity/error";
import type { Book } from "../book";

type Input = GivenNode | TableNode | ChoiceNode;

/** What carries a change: a given, a table or a decision by its path, or `cells of battery`. */
export interface Carrier {
  readonly name: string;
  /** How far it moves the number when it alone is turned; absent where that cannot be computed. */
  readonly effect?: number;
  /** Paths of those that are too many to be turned one by one, and are turned together. */
  readonly of?: readonly string[];
}

interface ChangedInput {
  readonly path: string;
  readonly changes: Changes;
  /** What depends on it, in either book. */
  readonly reached: ReadonlySet<NodeId>;
}

/** Inputs that are turned alone for a number; each costs an evaluation of what it reaches. The rest is turned together. */
const mostTurned = 8;

/** Asks the two books, both with all sheets that they have in common. */
export class Turning {
  readonly inputs: readonly ChangedInput[];
  readonly #alone = new Map<string, Evaluation | undefined>();
  readonly #all: Changes;

  constructor(
    readonly before: Book,
    readonly after: Book,
  ) {
    const [old, now] = [inputsByPath(before), inputsByPath(after)];
    this.inputs = [...now].flatMap(([path, node]) => {
      const was = old.get(path);
      const changes = was && changesTo(was, node);
      if (changes === undefined) return [];
      const ids = [before, after].flatMap(({ graph }) => graph.nodes().filter((one) => "path" in one && one.path === path));
      const reached = new Set(
        [before, after].flatMap(({ graph }) => [
          ...reachedFrom(
            graph,
            ids.map(({ id }) => id),
          ),
        ]),
      );
      return [{ path, changes, reached }];
    });
    this.#all = merged(this.inputs.filter(({ path, changes }) => this.#turned(path, changes) !== undefined).map(({ changes }) => changes));
  }

  reaching(id: NodeId): readonly ChangedInput[] {
    return this.inputs.filter(({ reached }) => reached.has(id));
  }

  /**
   * What carries the change of a number that depends on the node `id`, the largest effect first, inputs turned together last. `measure` gives the number in
   * an evaluation of the book before; `now` is what it has become.
   */
  carriers(id: NodeId, measure: (evaluation: Evaluation) => number, now: number): readonly Carrier[] {
    const was = measured(measure, this.before.evaluation);
    if (was === undefined) return this.reaching(id).map(({ path }) => ({ name: path }));
    const effectOf = (key: string, changes: Changes): Pick<Carrier, "effect"> => {
      const evaluation = this.#turned(key, changes);
      const value = evaluation && measured(measure, evaluation);
      return value === undefined ? {} : { effect: value - was };
    };
    const reaching = this.reaching(id);
    // One more is as well turned alone.
    const most = reaching.length === mostTurned + 1 ? reaching.length : mostTurned;
    const turned = reaching.slice(0, most).map(({ path, changes }): Carrier => ({ name: path, ...effectOf(path, changes) }));
    const rest = reaching.slice(most);
    const size = Math.max(Math.abs(now - was), ...turned.map(({ effect = 0 }) => Math.abs(effect)));
    const cells = this.#cells(id, measure, now).filter(({ effect }) => effect === undefined || Math.abs(effect) > 1e-9 * size);
    const telling = [...turned, ...cells].filter(({ effect }) => effect === undefined || Math.abs(effect) > 0.005 * size);
    const sorted = telling.toSorted((a, b) => Math.abs(b.effect ?? 0) - Math.abs(a.effect ?? 0));
    if (rest.length === 0) return sorted;
    const of = rest.map(({ path }) => path);
    return [...sorted, { name: `${of.length} more together`, ...effectOf(of.join("\n"), merged(rest.map(({ changes }) => changes))), of }];
  }

  /** What is left when every given and decision has been turned: the sheets compute it otherwise. */
  #cells(id: NodeId, measure: (evaluation: Evaluation) => number, now: number): Carrier[] {
    const sheets = this.#otherwise(id);
    if (sheets.length === 0) return [];
    const name = `cells of ${sheets.join(", ")}`;
    const value = measured(measure, this.#turned("", this.#all) ?? this.before.evaluation);
    return [value === undefined ? { name } : { name, effect: now - value }];
  }

  /** Sheets that compute something behind the node, or take a given, otherwise than before. */
  #otherwise(id: NodeId): string[] {
    const [old, now] = [this.before.graph, this.after.graph].map((graph) => (graph.has(id) ? graph.ancestors([id]) : []));
    const all = [...new Set([...(old ?? []), ...(now ?? [])])];
    const different = all.filter((one) => {
      if (!this.before.graph.has(one) || !this.after.graph.has(one)) return true;
      const [a, b] = [this.before.graph.get(one), this.after.graph.get(one)];
      return !("path" in b) && !sameContent(withoutWords(a), withoutWords(b));
    });
    if (different.length === 0) return [];
    const named = different.filter((one) => !isUnnamed(one)).map((one) => one.split(".")[0] ?? one);
    const sheets = this.after.sheets.map(({ name }) => name).filter((name) => named.includes(name));
    return sheets.length > 0 ? sheets : [id.split(".")[0] ?? id];
  }

  #turned(path: string, changes: Changes): Evaluation | undefined {
    if (!this.#alone.has(path)) {
      let found: Evaluation | undefined;
      try {
        found = this.before.evaluation.withChanges(changes);
      } catch (error) {
        // An alternative that the book did not have before.
        if (!(error instanceof WorkingsError)) throw error;
      }
      this.#alone.set(path, found);
    }
    return this.#alone.get(path);
  }
}

function inputsByPath({ graph }: Book): ReadonlyMap<string, Input> {
  return new Map(graph.nodes().flatMap((node) => (isInput(node) ? [[node.path, node] as const] : [])));
}

function isInput(node: GraphNode): node is Input {
  return "path" in node;
}

/** What turns an input of the book before into what it is after; undefined where they compute the same. */
function changesTo(was: Input, node: Input): Changes | undefined {
  const { path } = node;
  if (node.kind === "choice") return was.kind === "choice" && was.chosen !== node.chosen ? { choices: { [path]: node.chosen } } : undefined;
  if (node.kind === "table") {
    const isSame = was.kind !== "table" || sameContent([was.x, was.y], [node.x, node.y]);
    return isSame ? undefined : { tables: { [path]: { x: node.x, y: node.y } } };
  }
  const { nominal, spread, text, doubt, knowledge } = node;
  const content = (one: GivenNode) => [one.nominal, one.spread, one.doubt ?? null, one.knowledge ?? null];
  if (was.kind !== "given" || sameContent(content(was), content(node))) return undefined;
  const kind = knowledge === true ? "knowledge" : "production";
  return { givens: { [path]: { nominal, spread, text, kind, ...(doubt && { doubt }) } } };
}

function merged(all: readonly Changes[]): Changes {
  return {
    givens: Object.assign({}, ...all.map(({ givens }) => givens)) as NonNullable<Changes["givens"]>,
    tables: Object.assign({}, ...all.map(({ tables }) => tables)) as NonNullable<Changes["tables"]>,
    choices: Object.assign({}, ...all.map(({ choices }) => choices)) as NonNullable<Changes["choices"]>,
  };
}

function withoutWords({ meaning: _meaning, symbol: _symbol, ...rest }: GraphNode): object {
  return rest;
}

function measured(measure: (evaluation: Evaluation) => number, evaluation: Evaluation): number | undefined {
  try {
    return measure(evaluation);
  } catch (error) {
    if (error instanceof WorkingsError) return undefined;
    throw error;
  }
}
