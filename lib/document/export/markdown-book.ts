/**
 * The document as Markdown for a code host: one file a sheet and one for each part of the back, with an index. Made from the same
 * markup as the page, which is escaped and sanitised there; what only a page can do (fields, bars, folded code) is left out. GitHub
 * flavoured tables, `$…$` for laws, plots and drawings as SVG files.
 */
import rehypeParse from "rehype-parse";
import rehypeRemark from "rehype-remark";
import remarkGfm from "remark-gfm";
import remarkMath from "remark-math";
import remarkStringify from "remark-stringify";
import { unified } from "unified";
import { decoded } from "../../prose/links";
import { staleBanner } from "../front/stale";
import { sheetId } from "../model/page-ids";
import type { PreparedBook } from "../publish";
import { type Html, html, unescaped } from "../text/html";

/** Contents of files by name, relative to the folder of the book's Markdown. */
export type MarkdownFiles = Readonly<Record<string, string | Uint8Array>>;

interface Page {
  readonly file: string;
  readonly title: string;
  readonly markup: Html;
}

/** All files; `style` is the page's, for pictures that are drawn by it. `README.md` is the index, which a code host shows first. */
export function markdownFiles(prepared: PreparedBook, style: string): MarkdownFiles {
  const pages = pagesOf(prepared);
  const files: Record<string, string | Uint8Array> = {};
  const homes = homesOf(pages);
  for (const page of pages) files[page.file] = pageText(page, homes, style, files);
  return files;
}

function pagesOf({ content, sheets, back }: PreparedBook): Page[] {
  const { book, design, hash } = content;
  const files = [
    ...sheets.map(({ name, title, markup }) => ({ file: `${fileStem(name)}.md`, id: sheetId(name), title, markup })),
    ...back.map(({ id, title, markup }) => ({ file: `${fileStem(id)}.md`, id, title, markup })),
  ];
  const links = (from: number, to?: number) => files.slice(from, to).map(({ id, title }) => html`<li><a href="#${id}">${title}</a></li>`);
  const index = html`<h1>${book.title}</h1>
<p>Revision ${book.revision}, prepared by ${book.preparedBy ?? "not stated"}, checked by ${book.checkedBy ?? "not stated"}.
Design ${design.name}, revision ${design.revision}; content ${hash}. Computed numbers are those of the document of the same content.</p>
<h2>Requirements</h2>${content.verdicts}${content.budgets}${content.product}${content.decisions}
<h2>Worksheets</h2><ol>${links(0, sheets.length)}</ol><h2>Behind them</h2><ul>${links(sheets.length)}</ul>`;
  const stamp = staleBanner(content.stale);
  return [{ file: "README.md", title: book.title, markup: index }, ...files].map((page) => ({
    ...page,
    markup: html`${stamp}${page.markup}`,
  }));
}

/** A name of Latin letters, digits and hyphens. */
function fileStem(name: string): string {
  return name.replace(/[^A-Za-z0-9]+/g, "-").replace(/^-|-$/g, "") || "part";
}

/** By id the file in which its element stands, the first one for an id that stands in several. */
function homesOf(pages: readonly Page[]): ReadonlyMap<string, string> {
  const homes = new Map<string, string>();
  for (const { file, markup } of pages) {
    for (const [, id = ""] of markup.text.matchAll(/ id="([^"]+)"/g)) if (!homes.has(id)) homes.set(id, file);
  }
  return homes;
}

function pageText(
  { file, markup }: Page,
  homes: ReadonlyMap<string, string>,
  style: string,
  files: Record<string, string | Uint8Array>,
): string {
  let drawn = 0;
  const keep = (content: string | Uint8Array, type: string): string => {
    const name = `figures/${file.replace(/\.md$/, "")}-${++drawn}.${type}`;
    files[name] = content;
    return name;
  };
  const linked = (target: string): string | undefined => {
    if (!target.startsWith("#")) return /^https?:/.test(target) ? target : undefined;
    const home = homes.get(decoded(target.slice(1)));
    return home === undefined || home === file ? undefined : home;
  };
  const { svgs, rest } = takePictures(withoutOrnaments(markup.text));
  const processor = unified()
    .use(rehypeParse, { fragment: true })
    .use(() => (tree: unknown) => prepareAll(tree as Element, { keep, linked, svgs, style, frame: "", raise: file !== "README.md" }))
    .use(rehypeRemark, { handlers: { math: mathOf as never, picture: pictureOf as never } })
    .use(remarkGfm, { tablePipeAlign: false })
    .use(remarkMath)
    .use(remarkStringify, { bullet: "-", emphasis: "*", rule: "-", fences: true, resourceLink: true });
  return String(processor.processSync(rest))
    .replace(/[\u2007\u2008]/g, "")
    .replace(/ +; /g, "; ");
}

/** Bars and other ornaments say nothing. */
function withoutOrnaments(text: string): string {
  return text.replace(/<svg[^>]*\saria-hidden="true"[\s\S]*?<\/svg>/g, "");
}

/** The bytes of each picture, which a parser of HTML would write otherwise, and the text with places for them. */
function takePictures(text: string): { readonly svgs: readonly string[]; readonly rest: string } {
  const svgs: string[] = [];
  const rest = text.replace(/<svg[\s\S]*?<\/svg>/g, (svg) => `<x-picture data-index="${svgs.push(svg) - 1}"></x-picture>`);
  return { svgs, rest };
}

interface Element {
  type: string;
  tagName?: string;
  value?: string;
  properties?: Record<string, unknown>;
  children?: Element[];
}

interface Preparing {
  /** Makes a file of a picture and gives its name. */
  readonly keep: (content: string | Uint8Array, type: string) => string;
  readonly linked: (target: string) => string | undefined;
  readonly svgs: readonly string[];
  /** The page's style sheet, and the classes of what the present element stands in. */
  readonly style: string;
  readonly frame: string;
  readonly raise: boolean;
  /** Of the figure that is being made ready. */
  readonly caption?: string;
}

/** Of the page only what Markdown can say. */
function prepareAll(tree: Element, how: Preparing): void {
  prepare(tree, how);
  if (how.raise) headingFirst(tree);
}

/** What the page says above the title of a sheet follows it here. */
function headingFirst(tree: Element): void {
  const parent = [tree, ...(tree.children ?? [])].find(({ children }) => children?.some(({ tagName }) => tagName === "h1"));
  const heading = parent?.children?.find(({ tagName }) => tagName === "h1");
  if (parent?.children === undefined || heading === undefined) return;
  parent.children = parent.children.filter((child) => child !== heading);
  tree.children = [heading, ...(tree.children ?? []).filter((child) => child !== heading)];
}

function prepare(tree: Element, how: Preparing): void {
  tree.children = (tree.children ?? []).flatMap((child) => prepared(child, how));
}

function prepared(node: Element, how: Preparing): Element[] {
  if (node.type !== "element") return node.type === "text" ? [node] : [];
  if (isLeftOut(node)) return [];
  const inside = { ...how, frame: [how.frame, ...classNames(node.properties)].join(" ").trim() };
  if (node.tagName === "x-picture") return pictureFor(node, how);
  if (node.tagName === "math") return [node];
  if (node.tagName === "table") return tableAndFolds(node, inside);
  if (node.tagName === "figure") return figure(node, inside);
  prepare(node, inside);
  return reshaped(node, how);
}

/** The caption is the text of the picture too. */
function figure(node: Element, how: Preparing): Element[] {
  const caption = node.children?.find(({ tagName }) => tagName === "figcaption");
  prepare(node, { ...how, caption: caption === undefined ? "figure" : textOf(caption).trim() });
  return [node];
}

/** A cell holds one line: what is folded in it follows the table. */
function tableAndFolds(table: Element, how: Preparing): Element[] {
  const folds: Element[] = [];
  takeFolds(table, folds);
  if (classNames(table.properties).includes("budget-bars")) dropBars(table);
  prepare(table, how);
  return [...captionOf(table), table, ...folds.flatMap((fold) => prepared(fold, how))];
}

function takeFolds(node: Element, folds: Element[]): void {
  if (node.children === undefined) return;
  node.children = node.children.flatMap((child) => {
    if (child.tagName !== "details") {
      takeFolds(child, folds);
      return [child];
    }
    folds.push(named(child));
    const summary = child.children?.find(({ tagName }) => tagName === "summary");
    return [element("em", ...(summary?.children ?? []).map((part) => ({ ...part })), text(", below"))];
  });
}

/** Out of its row a table of points says which given it is. */
function named(fold: Element): Element {
  const path = tableIn(fold)?.properties?.dataTable;
  if (path === undefined) return fold;
  const children = (fold.children ?? []).map((child) =>
    child.tagName === "summary" ? { ...child, children: [...(child.children ?? []), text(`, ${String(path)}`)] } : child,
  );
  return { ...fold, children };
}

function tableIn(node: Element): Element | undefined {
  return node.tagName === "table" ? node : (node.children ?? []).map(tableIn).find((found) => found !== undefined);
}

/** The middle cell of a row holds the bar alone. */
function dropBars(node: Element): void {
  const cells = (node.children ?? []).filter(({ tagName }) => tagName === "td" || tagName === "th");
  if (node.tagName === "tr" && cells.length === 3) node.children = cells.filter((_, index) => index !== 1);
  else for (const child of node.children ?? []) dropBars(child);
  if (node.properties !== undefined) node.properties.colSpan = undefined;
}

function reshaped(node: Element, { keep, linked, raise }: Preparing): Element[] {
  const { tagName = "" } = node;
  if (tagName === "a") {
    const target = linked(String(node.properties?.href ?? ""));
    return target === undefined ? (node.children ?? []) : [{ ...node, properties: { href: target } }];
  }
  if (tagName === "img")
    return [{ ...node, tagName: "picture", properties: { src: kept(node, keep), alt: String(node.properties?.alt ?? "") } }];
  if (tagName === "span") return inline(node);
  if (tagName === "button") return node.children ?? [];
  if (tagName === "summary" && node.children?.some(hasLead)) return [element("p", ...(node.children ?? []))];
  if (tagName === "summary") return [element("p", element("strong", ...(node.children ?? [])))];
  if (tagName === "sup" && !/^[-−\d]/.test(textOf(node))) return [text(" ("), ...(node.children ?? []), text(")")];
  if (tagName === "sub") return [text("_"), ...(node.children ?? [])];
  if (tagName === "dt") return [element("strong", ...(node.children ?? []))];
  if (tagName === "dl") return [element("ul", ...definitions(node))];
  if (["td", "th"].includes(tagName)) return [{ ...node, children: spaced(node.children ?? []) }];
  if (/^h[2-6]$/.test(tagName) && raise) return [{ ...node, tagName: `h${Number(tagName[1]) - 1}` }];
  return [node];
}

/** A picture that stands in the page itself as a file of its own. */
function kept({ properties }: Element, keep: Preparing["keep"]): string {
  const [, type = "", content = ""] = /^data:image\/([a-z]+)[^,]*;base64,(.*)$/s.exec(String(properties?.src)) ?? [];
  return keep(Buffer.from(content, "base64"), type);
}

/** What the page sets small or on a line of its own is told apart by marks. */
function inline(node: Element): Element[] {
  const classes = classNames(node.properties);
  const inside = node.children ?? [];
  if (classes.includes("id")) return [element("strong", ...inside)];
  if (classes.includes("path")) return [element("code", ...inside)];
  if (classes.includes("where")) return [text("("), ...inside, text(")")];
  if (["judged", "deciding", "limit", "decided", "better", "remark", "place", "memory", "dominated"].some((name) => classes.includes(name)))
    return [text("; "), ...inside];
  return inside;
}

const has =
  (name: string) =>
  ({ properties }: Element) =>
    classNames(properties).includes(name);
const hasLine = has("line");
const hasLead = has("lead");

function isLeftOut(node: Element): boolean {
  const { tagName, properties } = node;
  const classes = classNames(properties);
  return (
    ["fieldset", "input", "script", "style", "nav"].includes(tagName ?? "") ||
    (tagName === "button" && !classes.includes("badge")) ||
    // The line of a table or a result says again what follows it there.
    (tagName === "summary" && node.children?.some(hasLine) && !node.children.some(hasLead)) ||
    (tagName === "span" && ["line", "inside"].some((name) => classes.includes(name))) ||
    (tagName === "details" && ["code", "swings"].some((name) => classes.includes(name))) ||
    (tagName !== "thead" && ["unseen", "sheet-name"].some((name) => classes.includes(name)))
  );
}

function classNames(properties: Element["properties"]): readonly string[] {
  const names = properties?.className;
  return Array.isArray(names) ? names.map(String) : [];
}

/** A plot or drawing as a file of its own, what it shows in words as its text. */
function pictureFor(node: Element, how: Preparing): Element[] {
  const { svgs, keep, caption } = how;
  const svg = svgs[Number(node.properties?.dataIndex)] ?? "";
  if (!/<(path|rect|line|circle|text)/.test(svg)) return [];
  const title =
    caption ?? unescaped(/^<svg[^>]*\saria-label="([^"]*)"/.exec(svg)?.[1] ?? /<title[^>]*>([^<]*)<\/title>/.exec(svg)?.[1] ?? "figure");
  return [{ type: "element", tagName: "picture", properties: { src: keep(standing(svg, how), "svg"), alt: title }, children: [] }];
}

/**
 * A file of its own: with its name space, on a ground; one that the page's style draws with that style, in a frame of the same classes.
 */
function standing(svg: string, { style, frame }: Preparing): string {
  const named = /^<svg[^>]*\sxmlns=/.test(svg) ? svg : svg.replace(/^<svg/, '<svg xmlns="http://www.w3.org/2000/svg"');
  // A picture that says its own colours needs no style.
  if (/\s(?:fill|stroke)="/.test(svg))
    return `${named.replace(/^<svg([^>]*)>/, '<svg$1><rect width="100%" height="100%" fill="#fcfbf8"/>')}\n`;
  const [head = ""] = named.match(/^<svg[^>]*>/) ?? [];
  return `${head}<style>${style}</style><rect width="100%" height="100%" fill="var(--paper)"/><g class="${frame}">${svg}</g></svg>\n`;
}

function captionOf({ children = [] }: Element): Element[] {
  const caption = children.find(({ tagName }) => tagName === "caption");
  return caption === undefined ? [] : [element("p", element("strong", ...(caption.children ?? [])))];
}

/** A term and what it means as one line of a list. */
function definitions({ children = [] }: Element): Element[] {
  const groups = children.flatMap((child) => (child.tagName === "div" ? [child.children ?? []] : []));
  const loose = children.filter(({ tagName }) => tagName === "strong" || tagName === "dd");
  for (let at = 0; at + 1 < loose.length; at += 2) groups.push(loose.slice(at, at + 2));
  return groups.map((group) =>
    element(
      "li",
      ...group.flatMap((part) => (part.tagName === "dd" ? [text(": "), ...(part.children ?? [])] : part.type === "text" ? [] : [part])),
    ),
  );
}

/** The parts of a cell stand on lines of their own in the page, in one line here. */
function spaced(children: readonly Element[]): Element[] {
  return children.flatMap((child, index) => (index > 0 && child.type === "element" ? [text(" "), child] : [child]));
}

function textOf(node: Element): string {
  return node.value ?? (node.children ?? []).map(textOf).join("");
}

const element = (tagName: string, ...children: Element[]): Element => ({ type: "element", tagName, properties: {}, children });
const text = (value: string): Element => ({ type: "text", value });

interface HandlerState {
  patch(from: unknown, to: unknown): void;
}

/** A law by the LaTeX that stands beside its MathML. */
function mathOf(_: HandlerState, node: Element) {
  const value = textOf(node.children?.find(({ tagName }) => tagName === "annotation") ?? node);
  return node.properties?.display === "block" ? { type: "math", value } : { type: "inlineMath", value };
}

function pictureOf(_: HandlerState, { properties }: Element) {
  return { type: "image", url: String(properties?.src), alt: String(properties?.alt), title: null };
}
