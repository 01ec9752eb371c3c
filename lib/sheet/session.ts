/** What one run of a worksheet knows: its graph, who defined what, what was read out, and where results are shown. */
import { Evaluation } from "../analysis/evaluation";
import type { Analysis, Verdict } from "../analysis/result";
import type { Design } from "../design/types";
import type { Operation } from "../formula/expression";
import { Graph } from "../graph/graph";
import { contentId } from "../graph/identity";
import type { GraphNode, NodeId } from "../graph/node";
import { sameContent } from "../graph/serialise";
import type { Dim } from "../quantity/dimension-types";
import { WorkingsError } from "../quantity/error";
import type { Unit } from "../quantity/quantity";
import { type Lineage, Quantity } from "../quantity/quantity";
import { unitOf } from "../quantity/unit";
import type { Block } from "./block";
import { captionHtml } from "./block-html";
import { Definitions } from "./definitions";
import { emit, foundBefore, offerFound, type RunningCell, runningCell } from "./emit";
import { kindOf } from "./kinds";
import { addOperation } from "./operate";
import { type Drawn, presentation } from "./present";
import { reference } from "./stored";

interface Contributed {
  readonly budget: string;
  readonly label: string;
  readonly node: NodeId;
  readonly cell: RunningCell | undefined;
}

interface Held {
  readonly node: GraphNode;
  readonly cell: RunningCell | undefined;
}

/** Where a kernel does not tell which cell it runs, any cell may have been run again. */
const isThere = ({ cell }: Held): boolean => cell !== undefined && cell.superseded !== true;

// A quantity of whatever dimension; `Quantity<Dim>` is refused by explicit variance
export type AnyQuantity = Quantity<any>;

export class Session {
  readonly graph = new Graph();
  readonly evaluation: Evaluation;
  private readonly definitions: Definitions;
  /** What this run has contributed to roll-ups, by roll-up and label. */
  private readonly contributed = new Map<string, Contributed>();
  /** The cells that have summed a roll-up, by its name. */
  private readonly collected = new Map<string, { readonly cell: RunningCell | undefined }>();
  /** Results whose verdicts have been shown. */
  readonly judged: { readonly node: NodeId; readonly requirement: string; readonly cell: RunningCell | undefined }[] = [];
  private readonly reads = new Set<NodeId>();
  /** By id, the nodes that outputs hold, each with the cell that showed it. */
  private readonly held = new Map<NodeId, Held>();
  private added: GraphNode[] = [];
  private scope = "";
  private quiet = 0;

  constructor(
    readonly sheet: string,
    readonly design: Design,
  ) {
    this.evaluation = new Evaluation(this.graph, { earlier: foundBefore() });
    this.definitions = new Definitions(sheet, (message) => this.error("worksheet", message));
    offerFound(() => this.evaluation.found);
  }

  /** Id of a name of this sheet, within the alternative being evaluated, if any. */
  idOf(name: string): NodeId {
    return `${this.sheet}.${this.scope}${name}`;
  }

  /** Evaluates `body` without showing anything, its names kept apart under `scope`. */
  within<T>(scope: string, body: () => T): T {
    const outer = this.scope;
    this.scope = `${outer}${scope}.`;
    this.quiet++;
    try {
      return body();
    } finally {
      this.scope = outer;
      this.quiet--;
    }
  }

  /** Adds a node that every sheet shares: a given, a table, a decision, an unnamed intermediate. */
  add(node: GraphNode): NodeId {
    const kept = withoutPlace(node);
    this.added.push(kept);
    return this.graph.add(kept);
  }

  /** Adds or, when its own cell is run again, replaces a result of this sheet. Throws where the name stands for one already. */
  define(node: GraphNode): NodeId {
    this.definitions.note(node.id, node.id.startsWith(`${this.sheet}.`) ? node.id.slice(this.sheet.length + 1) : node.id);
    this.added.push(node);
    return this.graph.add(node, { replace: true });
  }

  /** Notes a name that is none of a result: `plot "spread"`. Throws where the sheet has used it already. */
  name(kind: string, name: string): void {
    this.definitions.note(`${kind} ${name}`, `${kind} "${name}"`);
  }

  /** Keeps what this sheet adds to a roll-up. Throws where it has added an item of that label already, or has summed the roll-up before. */
  contribute(budget: string, items: readonly Pick<Contributed, "label" | "node">[]): void {
    const cell = runningCell();
    for (const { label } of items) this.name(`contribution to ${budget}`, label);
    this.checkNotCollected(
      budget,
      items.map(({ label }) => label),
    );
    for (const item of items) this.contributed.set(JSON.stringify([budget, item.label]), { budget, ...item, cell });
  }

  /** What this sheet has added to a roll-up so far; not what a cell had added that has been run again since. */
  collect(budget: string): Contributed[] {
    this.collected.set(budget, { cell: runningCell() });
    return this.contributionsTo(budget).filter(({ cell }) => cell?.superseded !== true);
  }

  private contributionsTo(budget: string): Contributed[] {
    return [...this.contributed.values()].filter((item) => item.budget === budget);
  }

  /** A cell that a front end runs again is told which sum it leaves behind; an item that comes too late in the sheet is an error. */
  private checkNotCollected(budget: string, labels: readonly string[]): void {
    const sum = this.collected.get(budget);
    if (sum === undefined || sum.cell?.superseded === true) return;
    const cell = runningCell();
    const isOfThisCell = (item: Contributed) => item.cell !== cell && item.cell?.id !== undefined && item.cell.id === cell?.id;
    const isAgain = this.contributionsTo(budget).some((item) => labels.includes(item.label) || isOfThisCell(item));
    const where = sum.cell === undefined ? "an earlier call" : `cell ${sum.cell.index}`;
    const words = `${labels.join(", ")} contributed to "${budget}" after ${where} has collected it: the sum there`;
    if (!isAgain) throw this.error("worksheet", `${words} lacks what comes later; contribute above that collect`);
    emit({ "text/plain": `${this.sheet}: ${words} is of an earlier run; run that cell again` });
  }

  /** The quantity that stands for a node, in its unit or another of its dimension. */
  quantity(id: NodeId, unit: Unit<any> = unitOf(this.node(id).unit)): AnyQuantity {
    const node = this.node(id);
    const extra = {
      lineage: new Tracked(this, id),
      ...(node.symbol === undefined ? {} : { symbol: node.symbol }),
      ...(node.meaning === undefined ? {} : { meaning: node.meaning }),
      ...(node.kind === "given" ? { spread: node.spread } : {}),
    };
    return new Quantity<Dim>(this.nominal(id), unit.dimension, unit as never, extra as never);
  }

  /**
   * Within alternatives an impossible one (a rail below the forward voltage) has no number, and the decision says
   * so beside it; anywhere else it is an error.
   */
  private nominal(id: NodeId): number {
    try {
      return this.evaluation.nominal(id);
    } catch (error) {
      if (!this.isShowing && error instanceof WorkingsError) return Number.NaN;
      throw error;
    }
  }

  node(id: NodeId): GraphNode {
    return this.graph.get(id);
  }

  /** Node of a quantity in this sheet; a quantity made from a bare number becomes a constant, or frozen after a read-out. */
  enter(quantity: AnyQuantity): NodeId {
    const { lineage } = quantity;
    if (lineage instanceof Tracked && lineage.session === this) return lineage.id;
    const common = { dimension: quantity.dimension.key, unit: quantity.unit.symbol };
    const value = quantity.si;
    const content =
      this.reads.size === 0
        ? { kind: "constant" as const, ...common, value }
        : { kind: "frozen" as const, ...common, value, reads: [...this.reads] };
    return this.add({ id: contentId(content), ...content });
  }

  /** Remembers that a result was read out as a bare number. */
  read(id: NodeId): void {
    const { kind } = this.node(id);
    if (kind !== "constant") this.reads.add(id);
  }

  /** False within alternatives. */
  get isShowing(): boolean {
    return this.quiet === 0;
  }

  /** Shows a block, with the nodes that came in since the last one. Quiet within alternatives. */
  show(block: Block, analyses: readonly Analysis[] = [], verdicts: readonly Verdict[] = [], drawn: Drawn = {}): void {
    if (!this.isShowing) {
      if (kindOf(block).isQuiet === true) return;
      throw this.error("worksheet", `a ${block.type} within alternatives or each is shown nowhere; make it after them, from their results`);
    }
    const { nodes, refers } = this.brought(block);
    emit(presentation(this, { block, nodes, refers, analyses, verdicts }, drawn));
    // A front end shows a picture instead of the text beside it.
    if (drawn.svg !== undefined && "caption" in block) emit({ "text/html": captionHtml(block.caption, drawn).text });
    for (const node of nodes) this.held.set(node.id, { node, cell: runningCell() });
    this.added = [];
  }

  /** The nodes that this display is to store, and those among the ones made again that another cell's output holds. */
  private brought(block: Block): { readonly nodes: readonly GraphNode[]; readonly refers: readonly string[] } {
    const made = [...new Map([...this.lost(block), ...this.added].map((node) => [node.id, node])).values()];
    const holder = (node: GraphNode): Held | undefined => {
      const held = this.held.get(node.id);
      return held !== undefined && isThere(held) && sameContent(held.node, node) ? held : undefined;
    };
    const cell = runningCell();
    return {
      nodes: made.filter((node) => holder(node) === undefined),
      refers: made.filter((node) => (holder(node)?.cell ?? cell) !== cell).map(reference),
    };
  }

  /** What the block needs and only the former output of a cell held that has been run again since. */
  private lost(block: Block): GraphNode[] {
    const isLost = ({ cell }: Held) => cell?.superseded === true;
    if (![...this.held.values()].some(isLost)) return [];
    const named: NodeId[] = [];
    kindOf(block).shape(block, "", named);
    const behind = this.graph.ancestors(named).flatMap((id) => this.held.get(id) ?? []);
    return behind.filter(isLost).map(({ node }) => node);
  }

  error(code: ConstructorParameters<typeof WorkingsError>[0], message: string, details: Record<string, unknown> = {}): WorkingsError {
    const cell = runningCell();
    const where = cell === undefined ? this.sheet : `${this.sheet}, cell ${cell.index}`;
    return new WorkingsError(code, `${where}: ${message}`, { sheet: this.sheet, ...details });
  }
}

/** Lineage of a quantity of a worksheet: the node it stands for. */
class Tracked implements Lineage {
  constructor(
    readonly session: Session,
    readonly id: NodeId,
  ) {}

  operate(operation: Operation, operands: readonly (AnyQuantity | number)[]): Lineage {
    return new Tracked(this.session, addOperation(this.session, operation, operands));
  }

  read(): void {
    this.session.read(this.id);
  }
}

/** A line inserted higher up in the design file moves every place below it; what is stored must not change with it. */
function withoutPlace(node: GraphNode): GraphNode {
  if (!("provenance" in node)) return node;
  const { place: _, ...provenance } = node.provenance;
  return { ...node, provenance };
}
