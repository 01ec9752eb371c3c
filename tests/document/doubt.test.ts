/** Assumptions that a change refutes are told, and what rests on them is marked. */
import { describe, expect, it } from "vitest";
import type { Evaluation } from "../../lib/analysis/evaluation";
import { unconfirmed, unconfirmedText } from "../../lib/document/live/confirmation";
import { bookData } from "../../lib/document/model/assemble";
import { view } from "../../lib/document/model/book-data";
import { renderPart } from "../../lib/document/model/parts";
import { bookOf, named } from "../demo-book";

describe("assumptions", { timeout: 60_000 }, () => {
  const book = bookOf(named("brief", "enclosure", "battery")).made();
  const published = book.evaluation;
  const data = bookData(book, { compile: () => ({}), render: () => "" });
  const state = (evaluation: Evaluation) => view(data, evaluation, () => "");
  const blocks = Object.values(data.blocks);

  it("are all confirmed as published, and no verdict is in doubt", () => {
    expect(blocks.filter(({ type }) => type === "confirmation").length).toBeGreaterThan(2);
    expect(unconfirmed(blocks, state(published))).toEqual([]);
    expect(renderPart("verdicts", "book", state(published)).text).not.toContain("not confirmed");
  });

  it("that the usual board refutes are told with both values, and doubted where they are used", () => {
    const heavier = state(published.withChanges({ choices: { "decisions.brief.board": "thick" } }));
    const broken = unconfirmed(blocks, heavier);
    expect(broken.map(({ of }) => of)).toContain("enclosure.assembly");
    expect(broken.map((block) => unconfirmedText(block, heavier)).join("\n")).toMatch(
      /soldered to it \(enclosure\.assembly\): assumed [\d.]+\u00a0g, computed [\d.]+\u00a0g/,
    );
    const rows = renderPart("verdicts", "book", heavier).text.split("<tr>");
    const row = (id: string) => rows.find((text) => text.includes(`id="requirement-${id}"`)) ?? "";
    expect(row("crush")).toContain("rests on an assumption that is not confirmed");
    expect(row("run-new")).not.toContain("not confirmed");
  });
});
