import { createHash } from "node:crypto";
import { beforeAll, describe, expect, it } from "vitest";
import { packed } from "../../lib/document/policy";
import { prepareBook } from "../../lib/document/publish";
import { showText } from "../../lib/document/text/show";
import type { GivenNode } from "../../lib/graph/node";
import { codeCell, design, evaluation, lampSheet, markdownCell, notebook } from "./fixture";
import { fixtureBook, fixturePlots, packedIn, pageAssets, publishFixture, withShown } from "./make";

let markup: string;
/** The document without its program and data. */
let body: string;
beforeAll(async () => {
  markup = await publishFixture();
  body = withShown(markup).slice(markup.indexOf("<body>")).split('<script type="application/octet-stream"')[0] ?? "";
});

const count = (pattern: RegExp) => [...body.matchAll(pattern)].length;

describe("publishBook", () => {
  it("makes the same bytes each time", async () => {
    expect(await publishFixture()).toBe(markup);
  });

  it("has the same content wherever the book lies, and another where a text changed", () => {
    const content = (root: string, title = "The lamp") => {
      // The book as `workings publish` reads it, which knows its folder.
      const book = { title, revision: "3", root, path: `${root}/notebooks/book.yaml`, design: `${root}/data/lamp/design.yaml` };
      return prepareBook(fixtureBook(undefined, book), fixturePlots).content;
    };
    expect(content("/home/one")).toEqual(content("/srv/other/deeper"));
    expect(content("/home/one").hash).not.toBe(content("/home/one", "Another lamp").hash);
  });

  it("tells in the register that a given varies with one that no sheet reads, by its path", () => {
    const given = design.given("supply.high") as GivenNode;
    const node: GivenNode = { ...given, id: "givens.supply.high", shared: [{ with: "givens.supply.other", weight: 0.8 }] };
    const shown = { sheet: "lone", block: { type: "givens", rows: [{ symbol: "V", node: node.id }] }, nodes: [node] } as const;
    const { back } = prepareBook(fixtureBook([{ name: "lone", notebook: notebook([codeCell("given", [shown])]) }]), fixturePlots);
    expect(back.find(({ id }) => id === "register")?.markup.text).toContain("varies with supply.other");
  });

  it("allows by its policy exactly the script and the styles that it holds", () => {
    const policy = /http-equiv="Content-Security-Policy" content="([^"]*)"/.exec(markup)?.[1]?.replaceAll("&#39;", "'") ?? "";
    const hash = (text: string) => `'sha256-${createHash("sha256").update(text).digest("base64")}'`;
    const hashes = (element: string) =>
      [...markup.matchAll(new RegExp(`<${element}>([\\s\\S]*?)</${element}>`, "g"))].map(([, text = ""]) => hash(text));
    // The program that the start unpacks, and the start.
    expect(policy).toContain(`script-src ${hash(packedIn(markup, "program"))} ${hashes("script").join(" ")};`);
    expect(policy).toContain(`style-src ${hashes("style").join(" ")};`);
    // The style, the foot of printed pages, what a reader without scripts sees.
    expect(hashes("style")).toHaveLength(3);
    expect(policy).toMatch(/^default-src 'none'; .*worker-src blob:; img-src data:/);
    expect(policy).not.toContain("unsafe");
  });

  it("holds no inline style, no event handler, no address that is fetched", () => {
    expect(body).not.toMatch(/<[^>]*\sstyle=/);
    expect(body).not.toMatch(/<[^>]*\son\w+=/);
    expect(body).not.toMatch(/<(?:link|iframe|img|object|embed|use)\b/);
    expect(body).not.toMatch(/\ssrc=/);
  });

  it("has one h1, a language, a skip link, and every id once", () => {
    expect(count(/<h1[ >]/g)).toBe(1);
    expect(markup).toContain('<html lang="en">');
    expect(markup).toContain('<a class="skip" href="#content">');
    const ids = [...body.matchAll(/\sid="([^"]+)"/g)].map(([, id]) => id);
    expect(ids.filter((id, index) => ids.indexOf(id) !== index)).toEqual([]);
  });

  it("links only to places that exist", () => {
    const ids = new Set([...body.matchAll(/\sid="([^"]+)"/g)].map(([, id]) => id));
    const missing = [...body.matchAll(/href="#([^"]+)"/g)].map(([, id = ""]) => id).filter((id) => !ids.has(id));
    expect(missing).toEqual([]);
  });

  it("shows each requirement with limit, result, margin and verdict, those that nothing computes apart", () => {
    const [answered = "", open = ""] = [...markup.matchAll(/<table class="stacking verdicts">[\s\S]*?<\/table>/g)].map(([table]) => table);
    expect([...answered.matchAll(/<tr>/g)]).toHaveLength(3);
    expect(answered).toMatch(/≥\s1\.4\smA/);
    expect([...open.matchAll(/<tr>/g)]).toHaveLength(2);
    expect(open).toContain("nothing computes it");
    expect(markup).toContain("2 of 3 requirements hold; no sheet computes 1 of them yet.");
  });

  it("binds the numbers in a law to their nodes", () => {
    expect(body).toMatch(/<mfrac><mrow><mn data-node="givens.supply.high" data-show="nominal" data-unit="V">4\.5\sV<\/mn><mo>−<\/mo>/);
    expect(body).not.toContain("⟦");
    expect(body).not.toContain("annotation");
  });

  it("shows the computed value where a link was written as a number, and keeps the words of one in words", () => {
    const current = showText({ node: "lamp.I", show: "result", unit: "mA" }, evaluation());
    expect(current).toMatch(/^2\.01\smA$/);
    const link = /hence a current of <a class="computed" href="[^"]+"><span data-node="lamp.I"[^>]*>([^<]*)<\/span><\/a>/.exec(body);
    expect(link?.[1]).toBe(current);
    expect(body).toMatch(/<a class="computed" href="[^"]+">the current<\/a>/);
  });

  it("says of a frozen result that it does not follow", () => {
    expect(markup).toContain("Frozen: made from a plain number");
  });

  it("folds code, marks values from memory, and names design file, revision and content", () => {
    expect(count(/<details class="code">/g)).toBe(13);
    expect(markup).toContain('<span class="memory">from memory</span>');
    expect(markup).toMatch(/<dd>data\/lamp\/design\.yaml<\/dd>/);
    expect(markup).toMatch(/@bottom-left\{content:"The\\20 lamp/);
  });

  it("changes its content hash with the content", async () => {
    const hash = (text: string) => /<dt>Content<\/dt><dd>([0-9a-f]{12})<\/dd>/.exec(text)?.[1];
    const other = await publishFixture([
      { name: "lamp", notebook: notebook([...(lampSheet.notebook.cells as unknown[]), markdownCell("More.")]) },
    ]);
    expect(hash(other)).toMatch(/^[0-9a-f]{12}$/);
    expect(hash(other)).not.toBe(hash(markup));
  });

  it("costs a sheet little beside the program", async () => {
    const { script, style } = await pageAssets();
    expect(markup.length - packed(script).length - style.length).toBeLessThan(120_000);
  });
});
