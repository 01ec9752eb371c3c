/**
 * Markdown of a notebook as safe markup: raw HTML is shown as text, links and images are checked, headings sink
 * one level (the book's title is the only h1), `$…$` is typeset, and links to results show the computed value.
 */
import rehypeSanitize, { defaultSchema } from "rehype-sanitize";
import rehypeStringify from "rehype-stringify";
import remarkGfm from "remark-gfm";
import remarkParse from "remark-parse";
import remarkRehype from "remark-rehype";
import { unified } from "unified";
import { withinDepth } from "../../prose/depth";
import { type Html, html, trusted } from "./html";
import { mathml } from "./math";
import { type PictureResolver, picturesOf } from "./picture";
import { withBoundUnits } from "./units-in-text";

/** The parts of a syntax tree that the pipeline here touches. */
interface TreeNode {
  type: string;
  tagName?: string;
  value?: string;
  depth?: number;
  properties?: Record<string, unknown>;
  children?: TreeNode[];
}

/** Markup for a link to a result, or undefined where the target is no result. `text` is what the author wrote. */
export type LinkResolver = (target: string, text: string) => Html | undefined;

const reader = unified()
  .use(remarkParse)
  .use(remarkGfm)
  .use(() => lowered)
  .use(remarkRehype);

const cleaner = unified()
  .use(rehypeSanitize, { ...defaultSchema, clobberPrefix: "text-", protocols: { ...defaultSchema.protocols, src: ["data"] } })
  .use(rehypeStringify);

/**
 * Safe markup of Markdown text. A picture that `picture` does not give is told in its place, as an element of the class `missing`.
 */
export function markdown(source: string, link: LinkResolver = () => undefined, picture: PictureResolver = picturesOf(undefined)): Html {
  return withinDepth(source, () => markup(source, link, picture));
}

function markup(source: string, link: LinkResolver, picture: PictureResolver): Html {
  const kept: string[] = [];
  const keep = (markup: string): string => `\ue000${kept.push(markup) - 1}\ue001`;
  const text = typeset(source.replace(/[\ue000\ue001]/g, ""), keep);
  const tree = reader.runSync(reader.parse(text));
  embed(tree as TreeNode, picture, (words) => keep(html`<em class="missing">${words}</em>`.text));
  const clean = cleaner.runSync(tree as never) as TreeNode;
  bindUnits(clean);
  bindLinks(clean, link, keep);
  const written = cleaner.stringify(clean as never);
  return trusted(written.replace(/\ue000(\d+)\ue001/g, (_, index) => kept[Number(index)] ?? ""));
}

/** Markdown without a paragraph around it. */
export function inlineMarkdown(source: string, link?: LinkResolver): Html {
  const { text } = markdown(source, link);
  const inner = /^<p>([\s\S]*)<\/p>$/.exec(text)?.[1];
  return trusted(inner === undefined || inner.includes("<p>") ? text : inner);
}

/** Math is taken out before Markdown reads the text, which would eat its backslashes and underscores. */
function typeset(source: string, keep: (markup: string) => string): string {
  const code = /(```[\s\S]*?```|~~~[\s\S]*?~~~|`[^`\n]*`)|\$\$([\s\S]+?)\$\$|(?<![\\$\w])\$(?=\S)([^$\n`]*[^$\s\\`])\$(?![\d$])/g;
  return source.replace(code, (whole, literal, block, inline) => {
    if (literal !== undefined) return whole;
    return keep(mathml((block ?? inline).trim(), block !== undefined).text);
  });
}

/** Raw HTML becomes text (escaped by the stringifier); headings sink one level. */
function lowered(tree: unknown): void {
  visit(tree as TreeNode, (node) => {
    if (node.type === "html") node.type = "text";
    if (node.type === "heading") node.depth = Math.min((node.depth ?? 1) + 1, 6);
  });
}

/** A number and its unit stay on one line. Code keeps its characters. */
function bindUnits(tree: TreeNode): void {
  if (tree.tagName === "code" || tree.tagName === "pre") return;
  if (tree.type === "text") tree.value = withBoundUnits(tree.value ?? "");
  for (const child of tree.children ?? []) bindUnits(child);
}

/** `missing` gives what stands in the place of a picture that is not there, from the reason in words. */
function embed(tree: TreeNode, picture: PictureResolver, missing: (words: string) => string): void {
  visit(tree, (node) => {
    if (node.tagName !== "img") return;
    const target = String(node.properties?.src ?? "");
    try {
      Object.assign(node.properties ?? {}, { src: picture(target) });
    } catch (error) {
      const reason = (error as Error).message;
      const name = target.length > 80 ? `${target.slice(0, 79)}…` : target;
      Object.assign(node, { type: "text", tagName: undefined, value: missing(`picture ${name}: ${reason}`) });
    }
  });
}

/** Pictures that a Markdown text refers to and `picture` does not give, each with the reason. */
export function missingPictures(source: string, picture: PictureResolver = picturesOf(undefined)): string[] {
  const missing: string[] = [];
  const tree = withinDepth(source, () => reader.runSync(reader.parse(typeset(source, () => ""))));
  embed(tree as TreeNode, picture, (words) => `${missing.push(words)}`);
  return missing;
}

function bindLinks(tree: TreeNode, link: LinkResolver, keep: (markup: string) => string): void {
  visit(tree, (node) => {
    if (node.tagName !== "a") return;
    const text = content(node);
    const bound = link(String(node.properties?.href ?? ""), text);
    if (!bound) return;
    Object.assign(node, { type: "text", value: keep(bound.text) });
  });
}

function content(node: TreeNode): string {
  return node.value ?? (node.children ?? []).map(content).join("");
}

function visit(node: TreeNode, act: (node: TreeNode) => void): void {
  act(node);
  for (const child of node.children ?? []) visit(child, act);
}

/** What follows `**lead**` in the paragraph that begins so, as Markdown; undefined where none does. */
export function paragraphAfter(source: string, lead: string): string | undefined {
  const { children } = withinDepth(source, () => unified().use(remarkParse).parse(source));
  for (const paragraph of children) {
    const [first] = paragraph.type === "paragraph" ? paragraph.children : [];
    if (first?.type === "strong" && content(first as TreeNode) === lead)
      return source.slice(first.position?.end.offset, paragraph.position?.end.offset).trim();
  }
  return undefined;
}

/** The first heading of a Markdown text, without marks. */
export function firstHeading(source: string): string | undefined {
  return /^#{1,6}\s+(.+?)\s*#*$/m.exec(source)?.[1]?.replace(/[*_`]/g, "");
}
