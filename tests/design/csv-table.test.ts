/** Tables of givens in CSV files: what is read, and what each fault says. */
import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { readDesign } from "../../lib/design/read";
import type { TableNode } from "../../lib/graph/node";
import { filesBeside } from "../../lib/sheet/project";

const design = (table: string) => `
product: { name: Lamp, revision: "1" }
sources: { own: { type: document, title: Made up for this test } }
givens:
  iv:
    meaning: current against voltage
    source: own
    table: { ${table} }
`;

const plain = "voltage in V,current in mA\n2,0.1\n3,2\n4,6\n";
const read = (csv: string, table = "csv: iv.csv, interpolation: linear") =>
  readDesign(design(table), "d.yaml", undefined, (path) => {
    if (path === "iv.csv") return csv;
    throw new Error("there is no such file");
  });
const tableOf = (csv: string, table?: string) => read(csv, table).given("iv") as TableNode;
const fault = (csv: string, table?: string): string => {
  try {
    read(csv, table);
  } catch (error) {
    return (error as Error).message;
  }
  return "no error";
};

describe("a table in a CSV file", () => {
  it("is the table that its rows would be in the design file", () => {
    const inline = tableOf("", "columns: [voltage in V, current in mA], interpolation: linear, rows: [[2, 0.1], [3, 2], [4, 6]]");
    const { provenance: _, ...own } = tableOf(plain);
    expect(inline).toMatchObject(own);
    expect(own).toMatchObject({ xName: "voltage", unit: "mA", x: [2, 3, 4], y: [expect.closeTo(1e-4, 15), 0.002, 0.006] });
  });

  it.each([
    ["a mark at the beginning and Windows line ends", `\ufeff${plain.replaceAll("\n", "\r\n")}`],
    ["quotes, remarks, blank lines and spaces", '# measured by hand\n"voltage in V", current in mA\n2, 0.1\n\n"3",2\n4,6'],
    ["signs and exponents", "voltage in V,current in mA\n2,1e-1\n+3,2.0\n4,6E0\n"],
  ])("may have %s", (_, csv) => {
    expect(tableOf(csv)).toMatchObject({ x: [2, 3, 4], y: [expect.closeTo(1e-4, 15), 0.002, 0.006] });
  });

  it("takes its columns from the design file where that states them", () => {
    const table = tableOf(
      plain.replace("voltage in V,current in mA", "U,I"),
      "csv: iv.csv, interpolation: log-y, columns: [bias in mV, current in A]",
    );
    expect(table).toMatchObject({ xName: "bias", x: [0.002, 0.003, 0.004], y: [0.1, 2, 6], interpolation: "log-y" });
  });

  it("counts as part of what the design file says: a change in it is a change of the given", () => {
    expect(read(plain).text("iv")).not.toBe(read(plain.replace("3,2", "3,2.1")).text("iv"));
  });

  it.each([
    [
      "semicolons",
      "voltage in V;current in mA\n2;0,1\n3;2\n",
      "iv.csv:1: the columns are separated by semicolons; expected commas between columns and a point in numbers (RFC 4180)",
    ],
    [
      "a decimal comma",
      'voltage in V,current in mA\n2,"0,1"\n3,2\n',
      "iv.csv:2 holds '0,1'; expected a finite number with a decimal point",
    ],
    ["a third column", "voltage in V,current in mA\n2,0.1,9\n3,2\n", "iv.csv:2: 3 columns; expected two, the abscissa and the ordinate"],
    ["an empty cell", "voltage in V,current in mA\n2,\n3,2\n", "iv.csv:2 holds ''"],
    ["an open quote", 'voltage in V,current in mA\n2,"0.1\n3,2\n', "iv.csv:"],
    ["an unknown unit", plain.replace("in mA", "in mAA"), "iv.csv:1: head 'current in mAA': "],
    [
      "rows out of order",
      "# remark\nvoltage in V,current in mA\n3,2\n2,1\n",
      "iv.csv:4: 2 follows 3; expected a first column that increases strictly",
    ],
    ["an error behind a quoted line end", 'voltage in V,"current\r\n in mA"\r\n2,1\r\n3,x\r\n', "iv.csv:4 holds 'x'"],
    ["one row", "voltage in V,current in mA\n2,1\n", "iv.csv has fewer than two rows"],
    ["nothing", "", "iv.csv has fewer than two rows"],
  ])("with %s is refused with its line and what to do", (_, csv, message) => {
    expect(fault(csv)).toContain(`d.yaml:8:19: ${message}`);
  });

  it("is refused beside rows, with zeros under a logarithm, and where the file is not there", () => {
    expect(fault(plain, "csv: iv.csv, interpolation: linear, rows: [[1, 2], [2, 3]]")).toContain(
      "given 'iv' has rows and csv; expected one of rows and csv",
    );
    expect(fault(plain.replace("2,0.1", "2,0"), "csv: iv.csv, interpolation: log-y")).toContain("iv.csv:2: 0 has no logarithm");
    expect(fault(plain, "csv: other.csv, interpolation: linear")).toContain(
      "cannot read other.csv for the table of given 'iv': there is no such file",
    );
  });
});

describe("the files that a design file may name", () => {
  const home = mkdtempSync(join(tmpdir(), "csv-"));
  afterAll(() => rmSync(home, { recursive: true, force: true }));
  mkdirSync(join(home, "book/data"), { recursive: true });
  writeFileSync(join(home, "book/data/iv.csv"), plain);
  writeFileSync(join(home, "book/top.csv"), plain);
  writeFileSync(join(home, "secret.csv"), plain);
  symlinkSync(join(home, "secret.csv"), join(home, "book/data/link.csv"));
  const beside = filesBeside(join(home, "book/data/d.yaml"), join(home, "book"));

  it("lie in the project", () => {
    expect(beside("iv.csv")).toBe(plain);
    expect(beside("../top.csv")).toBe(plain);
  });

  it.each([
    ["../../secret.csv", "outside the project"],
    ["/etc/passwd", "outside the project"],
    ["link.csv", "leads outside the project"],
    ["none.csv", "no such file"],
  ])("%s is refused", (path, reason) => {
    expect(() => beside(path)).toThrow(reason);
  });
});
