/**
 * Draws of results: one column a result, range point and what of its givens is drawn. A result that uses results already drawn at that point
 * starts from their columns, so that a sheet computes each formula once.
 */
import type { BlockInput } from "../graph/block";
import type { NodeValue } from "../graph/curve";
import type { Graph } from "../graph/graph";
import type { GivenNode, NodeId } from "../graph/node";
import { Program } from "../graph/program";
import { ColumnCache } from "./columns";
import { Evidence } from "./evidence";
import { combined, type Drawn, drawsOf, hasKind } from "./kinds";
import type { RangePoint } from "./result";
import type { Study } from "./study";

export interface SamplerOptions {
  readonly seed: number;
  readonly samples: number;
}

/** Draws longer than this are made block by block and not kept. */
const keptLength = 100_000;
const budgetBytes = 256e6;

export class Sampler {
  readonly #graph: Graph;
  readonly #options: SamplerOptions;
  readonly #study: (id: NodeId) => Study;
  readonly #columns = new ColumnCache(budgetBytes);
  readonly #drawn = new Set<NodeId>();
  readonly #programs = new Map<NodeId, { readonly program: Program; readonly from: readonly NodeId[] }>();
  /** Undefined of a sampler that knows what the design file states and no more. */
  readonly evidence: Evidence | undefined;

  constructor(graph: Graph, options: SamplerOptions, study: (id: NodeId) => Study, prior?: Sampler) {
    this.#graph = graph;
    this.#options = options;
    this.#study = study;
    this.evidence = prior && new Evidence(graph, options, prior, study);
  }

  /**
   * Values of a result with its ranges at a point: by production with what is not known at its best estimate, or the other way round, or
   * both drawn. NaN where a draw has no value. Not to be written to.
   */
  column(id: NodeId, at: RangePoint, drawn: Drawn = "production"): Float64Array {
    const study = this.#study(id);
    const point = study.own(at);
    const key = keyOf(id, drawn === "production" ? point : [drawn, point]);
    const column = this.#columns.get(key, () => this.#fromDrawn(study, point, drawn));
    this.#drawn.add(id);
    return column;
  }

  /** Columns of another graph's sampler, of nodes that are the same here; of longer ones the beginning, which is what would be drawn. */
  takeOver(other: Sampler, isKept: (id: NodeId) => boolean): void {
    this.#columns.takeOver(other.#columns, (key) => isKept(nodeOfKey(key)), this.#options.samples);
    if (other.evidence !== undefined) this.evidence?.takeOver(other.evidence, isKept);
    for (const id of other.#drawn) if (isKept(id)) this.#drawn.add(id);
    for (const [id, program] of other.#programs) if (isKept(id) && !this.#programs.has(id)) this.#programs.set(id, program);
  }

  /** The first `rows` values of a result at a range point, computed from the givens; not kept. */
  sample(study: Study, point: RangePoint, rows: number, drawn: Drawn): Float64Array {
    const n = Math.min(rows, this.rows(study));
    return study.program.block(n, this.#drawsOf(study.drawnWith(drawn), drawn), [study.id], study.stateAt(point))[0] as Float64Array;
  }

  /** Draws of a given for one kind of its spread, or both, as an input of a block; its nominal where it has no such spread. */
  draws(given: GivenNode, drawn: Drawn): BlockInput {
    const { seed, samples } = this.#options;
    const rows = drawn === "production" || !hasKind(given, "knowledge") ? undefined : this.evidence?.rowsOf(given);
    if (rows !== undefined) return this.#columns.get(keyOf(given.id, drawn), () => this.#narrowed(given, drawn, rows));
    const fill = drawsOf(given, drawn, seed) ?? ((out: Float64Array, _: number, n: number) => void out.fill(given.nominal, 0, n));
    if (samples > keptLength) return fill;
    return this.#columns.get(drawn === "production" ? keyOf(given.id) : keyOf(given.id, drawn), () => {
      const column = new Float64Array(samples);
      fill(column, 0, samples);
      return column;
    });
  }

  /** The truths that evidence has drawn anew, beside the units where both are drawn. */
  #narrowed(given: GivenNode, drawn: Drawn, rows: Int32Array): Float64Array {
    const column = (kind: Drawn): Float64Array => {
      const out = new Float64Array(rows.length);
      drawsOf(given, kind, this.#options.seed)?.(out, 0, rows.length);
      return out;
    };
    const before = column("knowledge");
    const truths = Float64Array.from(rows, (row) => before[row] as number);
    if (drawn !== "both" || !hasKind(given, "production")) return truths;
    const [units, combine] = [column("production"), combined(given)];
    return truths.map((truth, i) => combine(units[i] as number, truth));
  }

  /** Draws of a result: as asked of the evaluation, fewer where a model states so. */
  rows(study: Study): number {
    return Math.min(this.#options.samples, study.maximumDraws);
  }

  #drawsOf(tolerances: readonly GivenNode[], drawn: Drawn): Map<NodeId, BlockInput> {
    return new Map(tolerances.map((given) => [given.id, this.draws(given, drawn)]));
  }

  #fromDrawn(study: Study, point: RangePoint, drawn: Drawn): Float64Array {
    const { program, from } = this.#programFor(study);
    if (program === study.program) return this.sample(study, point, this.#options.samples, drawn);
    const outside = study.stateAt(point);
    const overrides = new Map<NodeId, NodeValue>(Object.entries(point));
    for (const id of from) overrides.set(id, study.program.valueIn(outside, id));
    const state = program.evaluate({ overrides, selections: study.nominal.selections, strict: false });
    const before = from
      .filter((id) => this.#study(id).drawnWith(drawn).length > 0)
      .map((id): [NodeId, BlockInput] => [id, this.column(id, point, drawn)]);
    const own = study.drawnWith(drawn).filter((given) => program.has(given.id));
    const columns = new Map([...before, ...this.#drawsOf(own, drawn)]);
    return program.block(this.rows(study), columns, [study.id], state)[0] as Float64Array;
  }

  /** The program that starts from results drawn before; it is made once, when the result is first drawn. */
  #programFor(study: Study): { program: Program; from: readonly NodeId[] } {
    let found = this.#programs.get(study.id);
    if (found === undefined) {
      const cuts = new Set([...this.#drawn].filter((id) => id !== study.id && study.program.has(id)));
      const program = cuts.size === 0 ? study.program : Program.compile(this.#graph, [study.id], cuts);
      found = { program, from: [...cuts].filter((id) => program.has(id)) };
      this.#programs.set(study.id, found);
    }
    return found;
  }
}

/** Key of something known of a node under some condition, such as a column at a range point. */
export function keyOf(id: NodeId, condition?: unknown): string {
  return condition === undefined ? `${id}\n` : `${id}\n${JSON.stringify(condition)}`;
}

export function nodeOfKey(key: string): NodeId {
  return key.slice(0, key.indexOf("\n"));
}
