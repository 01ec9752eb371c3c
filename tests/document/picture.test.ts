/** Pictures of a notebook's text stand in the document, or it is said why not. */
import { Buffer } from "node:buffer";
import { describe, expect, it } from "vitest";
import { markdownFiles } from "../../lib/document/export/markdown-book";
import { prepareBook } from "../../lib/document/publish";
import { renderPage } from "../../lib/document/render-page";
import { missingPictures } from "../../lib/document/sheet/pictures";
import { markdown } from "../../lib/document/text/markdown";
import { largestPicture, picturesOf } from "../../lib/document/text/picture";
import { fixtureBook, fixturePlots } from "./make";

const heads: Readonly<Record<string, Buffer>> = {
  png: Buffer.from("\x89PNG\r\n\x1a\n and more", "latin1"),
  jpeg: Buffer.from("\xff\xd8\xff\xe0 and more", "latin1"),
  gif: Buffer.from("GIF89a and more", "latin1"),
  webp: Buffer.from("RIFF\x10\x00\x00\x00WEBP and more", "latin1"),
};
const evil = `<?xml version="1.0"?>\n<!-- drawn -->\n<svg width="4" height="4" onload="hacked()"><script>hacked()</script><image href="http://example.invalid/x.png"/><path d="M0 0L4 4" stroke="black"/><foreignObject><p>x</p></foreignObject></svg>`;
const files: Readonly<Record<string, Uint8Array>> = {
  "figures/a b.png": heads.png as Buffer,
  "drawn.svg": Buffer.from(evil),
  "note.txt": Buffer.from("text"),
  "huge.png": Buffer.concat([heads.png as Buffer, Buffer.alloc(largestPicture)]),
};
const read = (path: string) => {
  const found = files[path];
  if (found === undefined) throw new Error("there is no such file");
  return found;
};
const attachments = {
  "image.png": { "image/png": heads.png?.toString("base64") },
  "lines.svg": { "image/svg+xml": evil.split(/(?<=\n)/) },
};
const shown = (source: string) => markdown(source, undefined, picturesOf(attachments, read)).text;
const base64 = (bytes: Uint8Array | undefined) => Buffer.from(bytes ?? []).toString("base64");

describe("a picture in Markdown", () => {
  it.each(Object.entries(heads))("of the kind %s is put in by its first bytes, whatever its name says", (type, bytes) => {
    expect(
      markdown(
        "![shape](x.bin)",
        undefined,
        picturesOf(undefined, () => bytes),
      ).text,
    ).toBe(`<p><img src="data:image/${type};base64,${base64(bytes)}" alt="shape"></p>`);
  });

  it("that was pasted, stands beside the notebook or is named further down is put in", () => {
    const png = `src="data:image/png;base64,${base64(heads.png)}"`;
    for (const target of [
      "![p](attachment:image.png)",
      "![p](figures/a%20b.png#top)",
      "![p](<figures/a b.png>)",
      "![p][ref]\n\n[ref]: attachment:image.png",
    ])
      expect(shown(target), target).toContain(png);
  });

  it("of the kind SVG draws and does nothing else", () => {
    for (const target of ["drawn.svg", "attachment:lines.svg"]) {
      const content = /src="data:image\/svg\+xml;base64,([^"]+)"/.exec(shown(`![d](${target})`))?.[1] ?? "";
      const svg = Buffer.from(content, "base64").toString("utf8");
      expect(svg).toMatch(/^<svg xmlns="http:\/\/www\.w3\.org\/2000\/svg"[\s\S]*<path d="M0 0L4 4"/);
      expect(svg).not.toMatch(/script|onload|example\.invalid|foreignObject|hacked/);
    }
  });

  it.each([
    ["absent.png", "there is no such file"],
    ["attachment:absent.png", "the cell has no attachment of this name; paste it again"],
    ["attachment:toString", "the cell has no attachment of this name; paste it again"],
    ["note.txt", "it is no PNG, JPEG, GIF, WebP or SVG"],
    ["huge.png", "it has 1.0 MB, the limit is 1.0 MB; make it smaller, or a JPEG or WebP of it"],
    ["https://example.invalid/x.png", "a document loads nothing from elsewhere; put the file beside the notebook"],
    ["//example.invalid/x.png", "a document loads nothing from elsewhere; put the file beside the notebook"],
    ["data:text/html;base64,eA==", "a document loads nothing from elsewhere; put the file beside the notebook"],
  ])("%s is told as missing: %s", (target, reason) => {
    expect(shown(`![x](${target})`)).toBe(`<p><em class="missing">picture ${target}: ${reason}</em></p>`);
  });
});

describe("a book", () => {
  const cells = [
    {
      cell_type: "markdown",
      id: "m1",
      metadata: {},
      source: "# Lamp\n\n![pasted](attachment:image.png) ![beside](drawn.svg)",
      attachments,
    },
    { cell_type: "markdown", id: "m2", metadata: {}, source: "![lost & gone](lost.png)" },
  ];
  const book = fixtureBook([{ name: "lamp", notebook: { cells }, picture: read }]);
  const prepared = prepareBook(book, fixturePlots);

  it("holds them in the document, and in its Markdown as files", () => {
    const document = renderPage(prepared.content, { script: "", start: "", style: "", notices: "" });
    expect(document).toContain(`<img src="data:image/png;base64,${base64(heads.png)}" alt="pasted">`);
    const pages = markdownFiles(prepared, "");
    expect(pages["lamp.md"]).toContain("![pasted](figures/lamp-1.png) ![beside](figures/lamp-2.svg)");
    expect(Buffer.from(pages["figures/lamp-1.png"] as Uint8Array)).toEqual(heads.png);
    expect(Buffer.from(pages["figures/lamp-2.svg"] as Uint8Array).toString("utf8")).toContain("<path");
  });

  it("tells those that it lacks, with sheet, cell and reason", () => {
    expect(missingPictures(book)).toEqual(["picture lost.png: there is no such file (lamp, cell m2)"]);
  });
});
