/** A derived result: its law, the law with numbers, the value, how far it spreads and what it depends on. */

import { typesetSymbol } from "../../formula/typeset";
import type { GraphNode } from "../../graph/node";
import type { ResultBlock, SelectBlock } from "../../sheet/block";
import { signOf } from "../../sheet/level-budget";
import { nodeAnchor, nodeOf, type View } from "../model/book-data";
import { nameOf } from "../model/names";
import { part } from "../model/parts";
import { type Html, html, nothing } from "../text/html";
import { mathml, substitutedMath } from "../text/math";
import { live, showText } from "../text/show";
import { chosenFor, type Helpers, lawLine, modelLine, renderFrame } from "./result-frame";

export function renderResult(block: ResultBlock, ref: string, view: View, helpers?: Helpers): Html {
  const node = nodeOf(view, block.node);
  return renderFrame(
    {
      node,
      id: nodeAnchor(node.id, ref, view),
      model: modelWords(block, ref, view),
      law: lawsOf(block, node, view),
      source: block.source,
      piece: (kind) => part(kind, node.id, view),
      ...(helpers && { helpers }),
    },
    view,
  );
}

function lawsOf(block: ResultBlock, node: GraphNode, view: View): Html {
  const name = typesetSymbol(node.symbol ?? nameOf(node.id));
  const law = block.law && lawLine(block.law, mathml(`${name} = ${block.law}`, true), "law");
  const { substituted } = block;
  const numbers =
    substituted &&
    lawLine(
      substituted.latex,
      substitutedMath({ ...substituted, latex: `${name} = ${substituted.latex}` }, (shown) => showText(shown, view.evaluation)),
      "the law with numbers",
    );
  return html`${law}${numbers}${levelsOf(block, name, view)}`;
}

/** A product of levels line by line, and the sum of its decibels. */
function levelsOf({ levels, node }: ResultBlock, name: string, view: View): Html | undefined {
  if (levels === undefined) return undefined;
  const value = (id: string, unit: string) => live({ node: id, show: "nominal", unit }, view.evaluation);
  const rows = levels.lines.map(
    (line) =>
      html`<tr><td>${mathml(typesetSymbol(line.symbol), false)}</td><td>${signOf(line.times)}</td><td>${value(line.node, line.unit)}</td></tr>\n`,
  );
  return html`<table class="levels"><caption>in decibels</caption><tbody>
${rows}</tbody><tfoot><tr><td>${mathml(name, false)}</td><td>=</td><td>${value(node, nodeOf(view, node).unit)}</td></tr></tfoot></table>
`;
}

function modelWords(block: ResultBlock, ref: string, view: View): Html {
  const { model } = block;
  if (model === undefined) return nothing;
  const [sheet = ""] = ref.split("/");
  const first = Object.entries(view.book.blocks).find(
    ([other, one]) => other.startsWith(`${sheet}/`) && one.type === "result" && one.model === model,
  )?.[1];
  return modelLine(nodeOf(view, block.node), first?.type === "result" ? nodeOf(view, first.node) : undefined, model, view);
}

export function renderSelect(block: SelectBlock, ref: string, view: View, helpers?: Helpers): Html {
  const node = nodeOf(view, block.node);
  const chosen = chosenFor(nodeOf(view, block.of), nodeOf(view, block.parts?.[0] ?? block.node), view);
  return renderFrame(
    {
      node,
      id: nodeAnchor(node.id, ref, view),
      value: html`
<span class="aside-words">${pairWords(block, view)}${chosen}</span>`,
      piece: (kind) => part(kind, node.id, view),
      ...(helpers && { helpers }),
    },
    view,
  );
}

/** "1.2 kΩ and 150 Ω in series, ". */
function pairWords({ parts }: SelectBlock, view: View): Html | undefined {
  if (parts === undefined) return undefined;
  const [larger, smaller] = parts.map((id) => nodeOf(view, id)) as [GraphNode, GraphNode];
  const value = (node: GraphNode) => live({ node: node.id, show: "nominal", unit: node.unit }, view.evaluation);
  return html`${value(larger)} and ${value(smaller)} in ${larger.kind === "select" ? (larger.pair?.joined ?? "") : ""}, `;
}
