/** The back of the book: register of givens, open questions, glossary of symbols, bibliography. */

import { defaultSamples } from "../../analysis/evaluation";
import type { BookDesign } from "../../book/book";
import type { Batch } from "../../design/types";
import { commonPractice } from "../../formula/formula";
import { modelNamed } from "../../graph/model";
import type { GivenNode, GraphNode, NodeId, Provenance, TableNode } from "../../graph/node";
import { nodeLink, nodeOf, type View } from "../model/book-data";
import { nodeWords, symbolHtml } from "../model/names";
import { part } from "../model/parts";
import { givenValue } from "../sheet/givens";
import { anchor, type Html, html, nothing } from "../text/html";
import { grouped, live } from "../text/show";
import { type Cite, type Source, sourceText } from "../text/sources";

/** Every value that the design file or a reference table gives, once each, in order of path. */
export function renderRegister(view: View, cite: Cite, design: Pick<BookDesign, "fileName" | "place">): Html {
  const rows = givensByPath(view.book.nodes).map(
    (
      node,
    ) => html`<tr id="${anchor("register", node.path)}"><th scope="row">${node.symbol && html`${symbolHtml(node.symbol)} `}${nodeWords(node)} <span class="path">${node.path}</span>${sharedWords(node, view)}</th>
<td data-label="Value" class="value">${givenValue(node, view)}</td>
<td data-label="Source" class="source">${cite(placed(node, design))}</td></tr>`,
  );
  return section(
    "register",
    "Register of givens",
    html`<div class="scroll" tabindex="0" role="group" aria-label="Register of givens">
<table class="stacking register"><caption class="unseen">All givens</caption><thead><tr><th scope="col">Given, and its path in the design file</th>
<th scope="col">Value</th><th scope="col">Source</th></tr></thead><tbody>${rows}</tbody></table></div>`,
  );
}

/** What a given has in common with others. */
function sharedWords(node: GivenNode | TableNode, view: View): Html {
  if (node.kind !== "given" || node.shared === undefined) return nothing;
  const words = node.shared.map((shared) => {
    if ("common" in shared) return `${shared.common} (a cause in common with others)`;
    // A given that no sheet of this book reads is told by its path.
    return view.evaluation.graph.has(shared.with) ? nodeWords(nodeOf(view, shared.with)) : shared.with.replace(/^givens\./, "");
  });
  return html` <span class="where">varies with ${words.join(", ")}</span>`;
}

/** With the line of the design file (or of a reference table) that states it; without, where none does any more since the notebooks were run. */
function placed({ path, provenance }: GivenNode | TableNode, design: Pick<BookDesign, "fileName" | "place">): Provenance {
  const stated = design.place(path);
  const [, file, line] = /^(.*?):(\d+)(?::\d+)?$/.exec(stated ?? "") ?? [];
  const told = file === undefined ? stated : `${file === design.fileName ? "" : `${file}, `}line\u00a0${line}`;
  return told === undefined ? provenance : { ...provenance, place: told };
}

/** Givens and tables, once each, in order of path. */
export function givensByPath(nodes: readonly GraphNode[]): (GivenNode | TableNode)[] {
  const byPath = new Map<string, GivenNode | TableNode>();
  for (const node of nodes) {
    if ((node.kind === "given" || node.kind === "table") && !byPath.has(node.path)) byPath.set(node.path, node);
  }
  return [...byPath.values()].toSorted((a, b) => (a.path < b.path ? -1 : 1));
}

/** Values measured on prototypes beside the results that they test. */
export function renderReadings(
  { readings, batches }: Pick<BookDesign, "readings" | "batches">,
  view: View,
  published: ReadonlyMap<string, NodeId>,
  cite: Cite,
): Html {
  if (readings.length + batches.length === 0) return nothing;
  const rows = readings.map((reading) => {
    const id = published.get(reading.result) ?? reading.result;
    const known = view.evaluation.graph.has(id);
    return html`<tr><th scope="row">${known ? nodeLink(id, nodeWords(nodeOf(view, id)), view) : reading.result}${reading.specimen && html` <span class="where">${reading.specimen}</span>`}</th>
<td data-label="Read">${reading.text}</td><td data-label="Predicted">${known ? html`${live({ node: id, show: "predicted", unit: nodeOf(view, id).unit }, view.evaluation)}; 95 % of units: ${live({ node: id, show: "interval", unit: nodeOf(view, id).unit }, view.evaluation)}` : "nothing computes it"}</td>
<td data-label="Finding">${known ? part("reading", `${id}\n${reading.nominal}`, view) : "–"}</td><td data-label="Source" class="source">${cite({ source: reading.source, place: reading.place, ...(reading.note !== undefined && { note: reading.note }) })}</td></tr>`;
  });
  return section(
    "readings",
    "Readings of prototypes",
    html`${
      readings.length > 0 &&
      html`<div class="scroll" tabindex="0" role="group" aria-label="Readings"><table class="stacking">
<caption class="unseen">Readings of prototypes</caption><thead><tr><th scope="col">Result</th><th scope="col">Read</th><th scope="col">Predicted, 95 %</th><th scope="col">Finding</th><th scope="col">Source</th></tr></thead><tbody>${rows}</tbody></table></div>`
    }${batches.map((batch) => renderBatch(batch, view, cite))}`,
  );
}

/** What was read on the units of a pilot batch; a sheet that shows it follows the reader's changes. */
function renderBatch({ id, given, source, place, note }: Batch, view: View, cite: Cite): Html {
  const ref = Object.entries(view.book.blocks).find(([, block]) => block.type === "batch" && block.batch === id)?.[0];
  const origin = cite({ source, place, ...(note !== undefined && { note }) });
  return html`<h3>Pilot batch: ${id}</h3>${ref === undefined ? html`<p>Of <code>${given}</code>; no sheet shows it.</p>` : part("words", ref, view)}<p class="source">${origin}</p>`;
}

/** Symbols with their meanings, in alphabetical order: what one symbol stands for in several places, together. */
export function renderGlossary(view: View): Html {
  const meanings = new Map<string, Set<string>>();
  for (const { symbol, meaning } of view.book.nodes) {
    if (symbol && meaning) meanings.set(symbol, (meanings.get(symbol) ?? new Set()).add(meaning));
  }
  if (meanings.size === 0) return nothing;
  const sorted = [...meanings].toSorted(([a], [b]) => (a < b ? -1 : 1));
  return section(
    "glossary",
    "Symbols",
    html`<dl class="glossary">${sorted.map(
      ([symbol, own]) => html`<div><dt>${symbolHtml(symbol)}</dt><dd>${[...own].toSorted().join("; ")}</dd></div>`,
    )}</dl>`,
  );
}

/** How values, spreads and verdicts of the document are meant and written. */
export function renderConventions(): Html {
  const entries: readonly (readonly [string, string])[] = [
    [
      "digits",
      "The spread decides: a value is rounded to two significant digits of its own spread, to four where it has none. Ends of a worst case and of an interval are rounded outward, so that what is written never promises more than was computed. Nothing is rounded before it is used.",
    ],
    [
      "worst case",
      "The extreme values while every tolerance and every condition of use stays inside its limits, all at once. Searched inside the limits too where a law is not monotone.",
    ],
    [
      "95 % of units",
      `The middle 95 % of units, what is not known being at its best estimate, their tolerances drawn (±: evenly between the limits; σ: normally), at the worst point of the conditions of use. ${grouped(defaultSamples)} draws, the same ones in every sheet; fewer where a model takes long.`,
    ],
    [
      "share of the variance",
      "Which given the spread comes from, to first order (JCGM 100:2008, uncertainty budget). Where first order and the draws disagree, the result says so.",
    ],
    [
      "what each given is worth",
      "The result when one given alone is moved, evaluated at both ends, preferred values chosen anew; givens without a spread too. It is moved by the step that the design file states for it; else a condition of use from end to end, a point of temperature by 10 K to either side, a level by 1 dB, a value of zero to its limits, any other by 10 %.",
    ],
    [
      "yield by design",
      "The share of the same drawn units that meet every requirement at once, each at the worst point of the conditions of use; requirements judged typically, and results without a tolerance, are not counted. Each of the two ends is passed with 95 % confidence in spite of the finite number of draws.",
    ],
    [
      "the value beside a verdict",
      "What is held against the limit: in the worst case its unfavourable end; for 95 % of units the value that nineteen units in twenty keep (one-sided, so it lies inside the middle 95 %), what is not known being as bad as is to be allowed for with 95 % confidence; else the typical value.",
    ],
    [
      "what is not known",
      "A spread is of one of two kinds. Production: units differ from one another. Knowledge: one true value, the same in every unit, that nobody has measured; the givens say so with the word knowledge, or with a doubt beside a tolerance. The doubt of a result is what its middle unit could be, the middle 95 % of what is not known, production at its nominal value: measuring ends it, building more units does not. What one unit is predicted to be counts both. The open questions name what to measure.",
    ],
    ["holds", "In the worst case no unit misses the limit."],
    [
      "holds for 95 %",
      "At least 95 units in a hundred meet the limit, at the worst point of use, with 95 % confidence over what is not known (a one-sided tolerance limit, as ISO 16269-6 has the words); where all is known, 95 % sure of it in spite of the finite number of draws. Beside it stand the value if the best estimate were true, the share of units that would then meet the limit, the share that does if the truth is as bad as is to be allowed for, and the standard error of the sampling.",
    ],
    [
      "too close to call",
      "The value that decides lies within two standard errors of its limit: by the draws it cannot be told on which side. It does not count as met. Measuring what is not known, or a change of the design, ends it; more draws only narrow it.",
    ],
    [
      "not sure",
      "No value beyond the limit was found, but the search for the worst case has cause to doubt that it has seen all: its climbs ended at many different extremes, an extreme is a narrow peak, a branch of the law is reached in a small part of the limits, the law has no value somewhere, or the budget was spent. The reason stands with the verdict. Where a law goes one way along every input and all corners were tried, the worst case is exact.",
    ],
    [
      "not shown",
      "No sheet of this book computes it yet, or it cannot be computed with the values that a reader has entered. A sheet that a requirement or a text names and the contents do not list is still to be written.",
    ],
    [
      "what is asked of a result",
      "Where its spread comes from, what each given is worth and other statistics are computed by the program of the page when one unfolds them. Where no program runs, and on paper, the results file, the CSV tables and “workings why” tell the same.",
    ],
    [
      "from memory",
      "The value was not looked up for this design. On paper a source is a number, [3], with a dagger where the value is from memory, [3†]; the list of sources tells which it is.",
    ],
  ];
  return section(
    "conventions",
    "How the numbers are meant",
    html`<dl class="conventions">${entries.map(([term, text]) => html`<dt>${term}</dt><dd>${text}</dd>`)}</dl>`,
  );
}

/** The sources that the givens cite. One that the design file does not describe is listed by its key. */
export function renderBibliography(numbers: ReadonlyMap<string, number>, sources: ReadonlyMap<string, Source>, view: View): Html {
  const items = [...numbers].map(([key, number]) => {
    const source = sources.get(key);
    return html`<li id="${anchor("source", key)}"><span class="number">${number}</span> ${source ? sourceText(source) : key === "decision" ? "Decided in this book: the choice and its reason stand in the design file." : "not described in the design file"} <span class="id">${key}</span></li>`;
  });
  const laws = lawSources(view).map((source) => html`<li>${source}.</li>`);
  const behind = laws.length > 0 && html`<h3>Where laws come from</h3><ul class="bibliography">${laws}</ul>`;
  return items.length === 0 ? nothing : section("bibliography", "Sources", html`<ul class="bibliography">${items}</ul>${behind}`);
}

/** What the formulas and models of the book cite, once each; what cites nothing is left out. */
function lawSources({ book }: View): string[] {
  const cited = book.nodes.flatMap((node) => {
    if (node.kind === "formula") return node.source === undefined ? [] : [node.source];
    return node.kind === "model" ? [modelNamed(node.model).source] : [];
  });
  return [...new Set(cited)].filter((source) => source !== commonPractice).toSorted();
}

function section(id: string, title: string, body: Html): Html {
  return html`<section class="page back" id="${id}" hidden="until-found" aria-labelledby="${id}-title"><h2 id="${id}-title">${title}</h2>${body}</section>`;
}
