/** The frame of a derived result, at its cell and among the workings of a decision: what it is, its law, its value, its spread, what it comes from. */
import { isCurveNode } from "../../graph/lower";
import { modelNamed } from "../../graph/model";
import type { GraphNode, ModelNode, NodeId } from "../../graph/node";
import { isDoubtAlone } from "../../sheet/words";
import { askedPlace } from "../live/asked";
import { decidedInputs } from "../model/alternative";
import { nodeLink, nodeOf, type View } from "../model/book-data";
import { isChosen, nameOf, nodeWords, sentence, symbolHtml, wordsHtml } from "../model/names";
import { computed } from "../text/computed";
import { type Html, html, nothing } from "../text/html";
import { lawWords } from "../text/law-words";
import { live } from "../text/show";
import { withBoundUnits } from "../text/units-in-text";

/** What a result shows beside its value. */
export interface ResultFrame {
  readonly node: GraphNode;
  /** Its id attribute, where it has one. */
  readonly id: Html;
  readonly model?: Html;
  readonly law?: Html;
  readonly value?: Html;
  readonly source?: string | undefined;
  /** Warnings and expanded uncertainty: parts of their own, or markup of a greater part. */
  readonly piece: (kind: "warnings" | "expanded") => Html;
  readonly helpers?: Helpers;
}

/** Results that stand within another, which alone needs them. */
export interface Helpers {
  readonly markup: readonly Html[];
  /** With those within them. */
  readonly count: number;
}

const noHelpers: Helpers = { markup: [], count: 0 };

export function renderFrame({ node, id, model, law, value, source, piece, helpers = noHelpers }: ResultFrame, view: View): Html {
  return html`<div role="group" class="block result"${id} aria-label="${nodeWords(node)}">
<details class="worked"><summary><span class="lead">${toldOf(node, nodeWords(node))}</span> <span class="line">${line(node, view)}</span>${helpers.count > 0 && html` <span class="inside">${helpers.count === 1 ? "1 step" : `${helpers.count} steps`} inside</span>`}</summary>
${helpers.count > 0 && html`<div class="helpers">${helpers.markup}</div>`}<div class="steps">${model}<div class="working">${law}${node.kind === "model" && inputsLine(node, view)}
<p class="value">${symbolOf(node)} = <strong>${live({ node: node.id, show: isChosen(node) ? "nominal" : "result", unit: node.unit }, view.evaluation)}</strong>${value}</p></div>
${note(node, source, piece, view)}
${!isCurveNode(view.evaluation.graph, node.id) && askedPlace(node.id, view)}</div></details>${piece("warnings")}</div>`;
}

/** The result in short: what stands beside its name while the rest is folded. */
function line(node: GraphNode, view: View): Html {
  const { id, unit } = node;
  const spread = computed(() => view.evaluation.analysis(id)).value?.interval;
  const interval = spread && html` <span class="ends">${live({ node: id, show: "interval", unit }, view.evaluation)}</span>`;
  return html`${symbolOf(node)}\u00a0=\u00a0<strong>${live({ node: id, show: isChosen(node) ? "nominal" : "result", unit }, view.evaluation)}</strong>${interval}`;
}

/** Words about a result as a sentence, the symbols of its law set as variables. */
function toldOf(node: GraphNode, words: string): Html {
  return lawWords(sentence(withBoundUnits(words)), node.kind === "formula" || node.kind === "model" ? Object.keys(node.arguments) : []);
}

/** What a model does, said with the first of its outputs only. */
export function modelLine(node: GraphNode, first: GraphNode | undefined, words: string, view: View): Html {
  if (first === undefined || first.id === node.id) return html`<p class="model">${toldOf(node, words)}.</p>`;
  return html`<p class="model">By the same model as ${nodeLink(first.id, symbolOf(first), view)}.</p>`;
}

export function symbolOf(node: GraphNode): Html {
  return symbolHtml(node.symbol ?? nameOf(node.id));
}

/** Beside the text on a wide screen, under it on a narrow one. */
function note(node: GraphNode, source: string | undefined, piece: ResultFrame["piece"], view: View): Html {
  const { id, unit } = node;
  const analysis = computed(() => view.evaluation.analysis(id)).value;
  const spread =
    (analysis?.worst || analysis?.interval) &&
    html`
<div><dt>worst case</dt><dd>${live({ node: id, show: "worst", unit }, view.evaluation)}</dd></div>
<div><dt>95 % of units</dt><dd>${live({ node: id, show: "interval", unit }, view.evaluation)}</dd></div>${
      analysis.doubt &&
      !isDoubtAlone(analysis) &&
      html`<div><dt>doubt</dt><dd>${live({ node: id, show: "doubt", unit }, view.evaluation)}</dd></div>`
    }${analysis.expanded && html`<div><dt>expanded uncertainty</dt><dd>${piece("expanded")}</dd></div>`}`;
  const origin = source && html`<div><dt>law from</dt><dd>${wordsHtml(source)}</dd></div>`;
  return html`<dl class="note">${spread}${origin}${from(node, view)}</dl>`;
}

/** What a model was given: in the place of a law with numbers. */
function inputsLine(node: ModelNode, view: View): Html {
  const { inputs } = modelNamed(node.model);
  const given = Object.entries(node.arguments).map(([symbol, id]) => {
    const slot = inputs[symbol];
    if (slot !== undefined && "shape" in slot) return html`the table ${nodeLink(id, symbolHtml(symbol), view)}`;
    return html`${symbolHtml(symbol)}\u00a0=\u00a0${live({ node: id, show: "nominal", unit: nodeOf(view, id).unit }, view.evaluation)}`;
  });
  return html`<p class="inputs">with ${given.map((words, index) => html`${index > 0 && ", "}${words}`)}</p>`;
}

/** Links to what it is computed from, by the symbols of its law. */
function from(node: GraphNode, view: View): Html {
  const symbols = new Map<NodeId, Html>();
  for (const [id, symbol] of named(node, view)) if (!symbols.has(id)) symbols.set(id, symbol);
  if (symbols.size === 0) return nothing;
  const links = [...symbols].map(([id, symbol], index) => html`${index > 0 && ", "}${nodeLink(id, symbol, view)}`);
  return html`<div class="from"><dt>from</dt><dd>${links}</dd></div>`;
}

/** Inputs with their symbols; what has no name of its own stands for what it is computed from. */
function named(node: GraphNode, view: View): (readonly [NodeId, Html])[] {
  const inputs: readonly (readonly [string | undefined, NodeId])[] =
    node.kind === "formula" || node.kind === "model"
      ? Object.entries(node.arguments)
      : decidedInputs(node, view.evaluation.graph).map((id) => [undefined, id]);
  return inputs.flatMap(([symbol, id]) => {
    const input = nodeOf(view, id);
    if (id.startsWith("~")) return named(input, view);
    return input.kind === "constant" ? [] : [[id, symbol === undefined ? symbolOf(input) : symbolHtml(symbol)] as const];
  });
}

/** A line that is wider than the column is set smaller; what is still too wide scrolls on a screen. */
export function lawLine(latex: string, markup: Html, what: "law" | "the law with numbers"): Html {
  return html`<div class="law${what !== "law" && " numbers"}${widthClass(latex)}" tabindex="0" role="group" aria-label="${what}">${markup}</div>`;
}

function widthClass(latex: string): string {
  // A number that stands for `\text{⟦0⟧}` takes about six letters with its unit.
  const letters = latex
    .replace(/\\text\{⟦\d+⟧\}/g, "000000")
    .replace(/\\(?:mathrm|left|right|,|;|cdot|frac|sqrt|text)/g, "")
    .replace(/[{}\\_^\s]/g, "").length;
  return letters > 85 ? " widest" : letters > 62 ? " wide" : "";
}

/** "chosen for 268 Ω from the series E24, nearest"; "set once from 268 Ω, the same in every unit". */
export function chosenFor(wanted: GraphNode, part: GraphNode, view: View): Html {
  const from = live({ node: wanted.id, show: "nominal", unit: wanted.unit }, view.evaluation);
  if (part.kind === "set-once") return html`set once from ${from}, the same in every unit`;
  const rule = part.kind === "select" ? `${part.series}, ${part.rule}` : "preferred value";
  return html`chosen for ${from} from the series ${rule}`;
}
