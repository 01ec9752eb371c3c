/** A name of a worksheet stands for one thing, whatever kind of thing it is. */
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { readDesign } from "../../lib/design/read";
import { displayType } from "../../lib/sheet/block";
import type { RunningCell } from "../../lib/sheet/emit";
import { E24 } from "../../lib/sheet/series";
import { Session } from "../../lib/sheet/session";
import { storeDisplay } from "../../lib/sheet/stored";
import { Worksheet } from "../../lib/sheet/worksheet";
import { deg, mA, mm, ohm, one, volt } from "../../lib/units";

const design = readDesign(
  `
product: { name: Lamp, revision: "1" }
sources: { own: { type: document, title: Made up for this test } }
requirements:
  small: { statement: Is small., limit: "<= 3 kΩ", judged: worst case, source: own }
givens:
  V: { value: 5 V ±2 %, meaning: supply, source: own }
  I: { value: 2 mA, meaning: current, source: own }
  part: { value: ±1 %, meaning: tolerance of a part, source: own }
  size: { value: 3 mm, meaning: a size, source: own }
  angle: { value: 60 deg, meaning: an angle, source: own }
`,
  "design.yaml",
);

const [sinkKey, cellKey] = [Symbol.for("workings.display"), Symbol.for("workings.cell")];
const shared = globalThis as Record<symbol, unknown>;
let folder: string;
let outputs: { data: Record<string, unknown> }[];
let sheet: Worksheet;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "definitions-"));
  outputs = [];
  shared[sinkKey] = ({ data }: { data: Record<string, unknown> }) => outputs.push({ data });
  sheet = new Worksheet(new Session("lamp", design), folder);
  sheet.contribute("one", { item: one(1) });
});
afterEach(() => {
  delete shared[sinkKey];
  delete shared[cellKey];
  rmSync(folder, { recursive: true, force: true });
});

const executed = new Map<string, RunningCell>();

/** As a kernel does when it executes a cell; `line` stands for what a stack trace would tell. */
function execute(index: number, id?: string): void {
  const before = executed.get(id ?? "");
  if (before !== undefined) before.superseded = true;
  const running: RunningCell = { notebook: "a", index, ...(id !== undefined && { id }) };
  if (id !== undefined) executed.set(id, running);
  shared[cellKey] = running;
}

const givens = () => sheet.given({ V: ["V", volt], I: ["I", mA] });
const resistor = (law: "R = V/I" | "R = 2*V/I" = "R = V/I") => sheet.derive(law, givens(), ohm, "resistor");
const plain = () => outputs.map(({ data }) => String(data["text/plain"]));

/** Everything that a sheet can name, each by a call that may be made twice. */
const named: Readonly<Record<string, () => void>> = {
  R: () => void resistor(),
  "givens.V.E24": () => void sheet.select(givens().V, E24, "part"),
  'part of size "lamp.pipe"': () => void sheet.part("pipe", "size", mm),
  'published name "V"': () => sheet.publish(givens()),
  'assumption "size"': () => void sheet.assume("size", "size", mm),
  'confirmation of "other.size"': () => {
    const block = { type: "assumption", name: "size", node: "givens.size" } as const;
    const data = { [displayType]: storeDisplay({ sheet: "other", block, nodes: [design.given("size")] }) };
    const outputs = [{ output_type: "display_data", metadata: {}, data }];
    writeFileSync(join(folder, "other.ipynb"), JSON.stringify({ cells: [{ cell_type: "code", outputs }] }));
    sheet.confirm("other.size", sheet.given({ s: ["size", mm] }).s);
  },
  'contribution to mass "V"': () => sheet.contribute("mass", givens()),
  sum: () => void sheet.collect("one", one, { name: "sum", meaning: "sum" }),
  'requirement "small"': () => sheet.require(givens().V.div(givens().I), "small"),
  'plot "spread"': () =>
    sheet.plot({ name: "spread", caption: "Spread.", x: { label: "voltage", unit: volt }, spreads: { supply: givens().V } }),
  'drawing "pipe"': () => {
    const { s, a } = sheet.given({ s: ["size", mm], a: ["angle", deg] });
    const sizes = { length: s, diameter: s, wall: s, gap: s, viewing: a };
    sheet.draw("light.pipe", { name: "pipe", caption: "Pipe.", arguments: sizes });
  },
};

describe("a name that is defined twice", () => {
  it.each(Object.entries(named))("in one cell: %s", (words, define) => {
    execute(1, "one");
    define();
    expect(define).toThrow(new RegExp(`^lamp, cell 1: ${escaped(words)} is defined twice, in cell 1`));
  });

  it.each(Object.entries(named))("in two cells: %s", (_, define) => {
    execute(1, "one");
    define();
    execute(2, "two");
    expect(define).toThrow(/is defined twice, in cell 1 and in cell 2; give one of the two another name/);
  });

  it("is told with both lines, and where a helper was called twice with the remedy", () => {
    shared[cellKey] = {
      notebook: "a",
      index: 3,
      id: "a",
      places: () => [
        { cell: 2, line: 5 },
        { cell: 3, line: 1 },
      ],
    };
    resistor();
    expect(() => resistor()).toThrow(
      'R is defined twice, in cell 2, line 5 (called from cell 3, line 1) and in cell 2, line 5 (called from cell 3, line 1); where one helper is called several times, let sheet.each call it, which gives every call names of its own: sheet.each("name", { a, b }, x => helper(x))',
    );
  });

  it("is not the same name within each, which gives every call names of its own", () => {
    execute(1, "one");
    const { a, b } = sheet.each("law", { a: "R = V/I", b: "R = 2*V/I" } as const, (law) => ({ R: resistor(law) }));
    expect([a.R.in(ohm), b.R.in(ohm)]).toEqual([2500, 5000]);
  });

  it("is refused where nothing shows what a cell says, as in a script", () => {
    delete shared[sinkKey];
    resistor();
    expect(() => resistor()).toThrow("lamp: R is defined twice, in an earlier call and in an earlier call");
  });
});

describe("an item contributed after the sheet has collected its roll-up", () => {
  const late = () => sheet.contribute("all", { clip: one(3) });
  beforeEach(() => {
    execute(1, "one");
    sheet.contribute("all", { shell: one(2) });
  });

  it("is refused with both cells and the remedy", () => {
    execute(2, "two");
    sheet.collect("all", one, { name: "m", meaning: "sum" });
    execute(3, "three");
    expect(late).toThrow(
      'lamp, cell 3: clip contributed to "all" after cell 2 has collected it: the sum there lacks what comes later; contribute above that collect',
    );
  });

  it("is refused in the cell that collects too, whatever that cell has contributed before", () => {
    sheet.collect("all", one, { name: "m", meaning: "sum" });
    expect(late).toThrow('lamp, cell 1: clip contributed to "all" after cell 1 has collected it');
  });

  it("may belong to another roll-up", () => {
    sheet.collect("one", one, { name: "m", meaning: "sum" });
    expect(late).not.toThrow();
  });
});

describe("a cell that is run again", () => {
  it("replaces what it defined, edited or not", () => {
    execute(1, "one");
    resistor();
    execute(2, "one");
    expect(resistor("R = 2*V/I").in(ohm)).toBe(5000);
  });

  it("gives free what it defines no more", () => {
    execute(1, "one");
    resistor();
    sheet.contribute("all", { shell: one(2) });
    execute(2, "one");
    execute(3, "two");
    expect(resistor().in(ohm)).toBe(2500);
    sheet.contribute("all", { clip: one(3) });
    expect(sheet.collect("all", one, { name: "m", meaning: "sum" }).in(one)).toBe(3);
  });

  it("is told to run a sum again that lacks what it now contributes", () => {
    execute(1, "one");
    sheet.contribute("all", { shell: one(2) });
    execute(2, "two");
    sheet.collect("all", one, { name: "m", meaning: "sum" });
    execute(3, "one");
    sheet.contribute("all", { shell: one(4), clip: one(3) });
    expect(plain()).toContain(
      'lamp: shell, clip contributed to "all" after cell 2 has collected it: the sum there is of an earlier run; run that cell again',
    );
    execute(4, "two");
    expect(sheet.collect("all", one, { name: "m", meaning: "sum" }).in(one)).toBe(7);
  });

  it("replaces and says so where the front end does not tell cells apart", () => {
    resistor();
    expect(resistor("R = 2*V/I").in(ohm)).toBe(5000);
    expect(plain()).toContain("lamp: R is defined again; what it stood for before is replaced");
    sheet.contribute("all", { shell: one(2) });
    sheet.contribute("all", { shell: one(3) });
    expect(sheet.collect("all", one, { name: "m", meaning: "sum" }).in(one)).toBe(3);
  });

  it("is refused a name twice in one execution, though its id is not told", () => {
    execute(1);
    resistor();
    expect(() => resistor()).toThrow("R is defined twice, in cell 1");
    execute(2);
    expect(resistor("R = 2*V/I").in(ohm)).toBe(5000);
    expect(plain()).toContain("lamp: R is defined again; what it stood for before is replaced");
  });
});

describe("within each and alternatives", () => {
  const within = (call: () => void) => () =>
    sheet.each("rail", { low: 1 }, () => {
      call();
      return {};
    });
  const shown = ["published name", "assumption", "confirmation", "contribution", "requirement", "plot", "drawing"];
  const calls = Object.entries(named).filter(([words]) => shown.some((kind) => words.startsWith(kind)));
  it.each([...calls, ["caution", () => sheet.caution("eyes", "Do not look into it.")] as const])("nothing is dropped: %s", (_, call) => {
    execute(1, "one");
    expect(within(call)).toThrow(/within alternatives or each is shown nowhere; make it after them, from their results$/);
  });
});

const escaped = (text: string) => text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
