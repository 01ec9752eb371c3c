import { describe, expect, it } from "vitest";
import { Footnotes } from "../../lib/document/text/footnotes";
import { html } from "../../lib/document/text/html";

describe("Footnotes", () => {
  it("tell each text once and call it by its letter", () => {
    const notes = new Footnotes("n");
    const marks = ["one", "two", "one"].map((text) => notes.mark(html`${text}`).text.replace(/<[^>]+>/g, ""));
    expect(marks).toEqual(["a", "b", "a"]);
    expect(notes.list().text.match(/<li id="n-[ab]">/g)).toEqual(['<li id="n-a">', '<li id="n-b">']);
  });
  it("go on after z, and list nothing where there are none", () => {
    const notes = new Footnotes("n");
    expect(notes.list().text).toBe("");
    const marks = Array.from({ length: 28 }, (_, index) => notes.mark(html`${index}`).text.replace(/<[^>]+>/g, ""));
    expect(marks.slice(25)).toEqual(["z", "aa", "ab"]);
  });
});
