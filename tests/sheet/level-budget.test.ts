/** A product of levels shown as a budget in decibels. Sums by hand. */
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { makeBook } from "../../lib/book/book";
import { readDesign } from "../../lib/design/read";
import { publishBook } from "../../lib/document/publish";

import { Session } from "../../lib/sheet/session";
import { storedDisplay } from "../../lib/sheet/stored";
import { Worksheet } from "../../lib/sheet/worksheet";
import { dB, dB_power, dBi, dBm, dBu, dBV, one, volt } from "../../lib/units";
import { notebook } from "../document/fixture";
import { pageAssets } from "../document/make";

const design = readDesign(
  `
product: { name: Link, revision: "1" }
sources: { own: { type: document, title: Made up for this test } }
givens:
  sent: { value: 14 dBm ±1 dB, meaning: power sent, source: own }
  far: { value: 3 dBi, meaning: gain of the aerial, source: own }
  near: { value: -2 dBi, meaning: gain of the chip aerial, source: own }
  loss: { value: 80 dB, meaning: path loss, source: own }
  input: { value: -40 dBV, meaning: input, source: own }
  stage: { value: 12 dB, meaning: gain of a stage, source: own }
  rejection: { value: 60 dB, meaning: rejection, source: own }
  share: { value: "2", meaning: a number, source: own }
`,
  "design.yaml",
);

const shared = globalThis as Record<symbol, unknown>;
const sinkKey = Symbol.for("workings.display");
let outputs: Record<string, unknown>[];
beforeEach(() => {
  outputs = [];
  shared[sinkKey] = ({ data }: { data: Record<string, unknown> }) => outputs.push(data);
});
afterEach(() => {
  delete shared[sinkKey];
});

const sheet = () => new Worksheet(new Session("link", design), ".");
const plainSpaces = (text: unknown) => String(text).replace(/[\u00a0\u202f]/g, " ");
const levels = () => {
  const block = storedDisplay(JSON.parse(JSON.stringify({ data: outputs.at(-1) })), "link", 1)?.display.block;
  return block?.type === "result" ? block.levels?.lines.map(({ symbol, times }) => [symbol, times]) : undefined;
};

function link(): void {
  const s = sheet();
  const g = s.given({ P_t: ["sent", dBm], G_t: ["far", dBi], G_r: ["near", dBi], L: ["loss", dB_power] });
  s.derive("P_r = P_t*G_t*G_r/L", g, dBm, "power received");
}

describe("a product of levels", () => {
  it("is told line by line with signs, in plain text and in LaTeX", () => {
    link();
    expect(plainSpaces(outputs.at(-1)?.["text/plain"])).toContain(
      [
        "    + P_t: 14 dBm",
        "    + G_t: 3 dBi",
        "    + G_r: −2 dBi",
        "    − L: 80 dB (power)",
        "    = −65 dBm, worst case −66.0 dBm to −64.0 dBm",
      ].join("\n"),
    );
    const latex = plainSpaces(outputs.at(-1)?.["text/latex"]);
    expect(latex).toContain("\\begin{array}{lrr} P_{\\mathrm{t}} & + & 14");
    expect(latex).toMatch(/ L & - & 80.* \\\\ \\hline P_\{\\mathrm\{r\}\} & = & -65/);
  });

  it("counts powers, roots and quotients", () => {
    const s = sheet();
    const g = s.given({ V: ["input", dBV], G: ["stage", dB], R: ["rejection", dB] });
    const V = s.derive("V_o = V*G^2/(R/G)*sqrt(R)", g, dBV, "residue");
    expect(levels()).toEqual([
      ["V", 1],
      ["G", 3],
      ["R", -0.5],
    ]);
    expect(V.in(dBV)).toBeCloseTo(-40 + 2 * 12 - 60 + 12 + 30, 9);
    expect(plainSpaces(outputs.at(-1)?.["text/plain"])).toContain("    + 3 · G: 12 dB\n    − 0.5 · R: 60 dB");
  });

  it("has no budget where its decibels do not add up to the result's, or something else is in it", () => {
    const s = sheet();
    const g = s.given({ V: ["input", dBV], G: ["stage", dB], P: ["sent", dBm], x: ["share", one] });
    s.derive("V_o = V*G", g, dBu, "another reference");
    expect(levels()).toBeUndefined();
    s.derive("P_o = P*G", g, dBm, "a gain of voltages on a power");
    expect(levels()).toBeUndefined();
    s.derive("V_p = V*G*x", g, dBV, "with a number");
    expect(levels()).toBeUndefined();
    s.derive("V_q = V*G", g, volt, "in volts");
    expect(levels()).toBeUndefined();
    s.derive("V_r = V*G", g, dBV, "all levels");
    expect(levels()).toEqual([
      ["V", 1],
      ["G", 1],
    ]);
  });

  it("is a table in the document", async () => {
    link();
    const cell = (data: Record<string, unknown>) => ({ output_type: "display_data", metadata: {}, data });
    const cells = [{ cell_type: "code", id: "a", metadata: {}, execution_count: null, source: ["show();"], outputs: outputs.map(cell) }];
    const plots = { compile: () => ({}) as never, render: () => Promise.resolve("") as never };
    const title = { title: "The link", revision: "1" };
    const book = makeBook({ title, sheets: [{ name: "link", notebook: notebook(cells) }], design });
    const markup = publishBook(book, await pageAssets(), plots);
    const table = /<table class="levels">[\s\S]*?<\/table>/.exec(markup)?.[0] ?? "";
    const rows = [...table.matchAll(/<tr><td>.*?<\/td><td>(.*?)<\/td><td>(.*?)<\/td><\/tr>/g)].map(([, sign, value = ""]) =>
      plainSpaces(`${sign} ${value.replace(/<[^>]*>/g, "")}`),
    );
    expect(rows).toEqual(["+ 14 dBm", "+ 3 dBi", "+ −2 dBi", "− 80 dB (power)", "= −65 dBm"]);
  });
});
