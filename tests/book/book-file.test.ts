import { mkdirSync, mkdtempSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { parseBookFile, readBookFile } from "../../lib/book/book-file";
import { findBook } from "../../lib/sheet/find-book";
import { sheetName } from "../../lib/sheet/project";

/** A book's folder with a design and two sheets. */
function folder(): string {
  const root = mkdtempSync(join(tmpdir(), "book-"));
  mkdirSync(join(root, "notebooks"));
  mkdirSync(join(root, "data"));
  for (const file of ["data/design.yaml", "notebooks/01-brief.ipynb", "notebooks/02-light é.ipynb"]) writeFileSync(join(root, file), "");
  return root;
}

const lines = (...more: string[]) => ["title: T", 'revision: "A"', "design: ../data/design.yaml", ...more, ""].join("\n");
const message = (root: string, text: string) => {
  try {
    parseBookFile(text, join(root, "notebooks/book.yaml"));
  } catch (error) {
    return (error as Error).message;
  }
  return "accepted";
};

describe("parseBookFile", () => {
  it("reads title, people, design and worksheets in order", () => {
    const root = folder();
    const book = parseBookFile(
      lines("prepared by: design", "worksheets:", "  - 02-light é.ipynb", "  - 01-brief.ipynb"),
      join(root, "notebooks/book.yaml"),
    );
    expect(book).toMatchObject({ title: "T", revision: "A", preparedBy: "design", design: join(root, "data/design.yaml"), root });
    expect(book.checkedBy).toBeUndefined();
    expect(book.worksheets.map(({ name }) => name)).toEqual(["light é", "brief"]);
  });

  it("lists every error with its line and column", () => {
    const told = message(folder(), lines("titel: x", "worksheets:", "  - 03-none.ipynb", "  - brief.txt", "  - ../../out.ipynb")).split(
      "\n",
    );
    expect(told).toEqual([
      "notebooks/book.yaml has 4 errors",
      expect.stringMatching(/^notebooks\/book\.yaml:4:1: unknown key 'titel' in the book;.*did you mean 'title'\?$/),
      "notebooks/book.yaml:6:5: the file notebooks/03-none.ipynb does not exist; expected an existing file; mend the path, which starts from the folder of book.yaml",
      'notebooks/book.yaml:7:5: "brief.txt" is no worksheet; expected the file name of a notebook; write a name that ends in .ipynb',
      expect.stringMatching(/^notebooks\/book\.yaml:8:5: the path leads out of the book's folder/),
    ]);
  });

  it("reads groups of sheets, in reading order", () => {
    const root = folder();
    const sheets = ["worksheets:", "  - 01-brief.ipynb", "  - 02-light é.ipynb"];
    const read = (...groups: string[]) => parseBookFile(lines(...sheets, ...groups), join(root, "notebooks/book.yaml")).groups;
    expect(read()).toEqual([]);
    expect(read("groups:", "  All of it: [light é, brief]")).toEqual([{ title: "All of it", sheets: ["brief", "light é"] }]);
  });

  it("refuses a group of a sheet that is none, a sheet in two groups, twice in one or in none, and an empty group", () => {
    const told = (...groups: string[]) => message(folder(), lines("worksheets: [01-brief.ipynb, 02-light é.ipynb]", "groups:", ...groups));
    expect(told("  A: [brief, light é, brieff]")).toMatch(
      /^notebooks\/book\.yaml:6:23: the group 'A' names "brieff", which is no sheet of the book;.*did you mean 'brief'\?/,
    );
    expect(told("  A: [brief, light é]", "  B: [brief]")).toMatch(
      /^notebooks\/book\.yaml:7:7: the sheet 'brief' is in the groups 'A' and 'B'/,
    );
    expect(told("  A: [brief, brief, light é]")).toMatch(/the sheet 'brief' is twice in the group 'A'/);
    expect(told("  A: [brief]")).toMatch(/^notebooks\/book\.yaml:6:3: the sheet 'light é' is in no group/);
    expect(told("  A: [brief, light é]", "  B: []")).toMatch(/the group 'B' has no list of sheets/);
    expect(told("  A: [brief, light é]", "  A: [brief]")).not.toBe("accepted");
    expect(message(folder(), lines("worksheets: [01-brief.ipynb]", "groups: brief"))).toMatch(/groups is no mapping/);
  });

  it("refuses two sheets of one name, a missing key, malformed YAML and a list that is none", () => {
    const root = folder();
    writeFileSync(join(root, "notebooks/2-brief.ipynb"), "");
    expect(message(root, lines("worksheets:", "  - 01-brief.ipynb", "  - 2-brief.ipynb"))).toMatch(
      /^notebooks\/book\.yaml:6:5: 2-brief\.ipynb and 01-brief\.ipynb are both the sheet 'brief'/,
    );
    expect(message(root, "title: T\n")).toMatch(/has no revision.*has no design.*has no worksheets/s);
    expect(message(root, lines("worksheets: [01-brief.ipynb"))).toMatch(/^notebooks\/book\.yaml:\d+:\d+: malformed YAML/);
    expect(message(root, lines("worksheets: 01-brief.ipynb"))).toContain("worksheets is no list");
  });
});

describe("findBook", () => {
  it("looks in the folder, its notebooks, and upwards", () => {
    const root = folder();
    writeFileSync(join(root, "notebooks/book.yaml"), lines("worksheets: [01-brief.ipynb]"));
    expect(findBook(root)).toBe(join(root, "notebooks/book.yaml"));
    expect(findBook(join(root, "data"))).toBe(join(root, "notebooks/book.yaml"));
    expect(readBookFile(findBook(join(root, "notebooks"))).worksheets).toHaveLength(1);
  });

  it("says what to do where there is none", () => {
    expect(() => findBook("/")).toThrow(/no book\.yaml in .*say which book with --book/);
  });
});

describe("sheetName", () => {
  it("leaves out folder, number and extension", () => {
    expect(["notebooks/03-indicators.ipynb", "indicators", "12-rf-filter.ipynb", "rf-filter"].map(sheetName)).toEqual([
      "indicators",
      "indicators",
      "rf-filter",
      "rf-filter",
    ]);
  });
});
