/**
 * All rows of tests/checks together: how many there are of each standing, and that every one is run by a test. A row
 * counts as run where its id is a key of a table of computations, or the first argument of `check(…)`, in the syntax tree
 * of the one test that reads its file: a mention in a comment or a title does not count. That each computed value is
 * compared is for those tests; what they leave out of a row is found here where they name the values one by one.
 */
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import ts from "typescript-5.0";
import { describe, expect, it } from "vitest";

interface Row {
  readonly id: string;
  readonly topic: string;
  readonly expected: Readonly<Record<string, string>>;
  readonly source: string;
  readonly source_status: string;
}

const tests = fileURLToPath(new URL("..", import.meta.url));
const standings = ["confirmed", "computed", "from memory"];
const subjects = readdirSync(`${tests}checks`)
  .filter((file) => file.endsWith(".json"))
  .map((file) => file.slice(0, -".json".length))
  .sort();
const rowsOf = (subject: string): readonly Row[] => JSON.parse(readFileSync(`${tests}checks/${subject}.json`, "utf8"));
const files = subjects.map((subject) => ({ subject, rows: rowsOf(subject) }));
const all = files.flatMap(({ rows }) => rows);

/** Test files that read the rows of a subject, by themselves or through `checkRows`. */
function readersOf(subject: string): readonly string[] {
  const reads = new RegExp(`checks/${subject}\\.json"|checkRows\\(\\s*"${subject}"`);
  return readdirSync(tests, { recursive: true, encoding: "utf8" })
    .filter((file) => file.endsWith(".test.ts"))
    .filter((file) => reads.test(readFileSync(tests + file, "utf8")))
    .sort();
}

/** What a test file runs: ids that are keys of a table, and for ids passed to `check(…)` the names of the values. */
function runsOf(file: string): { readonly keys: ReadonlySet<string>; readonly named: ReadonlyMap<string, ReadonlySet<string>> } {
  const keys = new Set<string>();
  const named = new Map<string, Set<string>>();
  const visit = (node: ts.Node): void => {
    if (ts.isPropertyAssignment(node) && ts.isStringLiteral(node.name)) keys.add(node.name.text);
    if (ts.isCallExpression(node) && ts.isIdentifier(node.expression) && node.expression.text === "check") addNames(node, named);
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile(file, readFileSync(tests + file, "utf8"), ts.ScriptTarget.Latest));
  return { keys, named };
}

function addNames({ arguments: [id, values] }: ts.CallExpression, named: Map<string, Set<string>>): void {
  if (id === undefined || !ts.isStringLiteral(id) || values === undefined || !ts.isObjectLiteralExpression(values)) return;
  const names = values.properties.flatMap(({ name }) =>
    name !== undefined && (ts.isIdentifier(name) || ts.isStringLiteral(name)) ? [name.text] : [],
  );
  named.set(id.text, new Set([...(named.get(id.text) ?? []), ...names]));
}

function counts(rows: readonly Row[]): string {
  const of = (standing: string): string => `${rows.filter((row) => row.source_status === standing).length} ${standing}`;
  return `${rows.length} rows: ${standings.map(of).join(", ")}`;
}

describe(`check values of all subjects, ${counts(all)}`, () => {
  it("have an id of their own, a source and a known standing", () => {
    expect(new Set(all.map(({ id }) => id)).size).toBe(all.length);
    expect(all.filter(({ source_status }) => !standings.includes(source_status))).toEqual([]);
    expect(all.filter(({ source, expected }) => source.trim() === "" || Object.keys(expected).length === 0)).toEqual([]);
    console.log([...files.map(({ subject, rows }) => `${subject}: ${counts(rows)}`), `all: ${counts(all)}`].join("\n"));
  });

  it("are no fewer than they were", () => {
    const number = (standing: string): number => all.filter((row) => row.source_status === standing).length;
    expect(files.length).toBeGreaterThanOrEqual(12);
    expect(all.length).toBeGreaterThanOrEqual(115);
    expect(number("confirmed") + number("computed")).toBeGreaterThanOrEqual(104);
  });

  it.each(files)("of $subject belong to it, and are every one run by one test that reads them", ({ subject, rows }) => {
    const readers = readersOf(subject);
    expect(readers).toHaveLength(1);
    expect(readFileSync(tests + readers[0], "utf8")).not.toMatch(/\.(skip|skipIf|todo|only)\b/);
    const { keys, named } = runsOf(readers[0] as string);
    expect(rows.filter(({ id }) => !id.startsWith(`${subject}-`))).toEqual([]);
    expect(rows.map(({ id }) => id).filter((id) => !keys.has(id) && !named.has(id))).toEqual([]);
  });

  it.each(files)("of $subject are compared whole where a test names the values one by one", ({ subject, rows }) => {
    const { named } = runsOf(readersOf(subject)[0] as string);
    const left = rows
      .filter(({ id }) => named.has(id))
      .map(({ id, expected }) => ({ id, names: Object.keys(expected).filter((name) => !named.get(id)?.has(name)) }));
    expect(left.filter(({ names }) => names.length > 0)).toEqual([]);
  });
});
