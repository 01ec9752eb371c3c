import type { Browser } from "playwright-core";
import remarkGfm from "remark-gfm";
import remarkMath from "remark-math";
import remarkParse from "remark-parse";
import { unified } from "unified";
import { beforeAll, describe, expect, it } from "vitest";
import { markdownFiles } from "../../lib/document/export/markdown-book";
import { prepareBook } from "../../lib/document/publish";
import type { GraphNode } from "../../lib/graph/node";
import { displayType } from "../../lib/sheet/block";
import { noChromium, open, settled, sharedBrowser, turnTo } from "./browser";
import { codeCell, display, markdownCell, nodes, notebook } from "./fixture";
import { fixtureBook, fixturePlots, publishFixture } from "./make";

interface TreeNode {
  readonly type: string;
  readonly url?: string;
  readonly children?: readonly TreeNode[];
}

const attack = `<script>window.hacked = 1</script><img src=x onerror="window.hacked = 2"><svg onload="window.hacked = 3">`;
const closing = `</script></style></title></textarea>${attack}`;

function evil(node: GraphNode): GraphNode {
  return { ...node, meaning: `${attack}${node.meaning ?? ""}`, symbol: `x_"><script>window.hacked=4</script>` };
}

const hostileName = `lamp"><script>window.hacked=5</script>`;
const evilNodes = nodes.map((node) => (node.kind === "constant" ? node : evil(node)));
const shown = (block: Parameters<typeof display>[0]) => ({ ...display(block, hostileName), nodes: evilNodes });

const sheet = {
  name: hostileName,
  notebook: notebook([
    markdownCell(
      `# Title ${attack}\n\n${closing}\n\n[link](javascript:window.hacked=6) ![i](http://example.invalid/x.png) <a href="javascript:window.hacked=7" onclick="window.hacked=8">x</a>\n\n$\\href{javascript:window.hacked=9}{x} <script>$ and \`<b>\``,
    ),
    codeCell(closing, [
      shown({
        type: "givens",
        rows: [
          { symbol: attack, node: "givens.supply.high" },
          { symbol: "c", node: "givens.lamp.curve" },
        ],
      }),
      shown({ type: "result", node: "lamp.I", law: `\\text{${attack}} \\html@mathml{a}{b}`, model: closing, source: closing }),
      shown({ type: "caution", subject: attack, text: closing }),
      shown({
        type: "plot",
        name: attack,
        caption: closing,
        x: { label: attack, unit: "V", scale: "linear" },
        y: { label: closing, unit: "mA", scale: "linear" },
        series: [{ label: attack, curve: "lamp.I-over-forward" }],
        rules: [{ axis: "y", label: closing, value: 0.002 }],
      }),
      shown({
        type: "decision",
        name: attack,
        question: closing,
        choice: "decisions.lamp.rail",
        criteria: [{ name: "I", label: attack, better: "higher" }],
        alternatives: [
          { name: "low", label: attack, values: { I: "lamp.rail[low].I" } },
          { name: "high", label: closing, values: { I: "lamp.rail[high].I" } },
        ],
        reason: closing,
        reconsider: attack,
      }),
    ]),
    {
      cell_type: "code",
      source: "1",
      outputs: [
        { output_type: "stream", name: "stdout", text: [closing] },
        { output_type: "error", ename: attack, evalue: closing, traceback: [] },
        { output_type: "display_data", data: { "text/html": attack, "image/svg+xml": attack } },
        { output_type: "display_data", data: { "image/png": `"><script>window.hacked=10</script>` } },
        null,
        7,
      ],
    },
    null,
    "cell",
    { cell_type: attack },
  ]),
};

describe("a damaged output", () => {
  it.each([
    [
      "of an unknown type",
      { version: 2, sheet: "lamp", block: { type: closing }, nodes: [] },
      "block is of no type that this library knows",
    ],
    ["of no version", attack, "is no mapping"],
    ["without its lists", { version: 2, sheet: "lamp", block: { type: "givens" }, nodes: [] }, "block.rows is no list"],
    ["without nodes", { version: 2, sheet: "lamp", block: { type: "caution", subject: "a", text: "b" } }, "nodes is no list"],
  ])("%s is refused with its place and the way out", async (_, data, reason) => {
    const cell = { cell_type: "code", source: "1", outputs: [{ output_type: "display_data", data: { [displayType]: data } }] };
    const making = publishFixture([{ name: "lamp", notebook: notebook([cell]) }]);
    await expect(making).rejects.toThrow(/^lamp, cell 1: its output was edited, .*; workings run lamp makes it anew$/);
    await expect(making).rejects.toThrow(reason);
  });
});

let making: Promise<string> | undefined;
const hostile = () => {
  making ??= publishFixture([sheet]);
  return making;
};

describe("a hostile notebook", () => {
  it("leaves no tag of its own in the document", async () => {
    const markup = await hostile();
    const body = markup.slice(0, markup.indexOf('<script type="application/octet-stream"'));
    expect(body.match(/<script/g)).toBeNull();
    const tags = body.match(/<[a-z](?:[^<>"]|"[^"]*")*>/gi) ?? [];
    expect(tags.length).toBeGreaterThan(100);
    expect(tags.filter((tag) => /\son\w+=/i.test(tag.replace(/"[^"]*"/g, '""')))).toEqual([]);
    expect(tags.filter((tag) => /^<img.*src="(?!data:)/i.test(tag) || /(?:href|src)="\s*javascript:/i.test(tag))).toEqual([]);
    expect(markup.match(/<script/g)).toHaveLength(3);
  });

  it("leaves no HTML of its own in the Markdown, and no link but to its files", () => {
    const files = markdownFiles(prepareBook(fixtureBook([sheet]), fixturePlots), "svg { fill: none }") as Record<string, string>;
    const parser = unified().use(remarkParse).use(remarkGfm).use(remarkMath);
    const every = (node: TreeNode): TreeNode[] => [node, ...(node.children ?? []).flatMap(every)];
    for (const [name, text] of Object.entries(files)) {
      if (name.endsWith(".svg")) {
        expect(text, name).not.toMatch(/<script|<foreignObject/i);
        const tags = (text.match(/<[a-z](?:[^<>"]|"[^"]*")*>/gi) ?? []).map((tag) => tag.replace(/="(?!#)[^"]*"/g, '=""'));
        expect(tags.join(""), name).not.toMatch(/\son\w+=|href=""/i);
        continue;
      }
      const nodes = every(parser.parse(text) as TreeNode);
      expect(
        nodes.filter(({ type }) => type === "html"),
        name,
      ).toEqual([]);
      const targets = nodes.flatMap(({ type, url = "" }) => (type === "link" || type === "image" ? [url] : []));
      expect(
        targets.filter((url) => files[url] === undefined && !/^https?:/.test(url)),
        name,
      ).toEqual([]);
    }
  });

  describe.skipIf(noChromium)("in a browser", () => {
    let browser: Browser;
    beforeAll(async () => {
      browser = await sharedBrowser();
    });

    it("runs nothing, requests nothing, breaks no policy; and the page still lives", async () => {
      const { page, requests, console, close } = await open(browser, await hostile());
      await turnTo(page, "input.field");
      const field = page.locator("input.field").first();
      await field.fill("4.4 V");
      await field.press("Tab");
      await settled(page);
      await page.locator("#changes summary").click();
      expect(await page.evaluate(() => (globalThis as { hacked?: number }).hacked)).toBeUndefined();
      expect(requests).toEqual([]);
      expect(console).toEqual([]);
      // Data, the packed program, what starts it, and the program.
      expect(await page.locator("script").count()).toBe(4);
      expect(await page.locator("main [onerror], main [onload], main [onclick]").count()).toBe(0);
      await close();
    });
  });
});
