/** A kind of block that nobody has heard of: its one entry brings it into the notebook, the results, the Markdown and the page. */
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { bookResults } from "../../lib/book/results";
import { readDesign } from "../../lib/design/read";
import { csvFiles } from "../../lib/document/export/csv";
import { markdownFiles } from "../../lib/document/export/markdown-book";
import { renderPart } from "../../lib/document/model/parts";
import { shownNumbers } from "../../lib/document/model/shown-numbers";
import { prepareBook } from "../../lib/document/publish";
import { renderPage } from "../../lib/document/render-page";
import { missingPictures } from "../../lib/document/sheet/pictures";
import type { Json } from "../../lib/kernel/python-json";
import type { Block } from "../../lib/sheet/block";
import { valueText } from "../../lib/sheet/block-words";
import { type Kind, kinds } from "../../lib/sheet/kinds";
import { Session } from "../../lib/sheet/session";
import { fields, node, text } from "../../lib/sheet/shape";
import { Worksheet } from "../../lib/sheet/worksheet";
import { volt } from "../../lib/units";
import { madeBook } from "../book/made";
import { fixturePlots } from "./make";

interface Remark {
  readonly type: "remark";
  readonly words: string;
  readonly node: string;
}

const entry: Kind<never> = {
  shape: fields({ words: text, node }),
  owns: ({ node }: Remark) => [node],
  numbers: ({ node }: Remark) => [{ nodes: [node], shows: ["worst"] }],
  prose: ({ words }: Remark) => [words],
  words: ({ words, node }: Remark, said) => [`${words}: ${valueText(said, node)}`],
} as Kind<never>;

const design = readDesign(
  `product: { name: Lamp, revision: "1" }
sources: { own: { type: document, title: Made up for this test } }
givens:
  rail: { value: 5 V ±2 %, meaning: a rail, source: own }
`,
  "design.yaml",
);

const sinkKey = Symbol.for("workings.display");
const shared = globalThis as Record<symbol, unknown>;

describe("a kind of block that is added by its entry alone", () => {
  const outputs: { data: Record<string, Json> }[] = [];
  beforeAll(() => {
    Object.assign(kinds, { remark: entry });
    shared[sinkKey] = (output: (typeof outputs)[number]) => outputs.push(output);
    const sheet = new Worksheet(new Session("lamp", design));
    const { V } = sheet.given({ V: ["rail", volt] });
    const remark: Remark = { type: "remark", words: "Mind <this> ![drawn](lost.png)", node: sheet.session.enter(V) };
    sheet.session.show(remark as unknown as Block);
    sheet.publish({ V: V });
  });
  afterAll(() => {
    delete shared[sinkKey];
    delete (kinds as Record<string, unknown>).remark;
  });

  const book = () => {
    const cells = outputs.map((output, index) => ({
      cell_type: "code",
      id: `c${index}`,
      source: "show()",
      outputs: [{ output_type: "display_data", metadata: {}, ...output }],
    }));
    return madeBook([{ name: "lamp", notebook: { cells } }], design);
  };
  const line = "Mind &lt;this&gt; ![drawn](lost.png): 5\u00a0V";

  it("says its words in the notebook", () => {
    expect(outputs[1]?.data["text/plain"]).toBe("Mind <this> ![drawn](lost.png): 5\u00a0V");
  });

  it("is read back, and its nodes with it; one that does not hold what it must is refused", () => {
    expect(book().blocks["lamp/1"]).toMatchObject({ type: "remark", node: "givens.rail" });
    expect(bookResults(book()).sheets.lamp?.V).toMatchObject({ value: 5, unit: "V" });
    expect(csvFiles(book()).results).toContain("lamp.V");
    const display = outputs[1]?.data["application/vnd.workings+json"] as { block: Record<string, unknown> };
    const { words, ...rest } = display.block;
    display.block = rest;
    expect(book).toThrow("lamp, cell 2: its output was edited, or is of another version of this library: block.words is no text");
    display.block = { ...rest, words };
  });

  it("stands in the page, and is rendered anew there after a change; its numbers are among those that a change is told by", () => {
    const html = renderPage(prepareBook(book(), fixturePlots).content, { script: "", start: "", style: "", notices: "" });
    expect(html).toContain(`<div class="block remark"><span></span><div data-part="words" data-ref="lamp/1"><p>${line}</p></div></div>`);
    const { evaluation, blocks, graph } = book();
    const view = { book: { blocks, requirements: [] }, evaluation } as unknown as Parameters<typeof renderPart>[2];
    expect(renderPart("words", "lamp/1", view).text).toBe(`<p>${line}</p>`);
    expect(shownNumbers([blocks["lamp/1"] as Block], graph)).toEqual([{ node: "givens.rail", show: "worst", unit: "V" }]);
  });

  it("stands in the Markdown, and what its text lacks is told", () => {
    expect(markdownFiles(prepareBook(book(), fixturePlots), "")["lamp.md"]).toMatch(/Mind \\?<this> !.*lost\.png\): 5.V/);
    expect(missingPictures(book())).toEqual(["picture lost.png: only the text of a notebook has pictures beside it (lamp, code cell 2)"]);
  });
});
