/** The data of a book's page from the book. */
import type { Evaluation } from "../../analysis/evaluation";
import type { Answered, Book, BookDesign } from "../../book/book";
import { candidates } from "../../book/name";
import { format } from "../../quantity/format";
import { unitOf } from "../../quantity/unit";
import type { PlotBlock } from "../../sheet/block";
import type { PlotData } from "../../sheet/plot/plot";
import type { Room } from "../../sheet/plot/room";
import { mapLayout } from "../front/map-layout";
import { productDrawing, type Stated } from "../front/product-layout";
import { requirementVerdict } from "../live/requirements";
import { withoutData } from "../live/spec-data";
import { workingLaws } from "../live/workings";
import { lawTemplate } from "../text/math";
import { alternativeOf } from "./alternative";
import { type BookData, type RequirementData, view } from "./book-data";

/** How plots are compiled and drawn at publish time. */
export interface PlotMaker {
  compile(block: PlotBlock, evaluation: Evaluation, room: Room): unknown;
  render(block: PlotBlock, evaluation: Evaluation, idPrefix: string): string;
}

/** Names of the rows that the page computes anew: the members of PlotData. */
const datasets = ["lines", "points", "ends", "spreads", "rules", "windows"] as const satisfies readonly (keyof PlotData)[];

export function bookData(book: Book, plots: PlotMaker): BookData {
  const { blocks, evaluation, design } = book;
  const specOf = (block: PlotBlock, room: Room) => withoutData(plots.compile(block, evaluation, room), datasets);
  const compiled = Object.entries(blocks).flatMap(([ref, block]) =>
    block.type === "plot" ? [[ref, { wide: specOf(block, "wide"), narrow: specOf(block, "narrow") }] as const] : [],
  );
  const requirements = book.requirements.map(requirementData);
  const map = mapLayout({ blocks, requirements }, evaluation.graph);
  const product = productDrawing(
    design.blocks ?? [],
    (name) => candidates(book, name)[0]?.id,
    (name) => statedAt(name, design),
  );
  const plotted = Object.fromEntries(compiled);
  const nodes = evaluation.graph.nodes();
  const laws = workingLaws(evaluation.graph, ({ id }) => alternativeOf(id, evaluation.graph) !== undefined, lawTemplate);
  const bare = { nodes, blocks, requirements, laws, plots: plotted, map, verdicts: {}, ...(product && { product }) };
  const shown = view(bare, evaluation, () => "");
  return {
    ...bare,
    verdicts: Object.fromEntries(requirements.map((requirement) => [requirement.id, requirementVerdict(requirement, shown)])),
  };
}

function requirementData({ row, answers }: Answered): RequirementData {
  const { id, statement, limit, unit, dimension, judged, where } = row;
  return { id, statement, limit, unit, dimension, judged, answers, ...(where !== undefined && { where }) };
}

/** A given that no sheet reads, as the design file states it. */
function statedAt(path: string, design: BookDesign): Stated | undefined {
  if (!design.paths().includes(path)) return undefined;
  const given = design.given(path);
  if (given.kind !== "given") return undefined;
  const unit = unitOf(given.unit);
  return { text: given.text, short: format({ si: given.nominal, unit }, { style: "plain" }) };
}
