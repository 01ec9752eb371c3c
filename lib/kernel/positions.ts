/**
 * From places in the script that V8 runs to places in a cell. tslab emits twice, TypeScript to ES modules and those
 * to CommonJS; each emit leaves an inline source map, and the two are followed backwards.
 */
import { SourceMap, type SourceMapPayload } from "node:module";
import type { Frame } from "./protocol";

/** Where the places of a cell's script lie in the cell. */
export interface CellPlaces {
  /** Lines of the script; whatever calls it stands after. */
  readonly lines: number;
  /** Both 1-based, as V8 counts; undefined for what is not of the cell. */
  place(line: number, column: number): { readonly line: number; readonly column: number } | undefined;
}

const mapComment = /^\/\/# sourceMappingURL=data:application\/json;base64,([\w+/=]+)$/gm;

/** Separates what tslab emitted from its source maps. */
export function takeMaps(code: string): { code: string; maps?: CellPlaces } {
  const found = [...code.matchAll(mapComment)].map((match) => match[1] as string);
  const bare = code.replace(mapComment, "").trimEnd();
  const [inner, outer] = found.slice(-2).map(decode);
  return inner && outer ? { code: bare, maps: twofold(inner, outer, bare.split("\n").length) } : { code: bare };
}

/** V8 counts from 1, source maps from 0. Line 1 holds tslab's wrapper and the mark of an ES module, nothing of the cell. */
function twofold(inner: SourceMap, outer: SourceMap, lines: number): CellPlaces {
  return {
    lines,
    place(line, column) {
      if (line === 1 || line > lines) return undefined;
      const middle = outer.findEntry(line - 1, column - 1);
      if (!("originalLine" in middle)) return undefined;
      const origin = inner.findEntry(middle.originalLine, middle.originalColumn);
      // The cell's first line is the second of what tslab compiles.
      if (!("originalLine" in origin) || origin.originalLine < 1) return undefined;
      return { line: origin.originalLine, column: origin.originalColumn + 1 };
    },
  };
}

export const scriptName = (cell: number) => `cell:${cell}`;

/** The frames of a stack trace that lie in cells, innermost first, placed in the cells' own lines and columns. */
export function framesOf(stack: string, maps: ReadonlyMap<string, CellPlaces>): Frame[] {
  const frames: Frame[] = [];
  for (const match of stack.matchAll(/^ {4}at (?:(?:async )?([^\n(]*?) \()?(?:async )?cell:(\d+):(\d+):(\d+)\)?$/gm)) {
    const [, name, cell, line, column] = match;
    const found = maps.get(scriptName(Number(cell)));
    const position = found?.place(Number(line), Number(column));
    if (position) frames.push({ cell: Number(cell), ...position, name: functionName(name) });
  }
  return frames;
}

function functionName(name: string | undefined): string {
  const bare = (name ?? "").replace(/ \[as .*\]$/, "");
  return bare === "" || bare === "<anonymous>" || bare.startsWith("Object.<anonymous>")
    ? ""
    : bare.replace(/^(?:exports|Proxy|Object)\./, "");
}

function decode(base64: string): SourceMap {
  return new SourceMap(JSON.parse(Buffer.from(base64, "base64").toString("utf8")) as SourceMapPayload);
}
