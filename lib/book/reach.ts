/** What a given, a table or a decision reaches: by the graph that the sheets left when they last ran, and by what their cells name now. */
import type { Swing, SwingEnd } from "../analysis/swing";
import { nearest } from "../design/nearest";
import type { Design } from "../design/types";
import { reachedFrom } from "../graph/differing";
import type { ChoiceNode, NodeId } from "../graph/node";
import { cellsNaming } from "../kernel/naming";
import type { Notebook } from "../kernel/notebook";
import type { Take } from "../kernel/takes";
import { WorkingsError } from "../quantity/error";
import { format } from "../quantity/format";
import { unitOf } from "../quantity/unit";
import type { Block } from "../sheet/block";
import { givenAt, stepText } from "../sheet/swing-words";
import type { Book } from "./book";

export interface ReachedResult {
  readonly name: string;
  readonly meaning: string;
  /** What it is worth: its value now, and at the ends of the step or with each other alternative. Absent where no reader would see it move, as of an input that only another alternative reads. */
  readonly worth?: { readonly now: string; readonly at: readonly { readonly input: string; readonly result: string }[] };
}

export interface ReachedSheet {
  readonly sheet: string;
  /** Why its outputs do not stand: what is said below is then of its last run. */
  readonly stale: readonly string[];
  /** Code cells that name the path. */
  readonly cells: readonly number[];
  /** Whether it reaches something in the outputs; "left out": these contradict others and are not read. */
  readonly outputs: "reached" | "silent" | "left out";
  /** Sheets from which it takes and that know it by their cells alone. */
  readonly through: readonly string[];
  readonly requirements: readonly string[];
  /** Published ones. */
  readonly results: readonly ReachedResult[];
  /** How many other named results. */
  readonly others: number;
  readonly decisions: readonly string[];
  readonly plots: readonly string[];
  readonly drawings: readonly string[];
  readonly budgets: readonly string[];
  readonly assumptions: readonly string[];
}

export interface Reach {
  readonly path: string;
  readonly meaning: string;
  /** As the design file states it now. */
  readonly stated: string;
  /** How far it is moved for what results are worth; absent of a decision, and of an exact zero. */
  readonly step?: string;
  readonly sheets: readonly ReachedSheet[];
  /** Every node that it reaches. */
  readonly nodes: ReadonlySet<NodeId>;
}

/** What the question is put to. */
export interface Asked {
  readonly book: Book;
  readonly design: Design;
  /** All of the book, those among them that have never run. */
  readonly sheets: readonly { readonly name: string; readonly notebook: Notebook }[];
  readonly takes: ReadonlyMap<string, readonly Take[]>;
}

/** Throws WorkingsError "usage" with the nearest paths where the design file has no such given or decision. */
export function reachOf(asked: string, { book, design, sheets, takes }: Asked): Reach {
  const path = pathNamed(asked, design);
  const isDecision = path.startsWith("decisions.");
  const inputs = book.graph.nodes().filter((node) => "path" in node && node.path === path);
  const nodes = reachedFrom(
    book.graph,
    inputs.map(({ id }) => id),
  );
  const found = sheets.map(({ name, notebook }) => {
    const own = isDecision && path.split(".")[1] === name ? path.split(".").slice(2).join(".") : path;
    const isRead = !isDecision || own !== path;
    return sheetReach(name, isRead ? cellsNaming(notebook, own) : [], nodes, path, book);
  });
  const byCells = new Set(found.filter(({ outputs, cells }) => outputs !== "reached" && cells.length > 0).map(({ sheet }) => sheet));
  return {
    path,
    ...statedAs(path, design),
    ...stepOf(path, design),
    sheets: found
      .map((one) => ({ ...one, through: one.cells.length > 0 ? [] : takenFrom(one.sheet, byCells, takes) }))
      .filter(({ outputs, cells, through }) => outputs === "reached" || cells.length + through.length > 0),
    nodes,
  };
}

function pathNamed(asked: string, design: Design): string {
  const decisions = design.decisions().map(({ path }) => path);
  const known = [asked.replace(/^givens\./, ""), `decisions.${asked}`].find(
    (path) => design.paths().includes(path) || decisions.includes(path),
  );
  if (known !== undefined) return known;
  if (decisions.includes(asked)) return asked;
  const near = nearest(asked, [...design.paths(), ...decisions]);
  throw new WorkingsError(
    "usage",
    `${design.fileName} has no given and no decision "${asked}"; ${near.length > 0 ? `did you mean ${near.join(" or ")}?` : "workings why NAME leads from a result to its givens"}`,
  );
}

function statedAs(path: string, design: Design): Pick<Reach, "meaning" | "stated"> {
  if (path.startsWith("decisions.")) return { meaning: "decision", stated: design.decision(path).chosen };
  const node = design.given(path);
  return { meaning: node.meaning ?? "", stated: node.kind === "given" ? node.text : `table of ${node.x.length} rows` };
}

function stepOf(path: string, design: Design): Pick<Reach, "step"> {
  const step = path.startsWith("decisions.") ? undefined : stepText(design.given(path));
  return step === undefined ? {} : { step };
}

function takenFrom(
  sheet: string,
  byCells: ReadonlySet<string>,
  takes: Asked["takes"],
  seen: ReadonlySet<string> = new Set([sheet]),
): string[] {
  const sources = [...new Set((takes.get(sheet) ?? []).map((take) => take.sheet))].filter((source) => !seen.has(source));
  return [
    ...new Set(
      sources.flatMap((source) => (byCells.has(source) ? [source] : takenFrom(source, byCells, takes, new Set([...seen, source])))),
    ),
  ];
}

function sheetReach(
  sheet: string,
  cells: readonly number[],
  nodes: ReadonlySet<NodeId>,
  path: string,
  book: Book,
): Omit<ReachedSheet, "through"> {
  const own = book.sheets.find(({ name }) => name === sheet);
  const displays = own?.displays ?? [];
  const blocks = displays.flatMap(({ display, named }) => (named.some((id) => nodes.has(id)) ? [display.block] : []));
  const names = <T extends Block["type"]>(type: T, of: (block: Extract<Block, { type: T }>) => string): string[] => [
    ...new Set(blocks.flatMap((block) => (block.type === type ? [of(block as Extract<Block, { type: T }>)] : []))),
  ];
  const published = [...book.published].filter(([name, id]) => name.startsWith(`${sheet}.`) && nodes.has(id));
  const shown = new Set(published.map(([, id]) => id));
  const others = [...nodes].filter((id) => id.startsWith(`${sheet}.`) && !shown.has(id));
  return {
    sheet,
    stale: book.stale.get(sheet) ?? [],
    cells,
    outputs: own === undefined ? "left out" : blocks.length + others.length > 0 ? "reached" : "silent",
    requirements: names("requirement", ({ requirement }) => requirement),
    results: published.map(([name, id]) => reachedResult(name, id, path, book)),
    others: others.length,
    decisions: names("decision", ({ name }) => name),
    plots: names("plot", ({ name }) => name),
    drawings: names("drawing", ({ name }) => name),
    budgets: names("collection", ({ budget }) => budget),
    assumptions: [...names("assumption", ({ name }) => name), ...names("confirmation", ({ of }) => of)],
  };
}

function reachedResult(name: string, id: NodeId, path: string, book: Book): ReachedResult {
  const node = book.graph.get(id);
  const told = { name, meaning: node.meaning ?? "" };
  try {
    const worth = worthOf(id, path, book);
    return worth === undefined ? told : { ...told, worth };
  } catch (error) {
    // A curve, or a result that cannot be computed: that it is reached is all there is to tell.
    if (error instanceof WorkingsError) return told;
    throw error;
  }
}

function worthOf(id: NodeId, path: string, { graph, evaluation }: Book): ReachedResult["worth"] {
  const unit = unitOf(graph.get(id).unit);
  const text = (si: number) => format({ si, unit });
  const now = text(evaluation.nominal(id));
  const choice = graph.nodes().find((node): node is ChoiceNode => node.kind === "choice" && node.path === path);
  if (choice !== undefined) {
    const others = choice.options.filter((option) => option !== choice.chosen);
    const at = others.map((input) => ({ input, result: text(evaluation.withChanges({ choices: { [path]: input } }).nominal(id)) }));
    return worth(now, at);
  }
  const swing: Swing | undefined = evaluation.swings(id).find((one) => one.path === path);
  if (swing === undefined) return undefined;
  const given = graph.get(swing.given);
  const end = ({ value, result }: SwingEnd) => ({ input: givenAt(given, value), result: result === undefined ? "none" : text(result) });
  return worth(now, [end(swing.low), end(swing.high)]);
}

/** What differs by the rounding of an evaluation alone is not moved. */
function worth(now: string, at: NonNullable<ReachedResult["worth"]>["at"]): ReachedResult["worth"] {
  return at.every(({ result }) => result === now) ? undefined : { now, at };
}
