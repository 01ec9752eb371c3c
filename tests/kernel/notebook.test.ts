import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { formatNotebook, largestNotebook, type Notebook, parseNotebook, readNotebook, writeNotebook } from "../../lib/kernel/notebook";
import { pythonNumber, splitLines } from "../../lib/kernel/python-json";
import { notebookOf, scratch } from "./fixture";
import { python, runPython } from "./python";

/** Everything that nbformat treats in its own way. */
function awkward(): Notebook {
  const notebook = notebookOf("# Title\n\nΩ µ “quotes” \\ \u2028 next", "const a = 1;\n\n// end", "");
  notebook.metadata.ünï = { z: 1, a: [], b: {}, "￿": 1, "😀": 2, A: null, n: [1e-7, 0.00001, 1.5e300, 1e21, -0.00012345, 123456789, true] };
  const [markdown, code] = notebook.cells;
  if (markdown?.cell_type !== "markdown" || code?.cell_type !== "code") throw new Error("fixture");
  markdown.attachments = { "a.svg": { "image/svg+xml": "<svg>\n</svg>\n" } };
  code.execution_count = 1;
  code.outputs = [
    { output_type: "stream", name: "stdout", text: "one\r\ntwo\rthree\vfour\x1cfive\x85six\n" },
    { output_type: "stream", name: "stderr", text: "" },
    {
      output_type: "display_data",
      metadata: {},
      data: {
        "text/html": "<b>\n</b>",
        "image/png": "AAAA\nBBBB\n",
        "application/javascript": "a\nb",
        "application/vnd.workings+json": { text: "a\nb", x: [1, 2.5] },
      },
    },
    { output_type: "execute_result", metadata: {}, data: { "text/plain": '\u0001\u007f\t"' }, execution_count: 1 },
    { output_type: "error", ename: "Error", evalue: "x", traceback: ["a\nb"] },
  ];
  return notebook;
}

describe.runIf(python)("a notebook beside Python's nbformat", () => {
  it("has the bytes that nbformat writes after reading it", () => {
    const path = join(scratch(), "awkward.ipynb");
    writeFileSync(path, formatNotebook(awkward()));
    runPython(
      "import nbformat, sys; nb = nbformat.read(sys.argv[1], as_version=4); nbformat.validate(nb); nbformat.write(nb, sys.argv[1] + '.again')",
      [path],
    );
    expect(readFileSync(path, "utf8")).toBe(readFileSync(`${path}.again`, "utf8"));
  });
});

describe("formatNotebook and parseNotebook", () => {
  it("give back the same notebook and the same text", () => {
    const text = formatNotebook(awkward());
    expect(parseNotebook(text, "a.ipynb")).toEqual(awkward());
    expect(formatNotebook(parseNotebook(text, "a.ipynb"))).toBe(text);
  });

  it("leave out what belongs to one session", () => {
    const notebook = notebookOf("1");
    Object.assign(notebook.metadata, { signature: "x", orig_nbformat: 4 });
    Object.assign(notebook.cells[0]?.metadata ?? {}, { trusted: true });
    expect(formatNotebook(notebook)).toBe(formatNotebook(notebookOf("1")));
    expect(notebook.metadata.signature).toBe("x");
  });
});

describe("Python's number and line formats", () => {
  it("write floats as Python's repr does", () => {
    const written = [1e-7, 1.5e-10, 0.0001, 0.00001, 0.000012, 0.1, 1e21, 1.5e100, 100, -0.00002].map(pythonNumber);
    expect(written).toEqual(["1e-07", "1.5e-10", "0.0001", "1e-05", "1.2e-05", "0.1", "1e+21", "1.5e+100", "100", "-2e-05"]);
  });

  it("keep the ends of lines", () => {
    expect(splitLines("a\r\nb\rc\n\nd")).toEqual(["a\r\n", "b\r", "c\n", "\n", "d"]);
    expect(splitLines("")).toEqual([]);
  });
});

describe("parseNotebook refuses, naming file and place,", () => {
  const valid = () => JSON.parse(formatNotebook(notebookOf("# a", "1"))) as { cells: Record<string, unknown>[] } & Record<string, unknown>;
  const message = (text: string) => {
    try {
      parseNotebook(text, "bad.ipynb");
    } catch (error) {
      return (error as Error).message;
    }
    return "accepted";
  };

  it("malformed JSON, with line and column", () => {
    const faults = [
      ['{\n "cells": [,]\n}', '2:12: not a notebook, the JSON is malformed: found "," where a value was expected'],
      ['{\n "cells": [', "2:12: not a notebook, the JSON is malformed: the file ends where a value, or ] was expected"],
      [
        '{"a": "x\ty"}',
        '1:9: not a notebook, the JSON is malformed: found "\\t" where the " that ends the text, or a valid escape was expected',
      ],
      ['{"a" 1}', '1:6: not a notebook, the JSON is malformed: found "1" where : after the name of a member was expected'],
      ["{} x", '1:4: not a notebook, the JSON is malformed: found "x" where the end of the file was expected'],
      ["", "1:1: not a notebook, the JSON is malformed: the file ends where a value was expected"],
      ["[01]", '1:3: not a notebook, the JSON is malformed: found "1" where , or ] was expected'],
    ] as const;
    for (const [text, words] of faults) expect(message(text)).toBe(`bad.ipynb:${words}`);
  });

  it("another format version", () => {
    expect(message(JSON.stringify({ ...valid(), nbformat_minor: 4 }))).toContain("nbformat 4.4 where 4.5 is needed");
    expect(message("[]")).toContain("the file must hold one JSON object");
  });

  it("cells without ids or with one id twice", () => {
    const missing = valid();
    delete missing.cells[1]?.id;
    expect(message(JSON.stringify(missing))).toContain("cell 2 of all 2: has no id");
    const twice = valid();
    Object.assign(twice.cells[1] ?? {}, { id: "m1" });
    expect(message(JSON.stringify(twice))).toContain('its id "m1" is that of cell 1');
  });

  it("cells and outputs of another shape", () => {
    for (const [change, words] of [
      [{ cell_type: "heading" }, "cell_type"],
      [{ source: 3 }, "source"],
      [{ outputs: {} }, "list of outputs"],
      [{ execution_count: "1" }, "execution_count"],
      [{ outputs: [{ output_type: "stream" }] }, "lacks a field"],
    ] as const) {
      const notebook = valid();
      Object.assign(notebook.cells[1] ?? {}, change);
      expect(message(JSON.stringify(notebook))).toContain(words);
    }
  });
});

describe("reading and writing files", () => {
  it("states the size limit to a file that is over it", () => {
    const path = join(scratch(), "huge.ipynb");
    writeFileSync(path, Buffer.alloc(largestNotebook + 1, 32));
    expect(() => readNotebook(path)).toThrow(/huge\.ipynb has 64 MiB; the limit is 64 MiB/);
  });

  it("says which file is missing", () => {
    expect(() => readNotebook("absent dir/ä.ipynb")).toThrow(/cannot read the notebook ä\.ipynb: ENOENT/);
  });

  it("touches a file only when its bytes change", () => {
    const path = join(scratch(), "mit Leerzeichen é.ipynb");
    const [one, two] = [notebookOf("1"), notebookOf("2")];
    writeFileSync(path, formatNotebook(one));
    expect(writeNotebook(path, formatNotebook(one), one)).toBe(false);
    expect(writeNotebook(path, formatNotebook(one), two)).toBe(true);
  });

  it("says why a file cannot be written", () => {
    const folder = join(scratch(), "folder.ipynb");
    mkdirSync(folder);
    expect(() => writeNotebook(folder, "", notebookOf("1"))).toThrow(
      /cannot write folder\.ipynb: it is a folder, not|cannot write folder\.ipynb: it is a folder/,
    );
  });
});
