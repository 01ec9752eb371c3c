/** An assumption of one sheet that another one confirms: `vary` tells where a change refutes it, and only there. */
import { beforeAll, describe, expect, it } from "vitest";
import { design, type FaultBook, opening, ranBook } from "./fault-book";

const assumed = `${design}  play: { value: 10 mW ±2 mW, meaning: power in play, source: own }\n`;
const sheets = {
  "01-cell.ipynb": [opening("cell"), 'const P = sheet.assume("play", "play", mW);\nsheet.publish({ P: P });'],
  "02-lamp.ipynb": [
    opening("lamp"),
    'const h = sheet.given({ V: ["high", volt], I: ["current", mA] });\nconst P = sheet.derive("P = V*I", h, mW, "power");',
    'sheet.confirm("cell.play", P);\nsheet.publish({ P: P });',
  ],
};

describe("workings vary", { timeout: 120_000 }, () => {
  let book: FaultBook;
  beforeAll(async () => {
    book = await ranBook(sheets, assumed);
  }, 120_000);
  const vary = async (change: string) => {
    const { stdout } = await book.workings("vary", change, "--json");
    return JSON.parse(stdout) as { readonly assumptions: readonly string[]; readonly headline: string };
  };

  it("tells assumptions that are no longer confirmed, with both values", async () => {
    const { assumptions, headline } = await vary("current=3 mA ±10 %");
    expect(assumptions).toEqual([expect.stringMatching(/\(cell\.play\): assumed 10\smW, computed 15\smW$/)]);
    expect(headline).toMatch(/1 assumption not confirmed/);
  });

  it("tells none where all are confirmed", async () => {
    const { assumptions, headline } = await vary("current=1.95 mA ±10 %");
    expect(assumptions).toEqual([]);
    expect(headline).not.toContain("assumption");
  });
});
