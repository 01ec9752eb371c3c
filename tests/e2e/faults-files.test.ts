/** Files that are not what they should be: other encodings, links out of the book, nesting without end, a second YAML document. */
import { readFileSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { scratch } from "../kernel/fixture";
import { design, FaultBook, healthy, ranBook } from "./fault-book";

const two = { "01-lamp.ipynb": healthy("lamp"), "02-next.ipynb": healthy("next") };

describe("a notebook", { timeout: 120_000 }, () => {
  it("that is not UTF-8 is refused with the byte, and keeps its bytes; the other sheets run", async () => {
    const book = new FaultBook({ ...two, "01-lamp.ipynb": [...healthy("lamp"), "# Caf@ at night"] });
    const path = book.file("notebooks/01-lamp.ipynb");
    const bytes = Buffer.from(readFileSync(path, "latin1").replace("Caf@", "Caf\u00e9"), "latin1");
    writeFileSync(path, bytes);
    const { status, stdout, stderr } = await book.run();
    expect({ status, stdout }).toEqual({ status: 1, stdout: expect.stringMatching(/^lamp +failed.*\nnext +done/) });
    expect(stderr).toContain(`byte ${bytes.indexOf(0xe9)} (0xe9, line `);
    expect(stderr).toContain("is not UTF-8");
    expect(readFileSync(path).equals(bytes)).toBe(true);
    for (const command of ["check", "publish"]) {
      const said = await book.workings(command);
      expect(said.status, command).not.toBe(0);
      expect(said.stderr, command).toContain("is not UTF-8");
    }
  });

  it("nested without end fails with a sentence, and the other sheets run", async () => {
    const book = new FaultBook(two);
    const path = book.file("notebooks/01-lamp.ipynb");
    const deep = `${"[".repeat(20_000)}${"]".repeat(20_000)}`;
    const text = readFileSync(path, "utf8").replace('"metadata": {}', `"metadata": {"deep": ${deep}}`);
    writeFileSync(path, text);
    const { status, stdout, stderr } = await book.run();
    expect({ status, stdout }).toEqual({ status: 1, stdout: expect.stringMatching(/^lamp +failed.*\nnext +done/) });
    expect(stderr).toMatch(/^01-lamp\.ipynb\n01-lamp\.ipynb:\d+: JSON nested deeper than 1000 levels/m);
    expect(stderr).not.toContain("RangeError");
    expect(readFileSync(path, "utf8")).toBe(text);
    expect(await book.workings("check")).toMatchObject({ status: 2, stderr: expect.stringContaining("nested deeper than 1000 levels") });
  });

  it("with a cell nested without end fails in every command with a sentence", async () => {
    const book = new FaultBook({
      ...two,
      "01-lamp.ipynb": [...healthy("lamp"), `const deep = ${"(".repeat(20_000)}1${")".repeat(20_000)};`],
    });
    const sentence = expect.stringContaining("01-lamp.ipynb: cell 3 of all 3 (id c3) has brackets nested deeper than 1000 levels");
    expect(await book.run()).toMatchObject({ status: 1, stdout: expect.stringMatching(/^lamp +failed.*\nnext +done/), stderr: sentence });
    for (const command of ["check", "publish"])
      expect(await book.workings(command), command).toMatchObject({ status: 2, stderr: sentence });
  });

  it("with text nested without end is refused by check and publish with a sentence", async () => {
    const book = new FaultBook({ "01-lamp.ipynb": [`# T\n\n${"> ".repeat(20_000)}x`, ...healthy("lamp")] });
    expect(await book.run()).toMatchObject({ status: 0, stderr: "" });
    for (const command of ["check", "publish"])
      expect(await book.workings(command), command).toMatchObject({
        status: 2,
        stderr: expect.stringMatching(/^the text "# T[^\n]*" has too many quotes, lists or marks inside one another; write it flatter\n$/),
      });
  });

  it("whose text shows a picture beside it is published with it, and not without", async () => {
    const book = new FaultBook({ "01-lamp.ipynb": ["# Lamp\n\n![drawn](<figures/a b.svg>)", ...healthy("lamp")] });
    expect(await book.run()).toMatchObject({ status: 0, stderr: "" });
    expect(await book.workings("publish")).toMatchObject({
      status: 2,
      stderr: "the document lacks what its text shows:\npicture figures/a%20b.svg: there is no such file (lamp, cell m1)\n",
    });
    expect(book.has("build/lamp.html")).toBe(false);
    book.write("notebooks/figures/a b.svg", '<svg viewBox="0 0 4 4"><path d="M0 0L4 4"/></svg>');
    expect(await book.workings("publish", "--markdown")).toMatchObject({ status: 0, stderr: "" });
    expect(book.read("build/lamp.html")).toContain('<img src="data:image/svg+xml;base64,');
    expect(book.read("build/lamp/lamp.md")).toContain("![drawn](figures/lamp-1.svg)");
    const outside = join(scratch(), "secret.svg");
    writeFileSync(outside, "<svg></svg>");
    rmSync(book.file("notebooks/figures/a b.svg"));
    symlinkSync(outside, book.file("notebooks/figures/a b.svg"));
    expect(await book.workings("publish")).toMatchObject({ status: 2, stderr: expect.stringContaining("it leads outside the project") });
  });

  it("that is a link out of the book is refused, and what it leads to keeps its bytes", async () => {
    const outside = join(scratch(), "elsewhere.ipynb");
    const book = new FaultBook(two);
    writeFileSync(outside, book.read("notebooks/01-lamp.ipynb"));
    const before = readFileSync(outside, "utf8");
    symlinkSync(outside, book.file("notebooks/03-away.ipynb"));
    book.list("02-next.ipynb", "03-away.ipynb");
    for (const command of ["run", "check", "publish"])
      expect(await book.workings(command), command).toMatchObject({
        status: 2,
        stderr: expect.stringMatching(/notebooks\/book\.yaml:6:5: 03-away\.ipynb is a link that leads out of the book's folder/),
      });
    expect(readFileSync(outside, "utf8")).toBe(before);
  });

  it("that is a link within the book runs, and so does a book whose own folder is reached by a link", async () => {
    const book = new FaultBook(two);
    book.write("drafts/next.ipynb", book.read("notebooks/02-next.ipynb").replace('worksheet(\\"next\\")', 'worksheet(\\"third\\")'));
    symlinkSync("../drafts/next.ipynb", book.file("notebooks/03-third.ipynb"));
    book.list("01-lamp.ipynb", "03-third.ipynb");
    const link = join(scratch(), "book");
    symlinkSync(book.folder, link);
    expect(await book.run("--book", join(link, "notebooks"))).toMatchObject({ status: 0, stderr: "" });
    expect(book.read("drafts/next.ipynb")).toContain('execution_count": 1');
  });
});

describe("a file of the book", { timeout: 120_000 }, () => {
  it("with a second YAML document is refused at its line", async () => {
    const book = await ranBook();
    const before = book.files();
    const texts = {
      "data/design.yaml": design,
      "notebooks/book.yaml": book.read("notebooks/book.yaml"),
      "data/reference/own.yaml":
        "name: own\nsources: { own: { type: document, title: Made up } }\nentries:\n  a: { value: 1 V, meaning: a, source: own, year: 2000, memory: true }\n",
    };
    for (const [name, text] of Object.entries(texts)) {
      book.write(name, `${text}---\ngivens: {}\n`);
      const { status, stdout, stderr } = await book.run("--all");
      expect({ status, stdout }, name).toEqual({ status: 2, stdout: "" });
      expect(stderr, name).toContain(`${name}:${text.split("\n").length}:1: a second YAML document begins here`);
      book.write(name, text);
    }
    expect(book.files("data/reference/own.yaml")).toEqual(before);
  });

  it("that is not UTF-8 is refused with the byte", async () => {
    const book = await ranBook();
    const before = book.files();
    for (const name of ["data/design.yaml", "notebooks/book.yaml"]) {
      const text = book.read(name);
      writeFileSync(book.file(name), Buffer.from(`# \u00e9\n${text}`, "latin1"));
      const { status, stderr } = await book.run("--all");
      expect({ status, stderr }, name).toEqual({ status: 2, stderr: expect.stringContaining("byte 2 (0xe9, line 1) is not UTF-8") });
      book.write(name, text);
    }
    expect(book.files()).toEqual(before);
  });
});
