/** The whole page around its parts: head with policy, title block, navigation, sheets, back matter, program. */

import type { Title } from "../book/book";
import { type Stale, staleBanner, staleLine } from "./front/stale";
import { sheetId } from "./model/page-ids";
import { contentPolicy, inline, packed } from "./policy";
import { type Html, html, nothing, trusted } from "./text/html";
import { shortShown } from "./text/short-shown";

export interface PageAssets {
  /** The bundled program of the live page. */
  readonly script: string;
  /** The small program that unpacks it. */
  readonly start: string;
  readonly style: string;
  /** Licences of the packages that the program holds, with their copyright lines. */
  readonly notices: string;
}

/** What the page of `workings watch` holds beside: a program that hears of new documents, and its style. */
export interface WatchAssets {
  readonly script: string;
  readonly style: string;
}

export interface PageContent {
  readonly book: Title;
  /** Sheets whose outputs do not stand, with the reasons. */
  readonly stale: Stale;
  readonly design: { readonly fileName: string; readonly name: string; readonly revision: string };
  readonly hash: string;
  readonly sheets: readonly { readonly name: string; readonly title: string }[];
  readonly back: readonly { readonly id: string; readonly title: string }[];
  /** Beside each sheet in the contents: how its requirements stand. */
  readonly marks: readonly Html[];
  readonly about: Html;
  readonly rows: Html;
  readonly weakest: Html;
  readonly verdicts: Html;
  readonly budgets: Html;
  readonly product: Html;
  readonly decisions: Html;
  readonly body: Html;
  readonly data: object;
}

/** The bytes of the document. `watch`: of the form that a local server hands out, which alone may fetch something, and from there only. */
export function renderPage(content: PageContent, assets: PageAssets, watch?: WatchAssets): string {
  const { book } = content;
  const footer = footerStyle(content);
  const start = inline(assets.start, "script");
  const style = inline(assets.style, "style");
  const watched = watch === undefined ? [] : [inline(watch.script, "script")];
  const styles = [style, footer, ...(watch === undefined ? [] : [inline(watch.style, "style")])];
  const policy = contentPolicy([assets.script, start, ...watched], [...styles, allPages], watch && "'self'");
  const { markup, shown } = shortShown(
    html`<!doctype html>
<html lang="${book.language ?? "en"}"><head><meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1"><meta name="color-scheme" content="light dark"><meta name="referrer" content="no-referrer">
<title>${book.title}, revision ${book.revision}</title>
${styles.map((text) => html`<style>${trusted(text)}</style>`)}<noscript><style>${trusted(allPages)}</style></noscript></head>
<body><a class="skip" href="#content">Skip to the content</a>
${staleBanner(content.stale)}
<header class="rail"><div class="book-head"><h1><a href="#front">${book.title}</a></h1> <p>revision ${book.revision}</p></div>
<div id="find" class="find" role="search" hidden></div><fieldset id="views" class="views" hidden></fieldset>
${contents(content)}</header>
<main id="content" tabindex="-1">
<section class="page" id="front" aria-label="${book.title}">
${content.about}
${content.product}
<div class="beside">${content.decisions}
${content.budgets}
${content.weakest}</div>
${content.rows}
<section id="verdicts" aria-labelledby="verdicts-title"><h2 id="verdicts-title">Requirements</h2>${content.verdicts}</section>
${titleBlock(content)}
</section>
${content.body}
<section class="page back notices" id="licences" hidden="until-found" aria-labelledby="licences-title"><h2 id="licences-title">Licences of the software in this document</h2><pre tabindex="0">${assets.notices}</pre></section>
</main>
<aside id="changes" class="changes" aria-label="Your changes" hidden></aside><p id="notice" class="notice" hidden></p><p id="said" class="unseen" role="status" aria-live="polite"></p>
`.text,
  );
  const data = (id: string, text: string) => html`<script type="application/octet-stream" id="${id}">${trusted(packed(text))}</script>\n`;
  return html`${trusted(markup)}${data("book", JSON.stringify({ ...content.data, shown }))}${data("program", assets.script)}<script>${trusted(start)}</script>${watched.map((text) => html`<script>${trusted(text)}</script>`)}</body></html>
`.text;
}

/** Where no program runs, all pages are shown, which nothing could open, and their workings, which nothing could unfold all at once. */
const allPages =
  '.page[hidden="until-found"]{display:block!important;content-visibility:visible}:is(.worked,.givens-block)::details-content{display:block;content-visibility:visible}';

function titleBlock({ book, design, hash }: PageContent): Html {
  const entry = (term: string, value: string) => html`<div><dt>${term}</dt><dd>${value}</dd></div>`;
  return html`<div class="title-block"><dl>
${entry("Revision", book.revision)}${entry("Prepared by", book.preparedBy ?? "not stated")}${entry("Checked by", book.checkedBy ?? "not stated")}
${entry("Design", `${design.name}, revision ${design.revision}`)}${entry("Design file", design.fileName)}${entry("Content", hash)}</dl></div>`;
}

function contents(content: PageContent): Html {
  const { back, book, sheets } = content;
  const behind = [...back, { id: "licences", title: "Licences of the software in this document" }];
  const shown = new Set(sheets.map(({ name }) => name));
  const groups = (book.groups ?? []).filter((group) => group.sheets.some((name) => shown.has(name)));
  const lists = groups.map(
    (group, index) =>
      html`<h2 id="group-${index + 1}-title">${group.title}</h2>${sheetList(content, group.sheets, html` aria-labelledby="group-${index + 1}-title"`)}`,
  );
  return html`<nav class="contents" id="contents" aria-label="Contents">${lists.length > 0 ? lists : sheetList(content, [...shown])}
<ul>${behind.map(({ id, title }) => html`<li><a href="#${id}">${title}</a></li>`)}</ul></nav>`;
}

/** The sheets of these names with the marks of their verdicts. */
function sheetList({ sheets, marks }: PageContent, names: readonly string[], label: Html = nothing): Html {
  const items = sheets.flatMap(({ name, title }, index) =>
    names.includes(name) ? [html`<li>${marks[index]}<a href="#${sheetId(name)}">${title}</a></li>`] : [],
  );
  return html`<ol${label}>${items}</ol>`;
}

/** Revision and content hash at the foot of each printed page. */
function footerStyle({ book, hash, stale }: PageContent): string {
  const text = cssString(`${book.title} · revision ${book.revision} · content ${hash}`);
  const stamp = stale.length === 0 ? "" : `@page{@top-center{content:${cssString(staleLine(stale))};color:#b00020;font-weight:bold}}`;
  return `${stamp}@page{@bottom-left{content:${text}}@bottom-right{content:counter(page) " / " counter(pages)}}`;
}

/** A CSS string in which every character that is not a letter or digit is escaped by its code. */
function cssString(text: string): string {
  return `"${text.replace(/[^A-Za-z0-9]/gu, (character) => `\\${(character.codePointAt(0) ?? 32).toString(16)} `)}"`;
}
