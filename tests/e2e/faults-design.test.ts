/** What is wrong in the files of a book is told with line and column before anything runs, and nothing on disk changes. */
import { writeFileSync } from "node:fs";
import { beforeAll, describe, expect, it } from "vitest";
import { design, FaultBook, healthy, opening, ranBook } from "./fault-book";

let book: FaultBook;
beforeAll(async () => {
  book = await ranBook();
});

/** Runs with one part of the design file changed; the run must refuse it and leave everything as it was. */
async function refused(from: string, to: string): Promise<string> {
  expect(design).toContain(from);
  book.write("data/design.yaml", design.replace(from, to));
  const before = book.files();
  const { status, stdout, stderr } = await book.run("--all");
  expect({ status, stdout }).toEqual({ status: 2, stdout: "" });
  expect(book.files()).toEqual(before);
  return stderr;
}

describe("a design file", { timeout: 120_000 }, () => {
  const value = "value: 5 V ±2 %";
  const rows: readonly (readonly [string, string, string, string])[] = [
    ["malformed YAML", value, "value: [5 V", "data/design.yaml:5:60: malformed YAML"],
    [
      "a duplicate key",
      "meaning: nothing,",
      "meaning: nothing, meaning: zero,",
      "data/design.yaml:7:41: the key 'meaning' stands here a second time",
    ],
    ["an unknown key", "meaning: nothing", "meening: nothing", "data/design.yaml:7:23: unknown key 'meening' in given 'none'"],
    [
      "an unknown unit",
      value,
      "value: 5 Vlt ±2 %",
      `data/design.yaml:5:20: value of given 'high': cannot read "5 Vlt ±2 %": unknown unit "Vlt"; did you mean volt?`,
    ],
    ["a missing source", "meaning: nothing, source: own", "meaning: nothing", "data/design.yaml:7:9: given 'none' has no source"],
    ["a minimum above the maximum", value, "value: 5 V (6 to 4 V)", "data/design.yaml:5:28: value of given 'high': cannot read"],
    ["NaN", "value: 0 V", "value: .nan", "data/design.yaml:7:18: value of given 'none' is '.nan', which is no finite number"],
    [
      "infinity",
      "value: 0 V",
      "value: Infinity V",
      "data/design.yaml:7:18: value of given 'none' is 'Infinity V', which is no finite number",
    ],
  ];
  it.each(rows)("with %s is refused at its line and column", async (_, from, to, message) => {
    expect(await refused(from, to)).toContain(message);
  });
});

describe("a book", { timeout: 120_000 }, () => {
  beforeAll(() => book.write("data/design.yaml", design));

  async function refuses(...lines: readonly string[]): Promise<string> {
    const own = book.read("notebooks/book.yaml");
    book.list("01-lamp.ipynb", ...lines);
    const before = book.files();
    const { status, stdout, stderr } = await book.run();
    expect({ status, stdout }).toEqual({ status: 2, stdout: "" });
    expect(book.files()).toEqual(before);
    book.write("notebooks/book.yaml", own);
    return stderr;
  }

  it("with two worksheets of one name is refused at the second", async () => {
    book.sheet("02-lamp.ipynb", ...healthy("lamp"));
    expect(await refuses("02-lamp.ipynb")).toContain(
      "notebooks/book.yaml:6:5: 02-lamp.ipynb and 01-lamp.ipynb are both the sheet 'lamp'; expected every sheet under its own name; rename one of the two",
    );
  });

  it("whose path leads out of it is refused there", async () => {
    expect(await refuses("../../outside.ipynb")).toContain("notebooks/book.yaml:6:5: the path leads out of the book's folder");
    const own = book.read("notebooks/book.yaml");
    book.write("notebooks/book.yaml", own.replace("../data/design.yaml", "/etc/passwd"));
    expect(await book.run()).toMatchObject({ status: 2, stderr: expect.stringMatching(/^notebooks\/book\.yaml:3:9: the path leads out/) });
    book.write("notebooks/book.yaml", own);
  });

  it("whose sheets take from one another in a circle is refused with the circle", async () => {
    const takes = (name: string, from: string) => [
      opening(name),
      `const t = sheet.take({ P: ["${from}.P", mW] });\nsheet.publish({ P: t.P });`,
    ];
    book.sheet("03-a.ipynb", ...takes("a", "b"));
    book.sheet("04-b.ipynb", ...takes("b", "a"));
    expect(await refuses("03-a.ipynb", "04-b.ipynb")).toMatch(
      /^sheets take from one another in a circle, a → b → a: a, cell 2, takes b\.P; b, cell 2, takes a\.P; let one of them take a given/,
    );
  });

  it("with a sheet that takes what no sheet publishes runs the others and tells it at its cell", async () => {
    const sheets = {
      "01-lamp.ipynb": healthy("lamp"),
      "02-taker.ipynb": [opening("taker"), 'const t = sheet.take({ P: ["lamp.Q", mW] });'],
      "03-other.ipynb": healthy("other"),
    };
    const { status, stdout, stderr } = await new FaultBook(sheets).run();
    expect(status).toBe(1);
    expect(stdout).toMatch(/^lamp +done.*\ntaker +failed.*\nother +done/);
    expect(stderr).toMatch(/^02-taker\.ipynb, cell 2 \(id c2\), line 1:17$/m);
    expect(stderr).toMatch(/lamp.* publishes no.*Q|lamp\.Q/);
  });
});

describe("a notebook", { timeout: 120_000 }, () => {
  const sheets = { "01-bad.ipynb": healthy("bad"), "02-lamp.ipynb": healthy("lamp") };

  it("that is malformed fails alone, at line and column, and keeps its bytes", async () => {
    const own = await ranBook(sheets);
    const [results, bad] = [own.read("build/results.json"), own.read("notebooks/01-bad.ipynb").slice(0, 400)];
    own.write("notebooks/01-bad.ipynb", bad);
    const { status, stdout, stderr } = await own.run("--all");
    expect(status).toBe(1);
    expect(stdout).toMatch(/^bad +failed.*\nlamp +done/);
    expect(stderr).toMatch(/01-bad\.ipynb:\d+:\d+: not a notebook, the JSON is malformed/);
    expect(own.read("notebooks/01-bad.ipynb")).toBe(bad);
    expect(own.read("build/results.json")).toBe(results);
    for (const command of ["check", "publish"])
      expect(await own.workings(command)).toMatchObject({ status: 2, stderr: expect.stringContaining("01-bad.ipynb:") });
  });

  it("that is huge fails alone, with its size and what to do", async () => {
    const own = await ranBook(sheets);
    const text = own.read("notebooks/01-bad.ipynb");
    const huge = Buffer.alloc(65 * 1024 * 1024, " ");
    huge.write(text);
    writeFileSync(own.file("notebooks/01-bad.ipynb"), huge);
    const { status, stdout, stderr } = await own.run("--all");
    expect(status).toBe(1);
    expect(stdout).toMatch(/^bad +failed.*\nlamp +done/);
    expect(stderr).toContain("01-bad.ipynb has 65 MiB; the limit is 64 MiB. Clear its outputs and run it again.");
  });

  it("with a number in the text bound to a missing result is told by check, which changes nothing", async () => {
    const own = new FaultBook({ "01-lamp.ipynb": ["# Lamp\n\nIt takes [10 mW](#Q) of power.", ...healthy("lamp")] });
    expect((await own.run()).status).toBe(0);
    const before = own.files();
    const { status, stdout } = await own.workings("check");
    expect(status).toBe(1);
    expect(stdout).toContain("lamp, text (cell id m1), line 3: [10 mW](#Q) leads to no result; there is no lamp.Q");
    expect(own.files()).toEqual(before);
  });

  it("with HTML and scripts in names, notes and text is published with all of it escaped", async () => {
    const evil = "<script>alert(1)</script><img src=x onerror=alert(2)>";
    const text = design.replace("meaning: nothing", `meaning: "${evil}", note: "${evil}"`).replace("name: Lamp", `name: "Lamp ${evil}"`);
    const cells = [
      `# Lamp ${evil}\n\n[link](javascript:alert(3)) <iframe src="https://example.org"></iframe>`,
      opening("lamp"),
      `const g = sheet.given({ Z: ["none", volt] });\nsheet.caution(${JSON.stringify(evil)}, ${JSON.stringify(evil)});\nsheet.publish({ Z: g.Z });`,
    ];
    const own = new FaultBook({ "01-lamp.ipynb": cells }, text);
    expect(await own.run()).toMatchObject({ status: 0, stderr: "" });
    const published = await own.workings("publish");
    expect(published).toMatchObject({ status: 0, stderr: "" });
    const html = own.read(published.stdout.split("  ")[0] as string);
    const markup = html.replace(/<script\b[^>]*>.*?<\/script>/gs, "");
    expect(markup).not.toMatch(/<script|<iframe|<img[^>]*onerror|href="javascript:/i);
    expect(html).not.toContain("<script>alert(1)");
    expect(markup).toContain("&lt;script>alert(1)".replace(">", "&gt;"));
  });

  it("whose name has spaces and other letters runs, publishes and is found by name", async () => {
    const own = await ranBook({ "01-größe & co.ipynb": healthy("größe & co"), "02-灯 lamp.ipynb": healthy("灯 lamp") });
    expect(JSON.parse(own.read("build/results.json")).sheets).toMatchObject({
      "größe & co": { P: { unit: "mW" } },
      "灯 lamp": { P: { unit: "mW" } },
    });
    expect(await own.run("灯 lamp")).toMatchObject({ status: 0, stdout: expect.stringContaining("灯 lamp  done, as before") });
    expect(await own.workings("publish")).toMatchObject({ status: 0, stderr: "" });
  });
});
