/** One formula or model of the reference: what it means, its law, its symbols with units and limits, its source, examples. */
import type { Example, LawExamples } from "../../design/examples";
import { typeset, typesetSymbol } from "../../formula/typeset";
import type { ValidityLimit } from "../../formula/validity";
import type { Slot } from "../../graph/model";
import type { Unit } from "../../quantity/quantity";
import { sentence, symbolHtml, wordsHtml } from "../model/names";
import { lawLine } from "../sheet/result-frame";
import { anchor, type Html, html, nothing } from "../text/html";
import { handWords, lawWords, levelWords } from "../text/law-words";
import { mathml } from "../text/math";
import { type CatalogueEntry, pathOf } from "./catalogue";
import { inputsOf, outputsOf } from "./example";

/** Words for symbols: those of the law, else those of its subject. */
export interface EntryContext {
  readonly symbols: Readonly<Record<string, string>>;
  readonly examples: LawExamples | undefined;
  /** Other names under which it can be imported. */
  readonly also: readonly string[];
}

export function entryAnchor(entry: CatalogueEntry): string {
  return anchor("law", pathOf(entry));
}

export function renderEntry(entry: CatalogueEntry, context: EntryContext): Html {
  const { of } = entry.law;
  return html`<section class="entry" id="${entryAnchor(entry)}" aria-labelledby="${entryAnchor(entry)}-title">
<h3 id="${entryAnchor(entry)}-title"><a class="here" href="#${entryAnchor(entry)}">${entry.name}</a> <span class="kind">${entry.law.kind}</span></h3>
<p>${lawWords(sentence(of.meaning), symbolsOf(entry))}.</p>
${law(entry)}
${symbolTable(entry, context)}
${facts(entry, context)}
${context.examples?.examples.map((example) => renderExample(entry, example))}</section>`;
}

function law({ law }: CatalogueEntry): Html {
  if (law.kind === "model") return nothing;
  const latex = typeset(law.of.expression);
  return lawLine(latex, mathml(`${typesetSymbol(law.of.name)} = ${latex}`, true), "law");
}

function symbolTable(entry: CatalogueEntry, context: EntryContext): Html {
  const { law } = entry;
  const inputs = Object.entries(inputsOf(entry)).map(([symbol, slot]) => row(entry, symbol, slot, meaningOf(symbol, context)));
  const outputs = resultsOf(entry).map(([symbol, slot]) =>
    row(entry, symbol, slot, law.kind === "formula" ? "" : (law.of.meanings?.[symbol] ?? ""), true),
  );
  return html`<div class="scroll" tabindex="0" role="group" aria-label="symbols of ${entry.name}"><table class="stacking symbols"><caption class="unseen">Symbols of ${entry.name}</caption>
<thead><tr><th scope="col">Symbol</th><th scope="col">Meaning</th><th scope="col">Unit and dimension</th><th scope="col">Holds for</th></tr></thead>
<tbody>${inputs}</tbody><tbody class="results">${outputs}</tbody></table></div>`;
}

function row(entry: CatalogueEntry, symbol: string, slot: Slot, meaning: string, result = false): Html {
  const words = meaning === "" ? (result ? "result" : "") : html`${result && "result: "}${lawWords(meaning, symbolsOf(entry))}`;
  const limit = entry.law.of.valid?.find((valid) => valid.symbol === symbol);
  const holds = limit === undefined ? "–" : limitText(limit, slot);
  return html`<tr><th scope="row">${symbolHtml(symbol)}${symbol.includes("_") && html` <span class="symbol">${symbol}</span>`}</th>
<td data-label="Meaning"><span>${words}</span></td><td data-label="Unit"><span>${unitWords(slot, result)}</span></td><td data-label="Holds for"><span>${holds}</span></td></tr>`;
}

/** Results by their symbols. */
function resultsOf(entry: CatalogueEntry): readonly (readonly [string, Slot])[] {
  const { law } = entry;
  return Object.entries(outputsOf(entry)).map(([name, slot]) => [law.kind === "formula" ? law.of.name : name, slot]);
}

function symbolsOf(entry: CatalogueEntry): readonly string[] {
  return [...Object.keys(inputsOf(entry)), ...resultsOf(entry).map(([symbol]) => symbol)];
}

function meaningOf(symbol: string, { symbols, examples }: EntryContext): string {
  return examples?.symbols[symbol] ?? symbols[symbol] ?? "";
}

function unitWords(slot: Slot, result: boolean): Html {
  if (!("shape" in slot)) {
    const { label, si } = slot.dimension;
    return html`${unitName(slot)}${(si !== "1" || slot.log !== undefined) && html`<span class="where">${label}</span>`}`;
  }
  const { x, y } = slot;
  const called = ({ dimension: { si, label }, log }: Unit<any>) => (si === "1" && log === undefined ? "a number" : label);
  return html`${result ? "curve" : "table"}: ${unitName(y)} against ${unitName(x)}<span class="where">${called(y)} against ${called(x)}</span>`;
}

function unitName(unit: Unit<any>): string {
  return unit.symbol === "1" || unit.symbol === "" ? "a number" : unit.symbol;
}

/** As written, with signs of the trade; bare numbers beside a level or a percentage also in its unit. */
export function limitText(limit: ValidityLimit, slot: Slot): string {
  const text = limit.text.replace(/>=\s*/gu, "≥ ").replace(/<=\s*/gu, "≤ ").replace(/ to -/gu, " to −");
  if ("shape" in slot || slot.symbol === "1" || slot.dimension.si !== "1" || /[^\d\s.<>=to≥≤−-]/u.test(text)) return text;
  const shown = (si: number) => `${Number(slot.fromSI(si).toPrecision(3))} ${slot.symbol}`;
  const [low, high] = [Number.isFinite(limit.low) && limit.low > Number.MIN_VALUE, Number.isFinite(limit.high)];
  if (slot.log !== undefined && !(limit.low > Number.MIN_VALUE)) return high ? `≤ ${shown(limit.high)}` : "every level";
  if (low && high) return `${shown(limit.low)} to ${shown(limit.high)}`;
  if (high && limit.low === 0) return `0 to ${shown(limit.high)}`;
  return low ? `≥ ${shown(limit.low)}` : high ? `≤ ${shown(limit.high)}` : text;
}

function facts(entry: CatalogueEntry, { also }: EntryContext): Html {
  const { of, kind } = entry.law;
  const levels = levelWords([...Object.entries(inputsOf(entry)), ...resultsOf(entry)]);
  const fact = (term: string, words: Html | string) => html`<div><dt>${term}</dt><dd>${words}</dd></div>`;
  return html`<dl class="facts">${fact("Write", html`<code>${callOf(entry)}</code>`)}
${fact("Source", wordsHtml(of.source))}
${of.holds !== undefined && fact("Range", lawWords(of.holds, symbolsOf(entry)))}
${levels !== undefined && fact("Levels", levels)}
${kind === "formula" && of.numerical !== undefined && fact("Numbers", "a numerical value equation: each symbol stands for the number in its stated unit; any unit of the dimension may be passed")}
${kind === "model" && of.draws !== undefined && fact("Draws", `at most ${of.draws} in a Monte Carlo evaluation, as one call takes long`)}
${also.length > 0 && fact("Also as", also.join(", "))}</dl>`;
}

function callOf(entry: CatalogueEntry): string {
  return `sheet.derive(${pathOf(entry)}, { ${Object.keys(inputsOf(entry)).join(", ")} })`;
}

function renderExample(entry: CatalogueEntry, { arguments: given, results, from }: Example): Html {
  const value = (symbol: string, text: string) => html`${symbolHtml(symbol)} = <span class="figure">${spaced(text)}</span>`;
  const name = entry.law.kind === "formula" ? entry.law.of.name : "";
  const list = (parts: readonly Html[]) => parts.map((part, index) => html`${index > 0 && ", "}${part}`);
  return html`<p class="example"><span class="kind">Example</span> With ${list(Object.entries(given).map(([symbol, { text }]) => value(symbol, text)))}:
<strong>${list(Object.entries(results).map(([symbol, { text }]) => value(symbol === "" ? name : symbol, text)))}</strong>.
<span class="remark">${handWords(sentence(from))}</span></p>`;
}

/** A number and its unit stay together. */
function spaced(text: string): string {
  return text.replace(/(\d) (?=\S)/gu, "$1\u00a0").replace(/-(?=\d)/gu, "−");
}
