/** The architecture as a test: imports run down the floors only, without cycles, and the browser floors use nothing of Node. */
import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";

const lib = join(dirname(fileURLToPath(import.meta.url)), "../lib");
const floors = ["quantity", "formula", "graph", "analysis", "design", "physics", "sheet", "kernel", "book", "prose", "document", "cli"];
/** The public doors: they gather floors, so they may import any of them. */
const doors = new Set(["index.ts", "units.ts", "physics.ts", "bundle.ts"]);
/** What runs in the page too. */
const browser = /^(quantity|formula|graph|analysis|physics|document\/page)\//;
/** Needs mathjs, and so stays out of the page. */
const parser = /^formula\/parse/;

interface Import {
  readonly from: string;
  readonly to: string;
  readonly typeOnly: boolean;
}

const files = readdirSync(lib, { recursive: true, encoding: "utf8" })
  .filter((file) => file.endsWith(".ts"))
  .map((file) => file.split("\\").join("/"));

const imports: Import[] = files.flatMap((from) => {
  const source = readFileSync(join(lib, from), "utf8");
  const statements = source.matchAll(/^(?:import|export)\s+(type\s)?[^"';]*?from\s+"([^"]+)"|^import\s+"([^"]+)"/gm);
  return [...statements].map(([, typeOnly, named, bare]) => ({ from, to: named ?? bare ?? "", typeOnly: typeOnly !== undefined }));
});

const inside = (one: Import) =>
  relative(lib, resolve(lib, dirname(one.from), one.to))
    .split("\\")
    .join("/");
const known = new Set(files);
const fileOf = (path: string) => (known.has(`${path}.ts`) ? `${path}.ts` : `${path}/index.ts`);
/** `lib/physics.ts` is the door of its floor; `lib/units.ts` is a table of the floor of quantities. */
const floorOf = (file: string) => floors.indexOf(file === "units" ? "quantity" : (file.split("/")[0] ?? ""));

describe("the floors of the library", () => {
  it("import only downwards", () => {
    const upward = imports
      .filter((one) => one.to.startsWith(".") && !doors.has(one.from))
      .filter((one) => floorOf(inside(one)) < 0 || floorOf(inside(one)) > floorOf(one.from));
    expect(upward.map((one) => `${one.from} → ${one.to}`)).toEqual([]);
  });

  it("have no import cycles but those of types", () => {
    const graph = new Map<string, string[]>();
    for (const one of imports.filter((each) => each.to.startsWith(".") && !each.typeOnly)) {
      const targets = graph.get(one.from) ?? [];
      graph.set(one.from, [...targets, fileOf(inside(one))]);
    }
    const state = new Map<string, "open" | "done">();
    const cycles: string[] = [];
    const visit = (file: string, path: string[]): void => {
      if (state.get(file) === "done") return;
      if (state.get(file) === "open") {
        cycles.push([...path.slice(path.indexOf(file)), file].join(" → "));
        return;
      }
      state.set(file, "open");
      for (const next of graph.get(file) ?? []) visit(next, [...path, file]);
      state.set(file, "done");
    };
    for (const file of files) visit(file, []);
    expect(cycles).toEqual([]);
  });

  it("that run in the page use nothing of Node", () => {
    const node = imports.filter((one) => browser.test(one.from) && !parser.test(one.from) && one.to.startsWith("node:"));
    expect(node.map((one) => `${one.from} → ${one.to}`)).toEqual([]);
  });

  it("use mathjs in the parser of formulas only", () => {
    expect(imports.filter((one) => one.to.startsWith("mathjs")).filter((one) => !parser.test(one.from))).toEqual([]);
  });
});
