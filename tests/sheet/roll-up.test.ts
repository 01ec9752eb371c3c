/** Roll-ups and assumptions across sheets. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { readDesign } from "../../lib/design/read";
import { Session } from "../../lib/sheet/session";
import { Worksheet } from "../../lib/sheet/worksheet";
import { gram, mA, mW, volt } from "../../lib/units";

const design = readDesign(
  `
product: { name: Lamp, revision: "1" }
sources: { own: { type: document, title: Made up for this test } }
givens:
  shell: { value: 14 g ±0.7 g, meaning: mass of the shell, source: own }
  clip: { value: 3 g ±0.2 g, meaning: mass of the clip, source: own }
  cell: { value: 8 g ±0.4 g, meaning: mass of the cell, source: own }
  play: { value: 74 mW ±8 mW, meaning: power in play, source: own }
  supply: { value: 4 V ±1 %, meaning: supply, source: own }
  current: { value: 19 mA ±2 %, meaning: current, source: own }
`,
  "design.yaml",
);

const sinkKey = Symbol.for("workings.display");
const shared = globalThis as Record<symbol, unknown>;
let folder: string;
let outputs: { data: Record<string, unknown> }[];

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "roll-up-"));
  outputs = [];
  shared[sinkKey] = ({ data }: { data: Record<string, unknown> }) => outputs.push({ data });
});
afterEach(() => {
  delete shared[sinkKey];
  rmSync(folder, { recursive: true, force: true });
});

const sheet = (name: string) => new Worksheet(new Session(name, design), folder);
const plain = () => String(outputs.at(-1)?.data["text/plain"]);

/** Writes what the calls have shown as the outputs of a notebook. */
function keep(file: string): void {
  const shown = outputs.map((output) => ({ output_type: "display_data", metadata: {}, ...output }));
  writeFileSync(join(folder, file), JSON.stringify({ cells: [{ cell_type: "code", outputs: shown }] }));
  outputs = [];
}

describe("a roll-up", () => {
  beforeEach(() => {
    const enclosure = sheet("enclosure");
    const { shell, clip } = enclosure.given({ shell: ["shell", gram], clip: ["clip", gram] });
    enclosure.contribute("mass", { shell, clip });
    keep("02-enclosure.ipynb");
    const battery = sheet("battery");
    battery.contribute("mass", battery.given({ cell: ["cell", gram] }));
    keep("04-battery.ipynb");
  });

  it("sums what every sheet has contributed, this one included, with lineage", () => {
    const brief = sheet("brief");
    brief.contribute("mass", { spare: brief.part("spare", "clip", gram) });
    const M = brief.collect("mass", gram, { name: "M", meaning: "mass of the product" });
    expect(M.in(gram)).toBeCloseTo(28, 9);
    const { worst, contributions } = brief.session.evaluation.analysis("brief.M");
    expect(worst?.high).toBeCloseTo(0.0295, 12);
    expect(contributions[0]?.given).toBe("givens.shell");
    expect(plain()).toMatch(/^mass: 28(\.0)?\sg/);
    expect(plain()).toContain("shell (enclosure): 14\u00a0g");
  });

  it("leaves out a notebook that lies beside the book and is not listed in it", () => {
    writeFileSync(join(folder, "book.yaml"), "worksheets:\n  - 02-enclosure.ipynb\n  - 05-later.ipynb\n");
    expect(sheet("brief").collect("mass", gram, { name: "M", meaning: "mass" }).in(gram)).toBeCloseTo(17, 9);
  });

  it("counts nothing twice when a cell is run again", () => {
    const brief = sheet("brief");
    for (let again = 0; again < 3; again++) brief.contribute("mass", brief.given({ clip: ["clip", gram] }));
    expect(brief.collect("mass", gram, { name: "M", meaning: "mass" }).in(gram)).toBeCloseTo(28, 9);
  });

  it("refuses an item of another dimension, and a roll-up that nobody contributes to", () => {
    const brief = sheet("brief");
    brief.contribute("mass", brief.given({ V: ["supply", volt] }));
    expect(() => brief.collect("mass", gram, { name: "M", meaning: "mass" })).toThrow("V (brief) must be mass, got voltage");
    expect(() => brief.collect("cost", gram, { name: "C", meaning: "cost" })).toThrow('no sheet contributes to "cost" yet');
  });
});

describe("an assumption", () => {
  const assumed = () => {
    const indicators = sheet("indicators");
    const P = indicators.assume("play", "play", mW);
    expect(plain()).toContain("assumed, to be confirmed by a later sheet: play = 74 mW ±8 mW  power in play [own]");
    keep("03-indicators.ipynb");
    return P;
  };

  it("is a given, and is confirmed by what a later sheet computes within its limits", () => {
    expect(assumed().in(mW)).toBeCloseTo(74, 9);
    const battery = sheet("battery");
    const { V, I } = battery.given({ V: ["supply", volt], I: ["current", mA] });
    battery.confirm("indicators.play", battery.derive("P = V*I", { V, I }, mW, "power in play"));
    expect(plain()).toMatch(/^indicators\.play: assumed 74\smW, computed 76\smW: confirmed$/);
    battery.confirm("indicators.play", battery.derive("Q = 1.07*V*I", { V, I }, mW, "somewhat more"));
    expect(plain()).toMatch(/: confirmed for typical units$/);
    battery.confirm("indicators.play", battery.derive("S = 2*V*I", { V, I }, mW, "twice as much"));
    expect(plain()).toMatch(/: not confirmed$/);
  });

  it("refuses a confirmation of nothing, and of another dimension", () => {
    assumed();
    const battery = sheet("battery");
    const { V } = battery.given({ V: ["supply", volt] });
    expect(() => battery.confirm("indicators.rest", V)).toThrow('indicators assumes no "rest"; it assumes play');
    expect(() => battery.confirm("indicators.play", V)).toThrow("indicators.play is power; the result that should confirm it is voltage");
  });
});
