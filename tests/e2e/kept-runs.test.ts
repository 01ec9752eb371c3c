/** A run uses what the sheet's last run has found, and writes what a run without it writes. */
import { readFileSync, rmSync, writeFileSync } from "node:fs";
import { deserialize } from "node:v8";
import { describe, expect, it } from "vitest";
import { keep } from "../../lib/kernel/kept";
import { design, FaultBook, opening } from "./fault-book";

const timeout = 120_000;
const cells = [
  opening("lamp"),
  'const h = sheet.given({ V: ["high", volt], I: ["current", mA] });\nconst P = sheet.derive("P = V*I", h, mW, "power");\nconst half = sheet.derive("half = V/2", { V: h.V }, volt, "half");',
  "sheet.publish({ P: P, half: half });",
];

async function ranBook(): Promise<FaultBook> {
  const book = new FaultBook({ "01-lamp.ipynb": cells });
  expect(await book.run()).toMatchObject({ status: 0, stderr: "" });
  return book;
}
const outputs = (book: FaultBook) => [book.read("notebooks/01-lamp.ipynb"), book.read("build/results.json")];

/** What a run writes that computes everything. */
async function anew(book: FaultBook): Promise<string[]> {
  const now = outputs(book);
  expect(await book.run("--all")).toMatchObject({ status: 0, stderr: "" });
  const whole = outputs(book);
  expect(now[0]).toBe(whole[0]);
  return whole;
}

describe("what a run has found", { timeout }, () => {
  it("changes no byte of what the next one writes, whatever given has changed", async () => {
    const book = await ranBook();
    for (const text of [design.replace("2 mA ±10 %", "3 mA ±10 %"), design.replace("5 V ±2 %", "5 V ±1 %"), design]) {
      book.write("data/design.yaml", text);
      expect(await book.run()).toMatchObject({ status: 0, stderr: "" });
      expect(outputs(book)).toEqual(await anew(book));
    }
  });

  it("changes no byte where its file is cut off, turned into something else or gone", async () => {
    const book = await ranBook();
    const path = book.file("build/found/lamp.bin");
    const whole = readFileSync(path);
    const before = outputs(book);
    for (const damage of [whole.subarray(0, 100), Buffer.from("no such thing"), whole.map((byte, at) => (at === 2000 ? byte ^ 4 : byte))]) {
      writeFileSync(path, damage);
      expect(await book.run("lamp")).toMatchObject({ status: 0, stderr: "" });
      expect(outputs(book)).toEqual(before);
      expect(readFileSync(path).equals(whole)).toBe(true);
    }
    rmSync(path);
    expect(await book.run("lamp")).toMatchObject({ status: 0, stderr: "" });
    expect(outputs(book)).toEqual(before);
  });

  it("is what the next run shows where nothing has changed, and not with --all", async () => {
    const book = await ranBook();
    const path = book.file("build/found/lamp.bin");
    const before = outputs(book);
    const { stamp, found } = deserialize(readFileSync(path).subarray(32));
    // A wrong number under a right checksum: only who reads it can show it.
    const analysis = found.analyses.get("lamp.P");
    found.analyses.set("lamp.P", { ...analysis, worst: { ...analysis.worst, high: analysis.worst.high * 2 } });
    keep({ path, stamp }, found);
    expect((await book.run("lamp")).stdout).toContain("done, outputs changed");
    keep({ path, stamp }, found);
    expect((await book.run("--all")).stdout).toContain("done, outputs changed");
    expect(outputs(book)).toEqual(before);
  });
});
