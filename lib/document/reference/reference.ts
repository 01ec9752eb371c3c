/** The reference of all public formulas and models: one HTML file that needs nothing else, the same bytes for the same library. */
import type { SubjectExamples } from "../../design/examples";
import { WorkingsError } from "../../quantity/error";
import { inline, referencePolicy } from "../policy";
import { anchor, type Html, html, nothing, trusted } from "../text/html";
import { withoutSources } from "../text/math";
import { type Alias, type CatalogueEntry, catalogue, pathOf, type Subject } from "./catalogue";
import { exampleFaults } from "./example";
import { entryAnchor, renderEntry } from "./reference-entry";
import { wordFaults } from "./words";

/** What the book's style does not know. */
const ownStyle = `
.entry { margin-top: 2.6rem; }
.entry > h3 { margin: 0 0 0.4rem; border-top: 1px solid var(--rule); padding-top: 0.7rem; }
.entry .here { color: inherit; text-decoration: none; }
.entry .here:hover { text-decoration: underline; }
.entry > h3 .kind { font-weight: 400; margin-left: 0.4em; }
.symbols { font-size: 0.86rem; }
.symbols td:nth-of-type(1) { min-width: 11rem; }
.symbols th { white-space: nowrap; }
.symbols .where { display: inline; margin-left: 0.5em; }
.symbols .results { border-top: 1.5px solid var(--rule); }
.symbols .results th { font-weight: 600; }
.entry > .law { margin-bottom: 0.5rem; }
.entry > .law mfrac > * { math-style: normal; }
.entry > .law mfrac mfrac > * { math-style: compact; }
.facts { font: 0.87rem/1.45 var(--sans); margin: 0.7rem 0; }
.facts div { display: grid; grid-template-columns: 5.6rem minmax(0, 1fr); gap: 0 0.6rem; }
.facts dd { margin: 0; overflow-wrap: anywhere; }
.facts code { font: 0.95em var(--mono); }
.example { font: 0.92rem/1.5 var(--sans); background: var(--wash); padding: 0.6rem 0.9rem; }
.example sup { line-height: 0; }
.example .remark { overflow-wrap: anywhere; }
.members { columns: 13rem 3; padding-left: 0; list-style: none; font: 0.86rem/1.5 var(--mono); }
.members li { break-inside: avoid; overflow-wrap: anywhere; }
.sheet > .sheet-name { font: 0.86rem var(--mono); color: var(--soft); }
@media (min-width: 68rem) { header.title-block, main { width: 56rem; } main > .contents, main > article > *, main > article > section > p { max-width: none; } }
@media print { article.sheet > .members { columns: 3; } .entry { break-inside: avoid-page; } }
@page{@bottom-left{content:"Formulas and models"}@bottom-right{content:counter(page) " / " counter(pages)}}
`;

export interface ReferenceInput {
  readonly examples: readonly SubjectExamples[];
  /** Of the document: dist/page.css. */
  readonly style: string;
  /** Default: what workings/physics exports. */
  readonly subjects?: readonly Subject[];
}

/**
 * The reference as HTML text. Every example is run first; throws WorkingsError `design` with the places of those that are off,
 * and of examples of what there is not.
 */
export function renderReference({ examples, style, subjects = catalogue() }: ReferenceInput): string {
  const told = subjects.filter(({ entries, aliases }) => entries.length + aliases.length > 0);
  const faults = referenceFaults(subjects, examples);
  if (faults.length > 0) throw new WorkingsError("design", faults.join("\n"));
  const [base, own] = [inline(style, "style"), inline(ownStyle, "style")];
  const count = (kind: "formula" | "model") => subjects.flatMap(({ entries }) => entries).filter(({ law }) => law.kind === kind).length;
  return withoutSources(
    html`<!doctype html>
<html lang="en"><head><meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${referencePolicy([base, own])}">
<meta name="viewport" content="width=device-width, initial-scale=1"><meta name="color-scheme" content="light dark"><meta name="referrer" content="no-referrer">
<title>Formulas and models</title>
<style>${trusted(base)}</style><style>${trusted(own)}</style></head>
<body><a class="skip" href="#content">Skip to the content</a>
<header class="title-block"><h1>Formulas and models</h1><dl><div><dt>Formulas</dt><dd>${count("formula")}</dd></div><div><dt>Models</dt><dd>${count("model")}</dd></div><div><dt>Subjects</dt><dd>${told.length}</dd></div></dl></header>
<main id="content" tabindex="-1">
<p>Everything that <code>workings/physics</code> offers to a worksheet: <code>import { audio } from "workings/physics"</code>, then <code>sheet.derive(audio.inputLoading, { R_i, R_s })</code>. A formula is a law that is typeset and differentiated; a model is a procedure. Arguments may be passed in any unit of their dimension.</p>
<p>“Holds for” is the range in which a law is published, was checked or has a meaning; a dash where the law itself sets a symbol no bound. Outside it a result is computed all the same and carries a warning, in the sheet and in the document; where the law has no value there, it is refused with a sentence. “Range” says in words what bounds of single symbols cannot. Every example below was run when this page was made; its result is right to half of the last digit shown and comes from elsewhere, as said beside it.</p>
${contents(told)}
${told.map((subject) => renderSubject(subject, subjects, examples))}
</main></body></html>
`.text,
  );
}

/** Sentences, each with its place: examples that are off, examples of nothing, and words that fit no one dimension. */
export function referenceFaults(subjects: readonly Subject[], examples: readonly SubjectExamples[]): readonly string[] {
  return examples.flatMap((file) => {
    const subject = subjects.find(({ name }) => name === file.name);
    if (subject === undefined)
      return [`${file.fileName}: there is no subject '${file.name}'; there are ${subjects.map(({ name }) => name).join(", ")}`];
    const off = [...file.laws].flatMap(([name, { examples: worked, place }]) => {
      const entry = subject.entries.find((each) => each.name === name);
      if (entry !== undefined) return worked.flatMap((example) => exampleFaults(entry, example));
      return [`${place}: ${homeOf(subject, name)}`];
    });
    return [...off, ...wordFaults(subject, file)];
  });
}

function homeOf({ name: subject, aliases }: Subject, name: string): string {
  const alias = aliases.find((each) => each.name === name);
  if (alias === undefined) return `${subject} exports no formula or model '${name}'; mend the name`;
  return `${subject}.${name} is ${pathOf(alias.entry)}; its examples stand there`;
}

function contents(subjects: readonly Subject[]): Html {
  return html`<nav class="contents" aria-label="Contents"><h2>Contents</h2><ol>${subjects.map(
    ({ name, entries }) => html`<li><a href="#${anchor("subject", name)}">${name}</a> (${entries.length})</li>`,
  )}</ol></nav>`;
}

function renderSubject(subject: Subject, all: readonly Subject[], examples: readonly SubjectExamples[]): Html {
  const { name, entries, aliases } = subject;
  const file = examples.find((each) => each.name === name);
  return html`<article class="sheet" id="${anchor("subject", name)}"><p class="sheet-name">import { ${name} } from "workings/physics"</p><h2>${name}</h2>
<ul class="members">${entries.map((entry) => html`<li><a href="#${entryAnchor(entry)}">${entry.name}</a></li>`)}</ul>
${aliases.length > 0 && html`<p>Also here: ${aliases.map(aliasLink)}.</p>`}
${entries.map((entry) => renderEntry(entry, { symbols: file?.symbols ?? {}, examples: file?.laws.get(entry.name), also: namesOf(entry, all) }))}</article>`;
}

function aliasLink({ name, entry }: Alias, index: number): Html {
  return html`${index > 0 ? ", " : nothing}<a href="#${entryAnchor(entry)}"><code>${name}</code></a> (${pathOf(entry)})`;
}

function namesOf(entry: CatalogueEntry, all: readonly Subject[]): readonly string[] {
  return all.flatMap(({ name, aliases }) => aliases.filter((alias) => alias.entry === entry).map((alias) => `${name}.${alias.name}`));
}
