/**
 * Every plot and drawing of the demo book as a stored picture: a change of a byte is seen, and looked at, before it is kept (vitest -u
 * keeps it). Colours of the page's style are left out of them.
 */
import { readdirSync } from "node:fs";
import { join } from "node:path";
import { beforeAll, describe, expect, it } from "vitest";
import { markdownFiles } from "../../lib/document/export/markdown-book";
import { type PreparedBook, prepareBook } from "../../lib/document/publish";
import { madeBook } from "../book/made";
import { pair, sample } from "../demo-book";
import { inFull, isFull } from "../full";
import { noChromium, open, sharedBrowser } from "./browser";
import { pageAssets } from "./make";

function picturesOf(book: PreparedBook): Record<string, string> {
  const files = Object.entries(markdownFiles(book, "") as Record<string, string>);
  const pictures = files.filter(([name]) => name.startsWith("figures/")).map(([name, text]) => [name.slice("figures/".length), text]);
  // The front page's drawings are of the whole book.
  return Object.fromEntries(pictures.filter(([name]) => isFull || !name?.startsWith("README-")));
}

const folder = join(__dirname, "gallery");

describe("the gallery", () => {
  let book: PreparedBook;
  let shown: Record<string, string> = {};
  beforeAll(() => {
    book = prepareBook(sample.made());
    shown = picturesOf(book);
  });

  it("shows every plot and drawing as it is stored", async () => {
    expect(Object.keys(shown).length).toBeGreaterThan(inFull(15, 3));
    for (const [name, text] of Object.entries(shown)) await expect(text).toMatchFileSnapshot(join(folder, name));
  });

  it.runIf(isFull)("stores no picture that the book no longer has", () => {
    expect(readdirSync(folder).sort()).toEqual(Object.keys(shown).sort());
  });

  it.runIf(isFull)("draws the same when the sheets are read in another order, and without the other sheets", { timeout: 600_000 }, () => {
    const again = Object.entries(picturesOf(prepareBook(madeBook(pair.sheets().toReversed(), pair.design))));
    const drawn = again.filter(([name]) => !name.startsWith("README-"));
    expect(drawn.length).toBeGreaterThan(8);
    for (const [name, text] of drawn) expect(text === shown[name], name).toBe(true);
  });

  it.skipIf(noChromium)("lays no name in a plot over a curve or another name", { timeout: 60_000 }, async () => {
    const browser = await sharedBrowser();
    const { page, close } = await open(browser, "", {}, false);
    let names = 0;
    for (const [name, svg] of Object.entries(shown).filter(([, text]) => text.includes("mark-text"))) {
      await page.setContent(svg);
      const found = await page.evaluate<{ names: number; covered: string[] }>(covered);
      expect(found.covered, name).toEqual([]);
      names += found.names;
    }
    await close();
    expect(names).toBeGreaterThan(inFull(30, 3));
  });

  it.skipIf(noChromium || !isFull).each([
    ["screen", 1280],
    ["screen", 390],
    ["print", 673],
  ] as const)(
    "keeps the product's names and figures inside their boxes, on %s %i px wide, no smaller than 6.5 pt",
    async (media, width) => {
      const [browser, { style }] = await Promise.all([sharedBrowser(), pageAssets()]);
      const markup = `<!doctype html><meta charset="utf-8"><style>${style}</style><main>${book.content.product.text}</main>`;
      const { page, close } = await open(browser, markup, { viewport: { width, height: 900 } }, false);
      await page.emulateMedia({ media });
      const texts = await page.evaluate<Measured[]>(measured);
      await close();
      expect(texts.length).toBeGreaterThan(50);
      expect(texts.filter(({ inside }) => !inside)).toEqual([]);
      expect(Math.min(...texts.map(({ pt }) => pt))).toBeGreaterThanOrEqual(6.5);
    },
  );
});

interface Measured {
  readonly text: string;
  readonly inside: boolean;
  readonly pt: number;
}

/** In the page: of each text in a box of the product's drawings whether it stands inside, and how large it is shown. */
const measured = `[...document.querySelectorAll(".product g")].flatMap((group) => {
  const box = group.querySelector("rect").getBBox();
  return [...group.querySelectorAll("text")].flatMap((element) => {
    const { x, y, width, height } = element.getBBox();
    if (width === 0) return [];
    const inside = x >= box.x + 2 && x + width <= box.x + box.width - 2 && y >= box.y && y + height <= box.y + box.height;
    const pt = parseFloat(getComputedStyle(element).fontSize) * element.getScreenCTM().a * 0.75;
    return [{ text: element.textContent, inside, pt }];
  });
})`;

/** In the page: the names in a plot that a curve runs through, or another name; their line's height is a little more than the letters'. */
const covered = `(() => {
  const names = [...document.querySelectorAll(".mark-text.role-mark text")].map((element) => ({ text: element.textContent, box: element.getBoundingClientRect() }));
  const isIn = ({ x, y }, box) => x > box.left && x < box.right && y > box.top + 2 && y < box.bottom - 2;
  const overlap = (a, b) => a.left < b.right && b.left < a.right && a.top + 2 < b.bottom - 2 && b.top + 2 < a.bottom - 2;
  const points = [...document.querySelectorAll(".mark-line.role-mark path")].flatMap((path) => {
    const length = Math.floor(path.getTotalLength());
    return Array.from({ length: length + 1 }, (_, at) => path.getPointAtLength(at).matrixTransform(path.getScreenCTM()));
  });
  const crossed = names.filter(({ box }) => points.some((point) => isIn(point, box)));
  const doubled = names.filter((one) => names.some((other) => other !== one && overlap(one.box, other.box)));
  return { names: names.length, covered: [...crossed, ...doubled].map(({ text }) => text) };
})()`;
