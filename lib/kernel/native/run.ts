/** Runs compiled cells in this process, each a script of its own name; what they declare is handed from cell to cell. */
import { createRequire, SourceMap, type SourceMapPayload } from "node:module";
import { join } from "node:path";
import vm from "node:vm";
import { type CellPlaces, scriptName } from "../positions";
import type { CompiledCell } from "../protocol";
import { headLines, moduleName } from "./cell-modules";
import { lastExpression } from "./compile";

type Exports = Record<string, unknown>;

export class NativeRun {
  readonly maps = new Map<string, CellPlaces>();
  private readonly exported = new Map<string, Exports>();
  private readonly load = createRequire(join(process.cwd(), "src.js"));

  /** Runs one cell. Returns what it threw, if it did. */
  async execute(cell: number, { code, map, isAsync }: CompiledCell): Promise<{ readonly thrown: unknown } | undefined> {
    const name = scriptName(cell);
    this.maps.set(name, placesOf(code, map));
    const exports: Exports = {};
    this.exported.set(moduleName(cell), exports);
    try {
      const script = `(${isAsync ? "async " : ""}function(exports, require) { ${code}\n})`;
      const body = vm.runInThisContext(script, { filename: name }) as (exports: Exports, load: unknown) => unknown;
      const result = body(exports, this.require);
      if (isAsync) await result;
    } catch (thrown) {
      return { thrown };
    }
    const last = exports[lastExpression];
    if (last !== undefined && last !== null) console.log(last);
    return undefined;
  }

  private readonly require = new Proxy(this.load, {
    apply: (load, self, [name]: [string]) => this.exported.get(name) ?? Reflect.apply(load, self, [name]),
  });
}

/** V8 counts from 1, source maps from 0. The script's first line holds the head of the function, nothing of the cell. */
function placesOf(code: string, map: string): CellPlaces {
  const source = new SourceMap(JSON.parse(map) as SourceMapPayload);
  const lines = code.split("\n").length;
  return {
    lines,
    place(line, column) {
      if (line === 1 || line > lines) return undefined;
      const found = source.findEntry(line - 1, column - 1);
      if (!("originalLine" in found) || found.originalLine < headLines) return undefined;
      return { line: found.originalLine - headLines + 1, column: found.originalColumn + 1 };
    },
  };
}
