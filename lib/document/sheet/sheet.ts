/** One worksheet: prose, what its cells show, and the code of the cells folded away. */
import type { Output, SheetOutputs } from "../../book/outputs";
import type { Block, BlockOf } from "../../sheet/block";
import { kindOf } from "../../sheet/kinds";
import { nodeAnchor, type View } from "../model/book-data";
import { sheetId } from "../model/page-ids";
import { isLive, part } from "../model/parts";
import { type ReadingOrder, renderPlace } from "../model/reading-order";
import { anchor, type Html, html, nothing, trusted, unescaped } from "../text/html";
import { firstHeading, type LinkResolver, markdown } from "../text/markdown";
import type { Cite } from "../text/sources";
import { renderDecision } from "./decision";
import { renderCaution, renderFigure } from "./figure";
import { renderGivens, renderTaken, type ShownGivens } from "./givens";
import { picturesIn } from "./pictures";
import { renderResult, renderSelect } from "./result";
import type { Helpers } from "./result-frame";
import { renderAssumption, renderCollection, renderConfirmation, renderContribution } from "./roll-up";
import { type Item, inRows, sectionsOf } from "./rows";
import { renderTable } from "./table";

export interface SheetTools {
  readonly order: ReadingOrder;
  readonly view: View;
  readonly cite: Cite;
  readonly link: LinkResolver;
  /** By reference, the results that stand within another, and that other. */
  readonly helpers: ReadonlyMap<string, string>;
}

export function sheetTitle(sheet: SheetOutputs): string {
  const headings = sheet.pieces.map((piece) => (piece.kind === "prose" ? firstHeading(piece.markdown) : undefined));
  return headings.find((heading) => heading !== undefined) ?? sheet.name;
}

export function renderSheet(sheet: SheetOutputs, tools: SheetTools): Html {
  const titled = sheet.pieces.some((piece) => piece.kind === "prose" && firstHeading(piece.markdown) !== undefined);
  const id = sheetId(sheet.name);
  // As links led to it when the document was one page.
  const old = anchor("sheet", sheet.name);
  return html`<article class="page sheet" id="${id}" hidden="until-found" aria-label="${sheetTitle(sheet)}">
${id !== old && html`<span id="${old}"></span>`}${renderPlace(sheet.name, tools.order)}
${!titled && html`<h2>${sheet.name}</h2>`}${renderPieces(sheet, tools)}</article>`;
}

/**
 * The code of a cell that shows nothing is folded up with that of the next cell, where no text lies between; so is
 * that of a cell which shows only givens before one that begins with givens, and all these givens are one run.
 */
function renderPieces({ name, pieces, picture }: SheetOutputs, tools: SheetTools): Html[] {
  let waiting: string[] = [];
  let givens: readonly Output[] = [];
  const headings = new Set<string>();
  const items = pieces.flatMap((piece, index): Item[] => {
    if (piece.kind === "prose") {
      return sectionsOf(addressed(markdown(piece.markdown, tools.link, picturesIn(name, piece, picture)), name, headings));
    }
    const outputs = [...givens, ...piece.outputs];
    waiting.push(piece.source);
    const next = pieces[index + 1];
    const empty = outputs.every(showsNothing);
    const goesOn = next?.kind === "code" && (empty || (outputs.every(isGivens) && next.outputs.slice(0, 1).some(isGivens)));
    givens = goesOn && !empty ? outputs : [];
    if (goesOn) return [];
    const code = renderCode(waiting);
    waiting = [];
    return withCode(renderOutputs(outputs, tools), code);
  });
  return inRows(items);
}

/** The code stands behind what it shows. */
function withCode(items: readonly Item[], code: Html): Item[] {
  const last = items.at(-1);
  if (last === undefined) return [{ place: "beside", markup: code, lines: 0 }];
  return [...items.slice(0, -1), { ...last, markup: html`${last.markup}${code}` }];
}

/** Gives headings their addresses: the sheet's name and their own words, a number behind those that are there already. */
function addressed({ text }: Html, sheet: string, taken: Set<string>): Html {
  return trusted(
    text.replace(/<h([3-6])>(.*?)<\/h\1>/gs, (_, level: string, words: string) => {
      const stem =
        unescaped(words.replace(/<[^>]*>/g, ""))
          .toLowerCase()
          .match(/[\p{L}\p{N}]+/gu)
          ?.join("-") ?? "";
      let id = anchor("section", `${sheet}.${stem}`);
      for (let number = 2; taken.has(id); number++) id = anchor("section", `${sheet}.${stem}-${number}`);
      taken.add(id);
      return `<h${level} id="${id}">${words}</h${level}>`;
    }),
  );
}

function isGivens(output: Output): boolean {
  return output.kind === "display" && output.display.block.type === "givens";
}

function showsNothing(output: Output): boolean {
  return output.kind === "display" && output.display.block.type === "publish";
}

function renderOutputs(outputs: readonly Output[], tools: SheetTools): Item[] {
  const shown: Item[] = [];
  let run: ShownGivens[] = [];
  const close = () => {
    if (run.length > 0) shown.push({ place: "below", markup: renderGivens(run, tools.view, tools.cite), lines: 1.5 * run.length });
    run = [];
  };
  for (const output of outputs) {
    if (output.kind === "display" && output.display.block.type === "givens") {
      run.push({ block: output.display.block, ref: output.ref });
      continue;
    }
    close();
    if (output.kind === "display" && tools.helpers.has(output.ref)) continue;
    const markup = renderOutput(output, tools);
    if (markup.text !== "") shown.push({ ...placeOf(output), markup });
  }
  close();
  return shown;
}

function placeOf(output: Output): Omit<Item, "markup"> {
  if (output.kind !== "display") return { place: "wide", lines: 4 };
  const { block } = output.display;
  if (block.type === "table" && block.columns.length <= 3) {
    const each = block.columns.length <= 2 ? 1.4 : 2;
    return { place: "beside", lines: 4 + each * block.rows.length, isBroad: true, mayBeWide: true };
  }
  // A column for each state needs the width of the page.
  if (block.type === "drawing" && block.states !== undefined) return { place: "wide", lines: 30 };
  return inColumn[block.type] ?? { place: "wide", lines: 10 };
}

/** Where the kinds of blocks stand that need not the whole width, and about how high they are there. */
const inColumn: { readonly [T in Block["type"]]?: Omit<Item, "markup"> } = {
  result: { place: "beside", lines: 1.4 },
  select: { place: "beside", lines: 1.4 },
  plot: { place: "beside", lines: 15, isBroad: true },
  drawing: { place: "beside", lines: 15, isBroad: true },
  requirement: { place: "beside", lines: 5 },
  caution: { place: "beside", lines: 8 },
  assumption: { place: "beside", lines: 2 },
  confirmation: { place: "beside", lines: 4 },
  contribution: { place: "beside", lines: 4 },
  taken: { place: "below", lines: 1.5 },
  batch: { place: "beside", lines: 8 },
  reading: { place: "beside", lines: 8 },
};

function renderCode(sources: readonly string[]): Html {
  const source = sources.filter((text) => text.trim() !== "").join("\n\n");
  if (source === "") return nothing;
  return html`<details class="code"><summary>Code</summary><pre tabindex="0"><code>${source}</code></pre></details>`;
}

function renderOutput(output: Output, tools: SheetTools): Html {
  switch (output.kind) {
    case "display":
      return renderBlock(output.display.block, output.ref, tools);
    case "image":
      return html`<p class="block"><img alt="output of the cell" src="data:image/png;base64,${output.png}"></p>`;
    case "text":
      return html`<pre class="printed" tabindex="0">${output.error && html`<strong>Error or warning</strong>\n`}${output.text}</pre>`;
  }
}

/** What stands within a result. */
function helpersOf(ref: string, tools: SheetTools): Helpers {
  const own = [...tools.helpers].flatMap(([helper, user]) => (user === ref ? [helper] : []));
  const count = (of: string): number =>
    [...tools.helpers].reduce((sum, [helper, user]) => (user === of ? sum + 1 + count(helper) : sum), 0);
  return { markup: own.map((helper) => renderBlock(tools.view.book.blocks[helper] as Block, helper, tools)), count: count(ref) };
}

type Renders<B extends Block> = (block: B, ref: string, tools: SheetTools) => Html;

/** What has no place of its own here stands as its live part, or else as its words. */
function renderBlock(block: Block, ref: string, tools: SheetTools): Html {
  const render = places[block.type] as Renders<Block> | undefined;
  if (render !== undefined) return render(block, ref, tools);
  const { view } = tools;
  const anchors = (kindOf(block).owns?.(block) ?? []).map((node) => html`<span${nodeAnchor(node, ref, view)}></span>`);
  return html`<div class="block ${block.type}">${anchors}${part(isLive(block.type) ? block.type : "words", ref, view)}</div>`;
}

const places: { readonly [T in Block["type"]]?: Renders<BlockOf<T>> } = {
  givens: (block, ref, { view, cite }) => renderGivens([{ block, ref }], view, cite),
  result: (block, ref, tools) => renderResult(block, ref, tools.view, helpersOf(ref, tools)),
  table: (block, ref, { view }) => renderTable(block, ref, view),
  select: (block, ref, tools) => renderSelect(block, ref, tools.view, helpersOf(ref, tools)),
  decision: (block, ref, { view, link }) => renderDecision(block, ref, view, link),
  plot: (block, ref, { view, link }) => renderFigure(block, ref, view, link),
  drawing: (block, ref, { view, link }) => renderFigure(block, ref, view, link),
  caution: (block, _, { link }) => renderCaution(block, link),
  contribution: (block, _, { view }) => renderContribution(block, view),
  collection: (block, ref, { view }) => renderCollection(block, ref, view),
  assumption: (block, _, { view }) => renderAssumption(block, view),
  confirmation: (block, ref, { view }) => renderConfirmation(block, ref, view),
  taken: (block, _, { view }) => renderTaken(block, view),
  publish: () => nothing,
};
