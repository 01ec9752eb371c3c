/** The demo book as Markdown: what it holds, that its links and pictures are there, and that it says what the document says. */
import katex from "katex";
import remarkGfm from "remark-gfm";
import remarkMath from "remark-math";
import remarkParse from "remark-parse";
import { unified } from "unified";
import { beforeAll, describe, expect, it } from "vitest";
import { pageAssets } from "../../lib/document/assets";
import { markdownFiles } from "../../lib/document/export/markdown-book";
import { type PreparedBook, prepareBook } from "../../lib/document/publish";
import { bookOf, pair, sample } from "../demo-book";
import { inFull, isFull } from "../full";

interface Node {
  readonly type: string;
  readonly url?: string;
  readonly value?: string;
  readonly children?: readonly Node[];
}

const parser = unified().use(remarkParse).use(remarkGfm).use(remarkMath);
const every = (node: Node): Node[] => [node, ...(node.children ?? []).flatMap(every)];
const nodesOf = (text: string): Node[] => every(parser.parse(text) as Node);

/** Books without pictures of their own: every file is text. */
const made = (prepared: PreparedBook) => markdownFiles(prepared, pageAssets().style) as Record<string, string>;

describe("the demo book as Markdown", () => {
  let files: Record<string, string> = {};
  let prepared: PreparedBook;
  beforeAll(() => {
    prepared = prepareBook(sample.made());
    files = made(prepared);
  });
  const pages = () => Object.entries(files).filter(([name]) => name.endsWith(".md"));
  const page = (name: string) => files[name] ?? "";

  it("has an index, a file for each sheet and for each part of the back", () => {
    const names = pages().map(([name]) => name);
    expect(names).toEqual(
      expect.arrayContaining([
        "README.md",
        ...sample.book.worksheets.map(({ name }) => `${name}.md`),
        "register.md",
        "bibliography.md",
        "glossary.md",
      ]),
    );
    for (const [name, text] of pages()) expect(text, name).toMatch(/^# \S/);
  });

  it("holds no HTML, and no character that a parser would have to be told of", () => {
    for (const [name, text] of pages()) {
      expect(
        nodesOf(text).filter(({ type }) => type === "html"),
        name,
      ).toEqual([]);
      expect(text, name).not.toMatch(/&#x|[\u2007\u2008]|undefined|\[object/);
    }
  });

  it("links only to files and pictures that are there, and to the web by https", () => {
    for (const [name, text] of pages()) {
      for (const { type, url = "" } of nodesOf(text)) {
        if (type === "link" && !/^https?:/.test(url)) expect(Object.keys(files), `${name}: ${url}`).toContain(url);
        if (type === "image") expect(files[url], `${name}: ${url}`).toMatch(/^<svg[^>]* xmlns="http:\/\/www\.w3\.org\/2000\/svg"/);
      }
    }
    const pictures = Object.keys(files).filter((name) => name.endsWith(".svg"));
    expect(pictures.filter((name) => pages().some(([, text]) => text.includes(`(${name})`)))).toEqual(pictures);
    expect(pictures.length).toBeGreaterThan(inFull(12, 4));
  });

  it("gives every law in LaTeX that can be typeset, its numbers written in", () => {
    const all = pages().flatMap(([, text]) => nodesOf(text).filter(({ type }) => type === "math" || type === "inlineMath"));
    const typeset = prepared.sheets.flatMap(({ markup }) => [...markup.text.matchAll(/<math/g)]);
    expect(all.length).toBeGreaterThanOrEqual(typeset.length);
    for (const { value = "" } of all) {
      expect(() => katex.renderToString(value, { throwOnError: true, strict: false }), value).not.toThrow();
      expect(value).not.toMatch(/@\d+@|⟦/);
    }
  });

  it.runIf(isFull)("keeps laws as math, numbers as text and tables as tables", () => {
    const kinds = nodesOf(page("indicators.md")).map(({ type }) => type);
    expect(kinds.filter((kind) => kind === "math").length).toBeGreaterThan(20);
    expect(kinds.filter((kind) => kind === "table").length).toBeGreaterThan(8);
    const laws = nodesOf(page("indicators.md")).flatMap(({ type, value }) => (type === "math" ? [value] : []));
    expect(laws).toContain("I_{0} = \\frac{V_{\\mathrm{s}}}{R}");
    expect(page("README.md")).toMatch(
      /\| \*\*run-new\*\* .*\| .*12\u00a0h; for 95 % of units \| \[[\d.]+\u00a0h\]\(battery\.md\); for 95\u00a0% of units .*✓ holds for 95 %.* \|/,
    );
    expect(page("register.md")).toMatch(/`rails\.positive\.voltage`.*4\.5\sV\s±2\s%/);
    expect(page("indicators.md")).toContain("**10 points, forward current against forward voltage, indicators.red.iv**");
    expect(page("parts.md")).not.toContain("logic");
    expect(page("indicators.md")).toMatch(/\*\*worst case\*\*: \d/);
  });

  it.runIf(isFull)(
    "asks first what stands behind requirements that do not hold in the worst case, each given once, invented ones too",
    () => {
      const { requirements, evaluation } = sample.made();
      const thin = requirements.flatMap(({ row, answers }) =>
        answers.some(({ node }) => evaluation.verdict(node, row.limit, row.judged).verdict !== "holds") ? [row.id] : [],
      );
      const asked = [...page("questions.md").matchAll(/^\d+\. \[(.+?)\]\(\w+\.md\), (from memory|invented): (.+)$/gm)].map(
        ([, given, , behind = ""]) => {
          const shares = [...behind.matchAll(/([\d.]+)\u00a0% behind \[?([\w-]+)/g)].map(([, share, id = ""]) => ({
            share: Number(share),
            id,
          }));
          return {
            given,
            thin: shares.some(({ id }) => thin.includes(id)),
            shares,
          };
        },
      );
      expect(asked.length).toBeGreaterThan(15);
      expect(thin.length).toBeLessThan(requirements.length / 2);
      expect(asked[0]?.given).toMatch(/resistance that slow diffusion adds/);
      expect(new Set(asked.map(({ given }) => given)).size).toBe(asked.length);
      expect(asked.map(({ thin }) => thin)).toEqual(asked.map(({ thin }) => thin).toSorted((a, b) => Number(b) - Number(a)));
      expect(asked.flatMap(({ shares }) => shares.map(({ share }) => share)).every((share) => share >= 3)).toBe(true);
      expect(page("questions.md")).toContain("invented: ");
    },
  );

  it("leaves out what only a page can do", () => {
    for (const [name, text] of pages()) expect(text, name).not.toMatch(/sheet\.given\(|Skip to the content/);
  });

  it("has the same bytes every time", { timeout: 900_000 }, () => {
    const anew = () => made(prepareBook(bookOf(pair.book.worksheets).made()));
    expect(anew()).toEqual(isFull ? anew() : files);
  });
});
