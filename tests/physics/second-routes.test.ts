/** Every public model is checked by a second route that shares no code with it; the table of routes is held against the tests themselves. */
import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import ts from "typescript-5.0";
import { describe, expect, it } from "vitest";
import { pathOf } from "../../lib/document/reference/catalogue";
import { entries } from "../document/all-examples";
import { routeKinds } from "./second-route";
import { secondRoutes } from "./second-routes";

const tests = fileURLToPath(new URL("..", import.meta.url));
const models = entries.filter(({ law }) => law.kind === "model");
const routes = Object.entries(secondRoutes).map(([model, route]) => ({ model, ...route }));

/** Titles of a test file: the first argument of describe and it, also behind each and skipIf. */
const titles = new Map<string, ReadonlySet<string>>();
function titlesOf(file: string): ReadonlySet<string> {
  const known = titles.get(file);
  if (known !== undefined) return known;
  const found = new Set<string>();
  const visit = (node: ts.Node): void => {
    if (ts.isCallExpression(node)) {
      const [title] = node.arguments;
      if (title !== undefined && ts.isStringLiteralLike(title) && /^(it|describe)\b/.test(node.expression.getText())) found.add(title.text);
    }
    ts.forEachChild(node, visit);
  };
  visit(ts.createSourceFile(file, readFileSync(tests + file, "utf8"), ts.ScriptTarget.Latest, true));
  titles.set(file, found);
  return found;
}

describe("second routes", () => {
  it("are named for every public model, and for nothing else", () => {
    expect(Object.keys(secondRoutes).toSorted()).toEqual(models.map(pathOf).toSorted());
  });

  it.each(routes)("of $model: $kind, $file", ({ file, title }) => {
    expect(existsSync(tests + file)).toBe(true);
    expect([...titlesOf(file)]).toContain(title);
  });

  it.each(routes)("of $model: the file calls it", ({ model, file }) => {
    expect(readFileSync(tests + file, "utf8")).toMatch(new RegExp(`\\b${model.replace(".", "\\.")}\\b`));
  });

  it("are tests that do run: none is left out but for a program that is missing", () => {
    for (const file of new Set(routes.map((route) => route.file)))
      expect(readFileSync(tests + file, "utf8")).not.toMatch(/\b(it|describe)\.(skip|todo|only)\b/);
  });

  it("are by ngspice for thirty or more, and not by one test for many", () => {
    const of = (kind: string) => routes.filter((route) => route.kind === kind).length;
    console.log(routeKinds.map((kind) => `${kind}: ${of(kind)}`).join(", "));
    expect(of("ngspice")).toBeGreaterThanOrEqual(30);
    expect(new Set(routes.map(({ file, title }) => `${file} ${title}`)).size).toBeGreaterThanOrEqual(90);
  });

  it("use every kind that is listed", () => {
    expect(new Set(routes.map(({ kind }) => kind))).toEqual(new Set(routeKinds));
  });
});
