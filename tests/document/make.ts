/** Makes the fixture's document as the build would, with page program and plots from source. */
import { inflateRawSync } from "node:zlib";
import { build } from "esbuild";
import { type Book, makeBook, type Title } from "../../lib/book/book";
import type { SheetInput } from "../../lib/book/outputs";
import type { PlotMaker } from "../../lib/document/model/assemble";
import type { DocumentBook } from "../../lib/document/model/book-data";
import { publishBook } from "../../lib/document/publish";
import type { PageAssets } from "../../lib/document/render-page";
import { type Shown, shownAttributes } from "../../lib/document/text/show";
import { plotData, vegaLite } from "../../lib/sheet/plot/plot";
import { compileSpec, renderSpec } from "../../lib/sheet/plot/vega";
import { book, design, lampSheet } from "./fixture";

let assets: Promise<PageAssets> | undefined;

/** The page's program and style, bundled once. */
export function pageAssets(): Promise<PageAssets> {
  assets ??= bundle();
  return assets;
}

async function bundle(): Promise<PageAssets> {
  const programs = await build({
    entryPoints: ["lib/document/page/main.ts", "lib/document/page/start.ts"],
    outdir: "unused",
    bundle: true,
    format: "iife",
    minify: true,
    target: "es2022",
    platform: "browser",
    write: false,
    legalComments: "none",
  });
  const style = await build({ entryPoints: ["lib/document/page/page.css"], minify: true, write: false });
  const [script = "", start = ""] = programs.outputFiles.map(({ text }) => text);
  return { script, start, style: style.outputFiles[0]?.text ?? "", notices: "package 1.0.0, MIT\n" };
}

const plots: PlotMaker = {
  compile: (block, evaluation, room) => compileSpec(vegaLite(block, plotData(block, evaluation, room), room)),
  render: (block, evaluation, prefix) => renderSpec(compileSpec(vegaLite(block, plotData(block, evaluation))), prefix),
};

export function fixtureBook(sheets: readonly SheetInput[] = [lampSheet], title: Title = book, stale: Book["stale"] = new Map()): Book {
  return makeBook({ title, sheets, design, stale });
}

export { plots as fixturePlots };

/** What the document holds packed under an id: its data, or its program. */
export function packedIn(markup: string, id: string): string {
  const [, text = ""] = new RegExp(`<script type="application/octet-stream" id="${id}">([^<]*)</script>`).exec(markup) ?? [];
  return inflateRawSync(Buffer.from(text, "base64")).toString();
}

/** The document with the attributes that its program gives to what it shows. */
export function withShown(markup: string): string {
  const { shown } = JSON.parse(packedIn(markup, "book")) as DocumentBook;
  return markup.replace(/data-shown="(\d+)"/g, (_, number) => shownAttributes(shown[Number(number)] as Shown).text);
}

export async function publishFixture(sheets?: readonly SheetInput[]): Promise<string> {
  return publishBook(fixtureBook(sheets), await pageAssets(), plots);
}
