/** A law used outside its range: every place that shows what rests on it says so, and a release is refused. */
import { beforeAll, describe, expect, it } from "vitest";
import { FaultBook } from "./fault-book";

// The efficiency is beyond 1, where the law ends: nobody's converter gives more than it takes.
const design = `product: { name: Lamp, revision: "1" }
sources:
  own: { type: document, title: Made up for this test }
requirements:
  long: { statement: Shines long., limit: ">= 1 h", judged: typical, source: own }
givens:
  E: { value: 2 Wh, meaning: energy, source: own }
  k: { value: 0.9, meaning: usable share, source: own }
  eta: { value: 120 %, meaning: efficiency, source: own }
  P: { value: 1 W, meaning: load, source: own }
`;
const cells = [
  `import { worksheet } from "workings";\nimport { battery } from "workings/physics";\nimport { hour, one, watt, Wh } from "workings/units";\nconst sheet = worksheet("lamp");`,
  'const g = sheet.given({ E: ["E", Wh], k: ["k", one], eta: ["eta", one], P: ["P", watt] });\nconst t = sheet.derive(battery.runtimeByEnergy, g, hour);',
  'const half = sheet.derive("h = t/2", { t: t }, hour, "half of it");\nsheet.require(half, "long");\nsheet.publish({ half: half });',
];
const said = /outside the range of t = E\*k\*eta\/P: eta is 120\s% here; the law holds from 0\s% to 100\s%/;

describe("a law used outside its range", () => {
  let book: FaultBook;
  let ran: Awaited<ReturnType<FaultBook["run"]>>;
  beforeAll(async () => {
    book = new FaultBook({ "01-lamp.ipynb": cells }, design);
    ran = await book.run();
  }, 120_000);

  it("is told by the run, which succeeds", () => {
    expect(ran.status).toBe(0);
    expect(ran.stderr).toMatch(said);
  });

  it("is told in the cell of the result, and of the verdict", () => {
    const text = JSON.stringify(book.notebook("01-lamp.ipynb"));
    expect(text).toContain("half of it\\nh = t/2\\n    = 1.08\u00a0h, outside the range of a law");
    expect(text).toMatch(/long: Shines long\.: holds, outside the range of t = E\*k\*eta\/P/);
  });

  it("is told by check in the requirement's line, and is open: a release is refused", async () => {
    const check = await book.workings("check");
    expect(check.status).toBe(0);
    expect(check.stdout).toMatch(new RegExp(`^long +holds .*${said.source}`, "m"));
    expect(check.stdout).not.toMatch(/^lamp, outside/m);
    expect((await book.workings("check", "--strict")).status).toBe(1);
  });

  it("is told by why, at the law", async () => {
    expect((await book.workings("why", "lamp.half")).stdout).toMatch(
      /^ +outside its range: eta is 120\s% here; the law holds from 0\s% to 100\s%$/m,
    );
  });

  it("is in results.json, for the requirement and for the result", () => {
    const results = JSON.parse(book.read("build/results.json"));
    expect(results.requirements.long.outside).toEqual([expect.stringMatching(/^t = E\*k\*eta\/P: eta is/)]);
    expect(results.sheets.lamp.half.outside).toEqual(results.requirements.long.outside);
  });

  it("is told by vary where a change leads there, and not where one leads back", async () => {
    expect((await book.workings("vary", "eta=110 %")).stdout).toMatch(
      /^Verdicts outside the range of a law\n {2}long: does not hold, outside the range of t = /m,
    );
    expect((await book.workings("vary", "eta=90 %")).stdout).not.toMatch(/outside/);
  });

  it("stands in the requirement's row of the document and of its table for other programs", async () => {
    expect((await book.workings("publish", "--csv")).status).toBe(0);
    const file = (end: string) => book.read(Object.keys(book.files()).find((name) => name.endsWith(end)) ?? end);
    const html = file(".html");
    const row = /<tr><th scope="row" id="requirement-long">.*?<\/tr>/s.exec(html)?.[0] ?? "";
    expect(row).toMatch(/✓<\/span> holds<\/button> <span class="doubt">outside the range of t = E\*k\*eta\/P: eta is/);
    expect(file("requirements.csv")).toMatch(/^long,holds.*t = E\*k\*eta\/P/m);
  });
});
