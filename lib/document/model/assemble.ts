/** The data of a book's page from its sheets and its design file. */
import type { Evaluation } from "../../analysis/evaluation";
import type { Design, RequirementRow } from "../../design/types";
import { givenId } from "../../graph/identity";
import type { NodeId } from "../../graph/node";
import { format } from "../../quantity/format";
import { unitOf } from "../../quantity/unit";
import type { PlotBlock } from "../../sheet/block";
import type { PlotData } from "../../sheet/plot/plot";
import { mapLayout } from "../front/map-layout";
import { productDrawing, type Stated } from "../front/product-layout";
import { requirementVerdict } from "../live/requirements";
import { withoutData } from "../live/spec-data";
import { workingLaws } from "../live/workings";
import { lawTemplate } from "../text/math";
import { alternativeOf } from "./alternative";
import { type BookData, type RequirementData, view } from "./book-data";
import { allBlocks, displays, type Sheet } from "./collect";

/** What the document needs of a design file. */
export type PublishedDesign = Pick<
  Design,
  "fileName" | "name" | "revision" | "sources" | "requirements" | "readings" | "place" | "blocks" | "given" | "paths"
>;

/** How plots are compiled and drawn at publish time. */
export interface PlotMaker {
  compile(block: PlotBlock, evaluation: Evaluation): unknown;
  render(block: PlotBlock, evaluation: Evaluation, idPrefix: string): string;
}

/** Names of the rows that the page computes anew: the members of PlotData. */
const datasets = ["lines", "points", "ends", "spreads", "rules", "windows"] as const satisfies readonly (keyof PlotData)[];

export function bookData(sheets: readonly Sheet[], design: PublishedDesign, evaluation: Evaluation, plots: PlotMaker): BookData {
  const blocks = allBlocks(sheets);
  const compiled = Object.entries(blocks).flatMap(([ref, block]) =>
    block.type === "plot" ? [[ref, withoutData(plots.compile(block, evaluation), datasets)] as const] : [],
  );
  const requirements = design.requirements().map((row) => requirementData(row, sheets));
  const map = mapLayout({ blocks, requirements }, evaluation.graph);
  const published = publishedNames(sheets);
  const product = productDrawing(
    design.blocks ?? [],
    (name) => nodeNamed(name, published, evaluation),
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

/** A given by its path, or a published result by its name; a given that no sheet reads has no node. */
function nodeNamed(name: string, published: ReadonlyMap<string, NodeId>, { graph }: Evaluation): NodeId | undefined {
  return published.get(name) ?? [givenId(name), name].find((id) => graph.has(id));
}

function requirementData(row: RequirementRow, sheets: readonly Sheet[]): RequirementData {
  const { id, statement, limit, unit, dimension, judged, where } = row;
  const answers = sheets
    .flatMap(displays)
    .flatMap(({ display: { block, sheet } }) =>
      block.type === "requirement" && block.requirement === id ? [{ node: block.node, sheet }] : [],
    );
  return { id, statement, limit, unit, dimension, judged, answers, ...(where !== undefined && { where }) };
}

/** A given that no sheet reads, as the design file states it. */
function statedAt(path: string, design: PublishedDesign): Stated | undefined {
  if (!design.paths().includes(path)) return undefined;
  const given = design.given(path);
  if (given.kind !== "given") return undefined;
  const unit = unitOf(given.unit);
  return { text: given.text, short: format({ si: given.nominal, unit }, { style: "plain" }) };
}

/** The results that sheets gave to others, as `sheet.name`. */
export function publishedNames(sheets: readonly Sheet[]): ReadonlyMap<string, NodeId> {
  return new Map(
    sheets
      .flatMap(displays)
      .flatMap(({ display: { block, sheet } }) =>
        block.type === "publish" ? Object.entries(block.names).map(([name, id]) => [`${sheet}.${name}`, id] as const) : [],
      ),
  );
}
