/** Every way in which a cell can go wrong, each in a sheet of its own, in one run of one book. */
import { beforeAll, describe, expect, it } from "vitest";
import { formatNotebook, readNotebook } from "../../lib/kernel/notebook";
import { type FaultBook, healthy, opening, ranBook } from "./fault-book";

interface Fault {
  readonly name: string;
  readonly cells: readonly string[];
  readonly kind: string;
  /** Cell, line, column; the last two only where a place is known. */
  readonly place: readonly number[];
  readonly message: string;
}

/** Faults of what a cell asks of the library. */
const given = (spec: string, rest: string) => `const g = sheet.given({ ${spec} });\n${rest}`;
const V = 'V: ["high", volt]';
const asked: readonly (readonly [string, string, string, string, readonly number[], string])[] = [
  [
    "dimension",
    "throw",
    'V: ["current", volt]',
    "",
    [2, 1, 17],
    "dimension, cell 2: data/design.yaml:6:21: current is current; the worksheet asks for voltage (in V); change the unit there or the path here",
  ],
  ["path", "throw", 'V: ["hihg", volt]', "", [2, 1, 17], "data/design.yaml has no given 'hihg'; did you mean 'high'?"],
  [
    "sum",
    "compile",
    `${V}, I: ["current", mA]`,
    'sheet.derive("q = V + I", g, volt, "nothing");',
    [2, 2, 14],
    "cannot add V (voltage) and I (current)",
  ],
  ["symbol", "compile", V, 'sheet.derive("q = V*W", g, volt, "nothing");', [2, 2, 14], "unknown symbol 'W'"],
  ["bracket", "compile", V, 'sheet.derive("q = (V*2", g, volt, "nothing");', [2, 2, 14], "unbalanced: '(' without ')'"],
  [
    "unchecked",
    "throw",
    V,
    'const law: string = "q = (V*2";\n(sheet as any).derive(law, g, volt, "nothing");',
    [2, 3, 16],
    `unchecked, cell 2: "q = (V*2": ✗ unbalanced: '(' without ')'`,
  ],
  [
    "zero",
    "throw",
    `${V}, Z: ["none", volt]`,
    'sheet.derive("q = V*V/Z", g, volt, "nothing");',
    [2, 2, 7],
    "zero.q (nothing) = V*V/Z: V*V/Z divides by zero: Z is 0 there; exclude that case with if() or change the givens it comes from",
  ],
  [
    "outside",
    "throw",
    `${V}, c: ["curve", volt, mA]`,
    "sheet.publish({ I: g.c.at(g.V) });",
    [2, 2, 24],
    "the curve curve: x = 5 lies outside the table, which runs from 1 to 3 (SI); give it more rows, or stay inside",
  ],
  ["nan", "throw", V, "volt(NaN);", [2, 2, 5], "NaN V is no quantity: a finite number is expected"],
  ["infinity", "throw", V, "volt(1 / 0);", [2, 2, 5], "Infinity V is no quantity: a finite number is expected"],
];

/** Names that are defined twice: the second place is that of the error, both are in its sentence. */
const helper = 'const half = () => {\n  return sheet.derive("H = V/2", g, volt, "half");\n};';
const doubled: readonly Fault[] = [
  {
    name: "helper",
    cells: [opening("helper"), given(V, helper), "half();\nhalf();"],
    kind: "throw",
    place: [2, 3, 16],
    message:
      'helper, cell 3: H is defined twice, in cell 2, line 3 (called from cell 3, line 1) and in cell 2, line 3 (called from cell 3, line 2); where one helper is called several times, let sheet.each call it, which gives every call names of its own: sheet.each("name", { a, b }, x => helper(x))',
  },
  {
    name: "publishes",
    cells: [opening("publishes"), given(V, "sheet.publish({ V: g.V });"), "const one = 1;\nsheet.publish({ V: g.V });"],
    kind: "throw",
    place: [3, 2, 7],
    message:
      'publishes, cell 3: published name "V" is defined twice, in cell 2, line 2 and in cell 3, line 2; give one of the two another name',
  },
];

/** Faults of what a cell does to its process. */
const done: readonly Fault[] = [
  {
    name: "throws",
    cells: ["const a = 1;", "console.log('so far');\nthrow new RangeError('too much');"],
    kind: "throw",
    place: [2, 2, 7],
    message: "RangeError: too much",
  },
  { name: "loops", cells: ["for (;;) {}"], kind: "timeout", place: [1], message: "the cell did not end within 4 s and was stopped" },
  {
    name: "waits",
    cells: ["await new Promise(() => undefined);"],
    kind: "stalled",
    place: [1],
    message: "the cell awaits a promise that nothing is left to settle: no timer, file or connection is open",
  },
  {
    name: "memory",
    cells: ["const kept: number[][] = [];\nfor (;;) kept.push(new Array(100000).fill(1.5));"],
    kind: "death",
    place: [1],
    message: "the sheet needs more memory than its limit of 400 MiB",
  },
  {
    name: "rejects",
    cells: ["const p = 1;\nvoid new Promise((_, reject) => setTimeout(() => reject(new Error('later')), 30));", "const q = 2;"],
    kind: "rejection",
    place: [1, 2, 57],
    message: "Error: later",
  },
  {
    name: "exits",
    cells: ["const a = 1;\nprocess.exit(0);"],
    kind: "exit",
    place: [1, 2, 9],
    message: "the cell ended the process (process.exit, code 0); a sheet must run to its end",
  },
  {
    name: "kills",
    cells: ["process.kill(process.pid, 'SIGKILL'); for (;;) {}"],
    kind: "death",
    place: [1],
    message: "the kernel's process ended by signal SIGKILL before the sheet was done",
  },
];

const faults: readonly Fault[] = [
  ...asked.map(([name, kind, spec, rest, place, message]) => ({ name, kind, place, message, cells: [opening(name), given(spec, rest)] })),
  ...doubled,
  ...done,
];

interface Told {
  readonly sheet: string;
  readonly ok: boolean;
  readonly error?: {
    readonly kind: string;
    readonly cell?: number;
    readonly line?: number;
    readonly column?: number;
    readonly message: string;
  };
}

/** After what a cell does to its process another sheet must run; after another fault the next fault is that sheet. */
const nextTo = ({ name }: Fault) => `${name} next`;

const file = (name: string) => `notebooks/${name}.ipynb`;
let before: Record<string, string>;
let after: Record<string, string>;
let status: number | null;
let told: readonly Told[];

beforeAll(async () => {
  const names = faults.flatMap((fault) => (done.includes(fault) ? [fault.name, nextTo(fault)] : [fault.name]));
  const book: FaultBook = await ranBook(Object.fromEntries(names.map((name) => [`${name}.ipynb`, healthy(name)])));
  for (const { name, cells } of faults) {
    // With the outputs that it had while it was healthy: those must not be lost.
    const { cells: old, ...notebook } = readNotebook(book.file(file(name)));
    const cell = old[1];
    if (cell?.cell_type !== "code") throw new Error("no code cell");
    book.write(file(name), formatNotebook({ ...notebook, cells: cells.map((source, i) => ({ ...cell, id: `c${i + 1}`, source })) }));
  }
  before = book.files("build/fresh.json");
  const ran = await book.run("--all", "--json", "--timeout", "4", "--heap", "400");
  after = book.files("build/fresh.json");
  status = ran.status;
  told = (JSON.parse(ran.stdout) as { sheets: Told[] }).sheets;
}, 240_000);

describe("a cell that fails", () => {
  it.each(faults)("$name is told with its place and what to do", ({ name, kind, place: [cell, line, column], message }) => {
    const error = told.find(({ sheet }) => sheet === name)?.error;
    expect(error).toMatchObject({ kind, cell, message, ...(line !== undefined && { line, column }) });
  });

  it("does not keep the sheet after it from running", () => {
    expect(told.filter(({ sheet }) => sheet.endsWith(" next")).map(({ ok }) => ok)).toEqual(done.map(() => true));
    expect(told.filter(({ ok }) => !ok).map(({ sheet }) => sheet)).toEqual(faults.map(({ name }) => name));
  });

  it("ends the run with 1 and leaves every file as it was but the record of what failed", () => {
    expect(status).toBe(1);
    expect(after).toEqual(before);
  });
});
