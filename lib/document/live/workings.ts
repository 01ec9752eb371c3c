/** The live part that shows how the chosen alternative of a decision was computed: laws with numbers, spreads, what they rest on. */
import { typeset, typesetSymbol } from "../../formula/typeset";
import type { Graph } from "../../graph/graph";
import { modelNamed } from "../../graph/model";
import type { FormulaNode, GraphNode } from "../../graph/node";
import type { DecisionBlock } from "../../sheet/block";
import { substitutedLaw } from "../../sheet/substituted-law";
import type { Working } from "../model/alternative";
import { type BookData, nodeOf, type View } from "../model/book-data";
import { nameOf } from "../model/names";
import { chosenFor, lawLine, modelLine, renderFrame, symbolOf } from "../sheet/result-frame";
import { type Html, html, nothing, trusted } from "../text/html";
import { filledLaw } from "../text/law-template";
import { textOrNone } from "../text/show";
import { renderExpanded, renderWarnings } from "./result";

export function renderWorkings(block: DecisionBlock, ref: string, view: View): Html {
  const workings = view.workings.get(ref) ?? [];
  if (workings.length === 0) return nothing;
  const choice = nodeOf(view, block.choice);
  const label = choice.kind === "choice" ? block.alternatives.find(({ name }) => name === choice.chosen)?.label : undefined;
  return html`<details class="workings"><summary>How this was computed for the chosen alternative, ${label}: ${workings.length} results</summary>
${workings.map((working) => renderWorking(working, workings, view))}</details>`;
}

function renderWorking({ node: id, target }: Working, workings: readonly Working[], view: View): Html {
  const node = nodeOf(view, id);
  const pieces = { warnings: renderWarnings, expanded: renderExpanded };
  return renderFrame(
    {
      node,
      id: html` id="${target}"`,
      model: modelWords(node, workings, view),
      law: node.kind === "formula" ? lawsOf(node, view) : nothing,
      value:
        node.kind === "select" || node.kind === "set-once"
          ? html` <span class="aside-words">${chosenFor(nodeOf(view, node.of), node, view)}</span>`
          : nothing,
      source: node.kind === "formula" ? node.source : node.kind === "model" ? modelNamed(node.model).source : undefined,
      piece: (kind) => pieces[kind](id, view),
    },
    view,
  );
}

function lawsOf(node: FormulaNode, view: View): Html {
  const { law, numbers, values } = lawTexts(node, (id) => nodeOf(view, id));
  const template = (latex: string) => view.book.laws[latex] ?? html`<code>${node.text}</code>`.text;
  return html`${lawLine(law, trusted(template(law)), "law")}${lawLine(
    numbers,
    filledLaw(template(numbers), values, (shown) => textOrNone(shown, view.evaluation)),
    "the law with numbers",
  )}`;
}

/** LaTeX of a law and of the law with places for its numbers. */
function lawTexts(node: FormulaNode, nodeAt: (id: string) => GraphNode) {
  const name = typesetSymbol(node.symbol ?? nameOf(node.id));
  const { latex, values } = substitutedLaw(node.expression, (symbol) => {
    const argument = node.arguments[symbol];
    if (argument === undefined) return undefined;
    const { unit, dimension } = nodeAt(argument);
    return { node: argument, unit, dimension };
  });
  return { law: `${name} = ${typeset(node.expression)}`, numbers: `${name} = ${latex}`, values };
}

/** Every law that the workings of any alternative may show, typeset by `typesetLaw`. */
export function workingLaws(graph: Graph, isWithin: (node: GraphNode) => boolean, typesetLaw: (latex: string) => string): BookData["laws"] {
  const texts = graph.nodes().flatMap((node) => {
    if (node.kind !== "formula" || !isWithin(node)) return [];
    const { law, numbers } = lawTexts(node, (id) => graph.get(id));
    return [law, numbers];
  });
  return Object.fromEntries([...new Set(texts)].map((latex) => [latex, typesetLaw(latex)]));
}

function modelWords(node: GraphNode, workings: readonly Working[], view: View): Html {
  if (node.kind === "curve-operation") return html`<p class="model">The ${node.operation} of ${symbolOf(nodeOf(view, node.of))}.</p>`;
  if (node.kind !== "model") return nothing;
  const first = workings.map((working) => nodeOf(view, working.node)).find((other) => other.kind === "model" && other.model === node.model);
  return modelLine(node, first, modelNamed(node.model).meaning, view);
}
