/** Makes the book's document: one HTML file that needs nothing else, the same bytes for the same input. */
import { type Ask, overheard } from "../analysis/ask";
import { briefOf } from "../analysis/brief";
import type { Evaluation } from "../analysis/evaluation";
import type { Book, Title } from "../book/book";
import { PlotDrawer } from "../sheet/plot/plot-drawer";
import { pageAssets } from "./assets";
import { renderBibliography, renderConventions, renderGlossary, renderReadings, renderRegister } from "./back/back";
import { renderQuestions, renderWeakest } from "./back/questions";
import { renderSheetRows } from "./front/sheet-rows";
import { figurePrefix } from "./live/figures";
import { productSection } from "./live/product";
import { renderUnanswered } from "./live/requirements";
import { bookData, type PlotMaker } from "./model/assemble";
import { type BookData, type PublishedBook, type View, view } from "./model/book-data";
import { helpersOf } from "./model/helpers";
import { part } from "./model/parts";
import { readingOrder } from "./model/reading-order";
import { contentHash } from "./policy";
import { type PageAssets, type PageContent, renderPage } from "./render-page";
import { renderAssumptions, renderParts } from "./sheet/roll-up";
import { renderSheet, sheetTitle } from "./sheet/sheet";
import { type Html, html, trusted } from "./text/html";
import { resolver } from "./text/links";
import type { LinkResolver } from "./text/markdown";
import { withoutSources } from "./text/math";
import { citing, sourceNumbers } from "./text/sources";

/** Every part of the document as markup. */
export interface PreparedBook {
  readonly content: PageContent;
  readonly sheets: readonly { readonly name: string; readonly title: string; readonly markup: Html }[];
  readonly back: readonly { readonly id: string; readonly title: string; readonly markup: Html }[];
}

/** The parts of the document. Nothing of an output is trusted as markup. */
export function prepareBook(book: Book, plots: PlotMaker = new PlotDrawer()): PreparedBook {
  const { design } = book;
  const asks = new Map<string, Ask>();
  const evaluation = overheard(book.evaluation, (ask) => void asks.set(JSON.stringify(ask), ask));
  const data = bookData({ ...book, evaluation }, plots);
  const shown = view(data, evaluation, (ref) => drawPlot(data, ref, evaluation, plots));
  const links = new Map(book.sheets.map(({ name }) => [name, resolver(name, shown, book.published)]));
  const { sheets, back } = bookParts(book, shown, links);
  const rows = book.sheets.map((sheet) => ({ sheet, title: sheetTitle(sheet), link: links.get(sheet.name) as LinkResolver }));
  const front = {
    marks: sheets.map(({ name }) => part("mark", name, shown)),
    about: aboutProduct(design),
    rows: trusted(withoutSources(renderSheetRows(rows, shown).text)),
    weakest: renderWeakest(shown, design.sources),
    verdicts: html`${part("verdicts", "book", shown)}${renderUnanswered(shown)}`,
    budgets: part("budgets", "book", shown),
    product: productSection(data.product, part("diagram", "book", shown), part("power", "book", shown)),
    decisions: html`<div class="overview">${part("decisions", "book", shown)}<details class="map-fold"><summary>Which decision rests on which, and which requirements on them</summary>${part("map", "book", shown)}</details></div>`,
  };
  const content = {
    book: shownOf(book.title),
    stale: [...book.stale],
    design: { fileName: design.fileName, name: design.name, revision: design.revision },
    body: trusted(withoutSources(html`${sheets.map(({ markup }) => markup)}${back.map(({ markup }) => markup)}`.text)),
    data: {
      ...data,
      found: briefOf(book.evaluation, [...asks.values()]),
      laws: Object.fromEntries(Object.entries(data.laws).map(([latex, law]) => [latex, withoutSources(law)])),
    } satisfies PublishedBook,
    back: back.map(({ id, title }) => ({ id, title })),
    sheets: sheets.map(({ name, title }) => ({ name, title })),
    ...front,
  };
  return { content: { ...content, hash: contentHash(content) }, sheets, back };
}

/** What the document shows of book.yaml: not the folder that it lies in. */
function shownOf({ title, revision, preparedBy, checkedBy, language, groups }: Title): Title {
  return {
    title,
    revision,
    ...(preparedBy !== undefined && { preparedBy }),
    ...(checkedBy !== undefined && { checkedBy }),
    ...(language !== undefined && { language }),
    ...(groups !== undefined && { groups }),
  };
}

/** The document as HTML text. */
export function publishBook(book: Book, page: PageAssets = pageAssets(), plots?: PlotMaker): string {
  return renderPage(prepareBook(book, plots).content, page);
}

function drawPlot(data: BookData, ref: string, evaluation: Evaluation, plots: PlotMaker): string {
  const block = data.blocks[ref];
  if (block?.type !== "plot") throw new Error(`${ref} is no plot`);
  return plots.render(block, evaluation, figurePrefix(ref));
}

/** What the product is, as the design file says it. */
function aboutProduct({ name, title, note }: Book["design"]): Html {
  const sentence = (text: string | undefined) => text !== undefined && html` ${text.replace(/[.]$/, "")}.`;
  return html`<p class="about"><strong>${name}.</strong>${sentence(title)}${sentence(note)}</p>`;
}

function bookParts(book: Book, shown: View, links: ReadonlyMap<string, LinkResolver>): Pick<PreparedBook, "sheets" | "back"> {
  const { sheets, design, published } = book;
  const numbers = sourceNumbers(shown.book.nodes);
  const cite = citing(design.sources, numbers);
  const order = readingOrder(sheets, shown);
  const helpers = helpersOf(book);
  const articles = sheets.map((sheet) => ({
    name: sheet.name,
    title: sheetTitle(sheet),
    markup: renderSheet(sheet, { order, view: shown, cite, helpers, link: links.get(sheet.name) as LinkResolver }),
  }));
  const back = [
    { id: "questions", title: "Open questions", markup: renderQuestions(shown, design.sources) },
    { id: "parts", title: "Parts", markup: renderParts(shown) },
    { id: "assumptions", title: "Assumptions", markup: renderAssumptions(shown) },
    { id: "readings", title: "Readings of prototypes", markup: renderReadings(design, shown, published, cite) },
    { id: "register", title: "Register of givens", markup: renderRegister(shown, cite, design) },
    { id: "conventions", title: "How the numbers are meant", markup: renderConventions() },
    { id: "glossary", title: "Symbols", markup: renderGlossary(shown) },
    { id: "bibliography", title: "Sources", markup: renderBibliography(numbers, design.sources, shown) },
  ].filter(({ markup }) => markup.text !== "");
  return { sheets: articles, back };
}
