/** The cells of the demo's sheets, as they are read in a notebook and held against its rules. */
import { describe, expect, it } from "vitest";
import { quantityLiterals } from "../../lib/kernel/literals";
import { codeCells } from "../../lib/kernel/notebook";
import { demo } from "../demo-book";

describe.each(demo.sheets())("the cells of $name", ({ notebook }) => {
  const cells = codeCells(notebook).map(({ id, source }) => ({ id, lines: source.split("\n") }));

  it("have fifteen lines at most, none over a hundred characters: Jupyter cuts them at the right edge", () => {
    const wide = cells.flatMap(({ id, lines }) => lines.filter((line) => line.length > 100).map((line) => `${id}: ${line}`));
    const long = cells.filter(({ lines }) => lines.length > 15).map(({ id }) => id);
    expect({ wide, long }).toEqual({ wide: [], long: [] });
  });

  it("have no quantity typed into them", () => {
    expect(quantityLiterals(notebook)).toEqual([]);
  });
});
