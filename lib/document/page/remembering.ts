/**
 * Evaluations of one book in many states that ask again only for what a change touches: every figure is kept
 * under its node and the changes of the givens that the node depends on.
 */
import type { Band } from "../../analysis/band";
import { Evaluation } from "../../analysis/evaluation";
import type { Analysis, JudgedBy, Limit, Verdict } from "../../analysis/result";
import type { Changes, Graph } from "../../graph/graph";
import type { GraphNode, NodeId } from "../../graph/node";

type Keep = <T>(what: string, id: NodeId, make: () => T) => T;

class KeptEvaluation extends Evaluation {
  readonly #keep: Keep;

  constructor(graph: Graph, keep: Keep) {
    super(graph);
    this.#keep = keep;
  }

  override analysis(id: NodeId): Analysis {
    return this.#keep("analysis", id, () => super.analysis(id));
  }

  override band(id: NodeId): Band {
    return this.#keep("band", id, () => super.band(id));
  }

  override verdict(id: NodeId, limit: Limit, judged: JudgedBy): Verdict {
    return this.#keep(`verdict ${JSON.stringify(limit)} ${judged}`, id, () => super.verdict(id, limit, judged));
  }
}

export class Remembering {
  readonly #kept = new Map<string, unknown>();
  readonly #paths = new Map<NodeId, ReadonlySet<string>>();

  constructor(private readonly graph: Graph) {}

  /** The book with these changes. Figures of untouched nodes come from earlier states. */
  at(changes: Changes): Evaluation {
    const all = Object.entries({ ...changes.givens, ...changes.tables, ...changes.choices });
    const state = (id: NodeId) => JSON.stringify(all.filter(([path]) => this.#pathsOf(id).has(path)));
    return new KeptEvaluation(this.graph.withChanges(changes), (what, id, make) => {
      const key = `${what}\n${id}\n${state(id)}`;
      if (!this.#kept.has(key)) this.#kept.set(key, make());
      return this.#kept.get(key) as ReturnType<typeof make>;
    });
  }

  #pathsOf(id: NodeId): ReadonlySet<string> {
    const known = this.#paths.get(id);
    if (known) return known;
    const paths = new Set(this.graph.ancestors([id]).flatMap((ancestor) => pathOf(this.graph.get(ancestor))));
    this.#paths.set(id, paths);
    return paths;
  }
}

function pathOf(node: GraphNode): string[] {
  return node.kind === "given" || node.kind === "table" || node.kind === "choice" ? [node.path] : [];
}
