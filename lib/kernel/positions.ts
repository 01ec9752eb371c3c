/**
 * From places in the script that V8 runs to places in a cell. tslab emits twice, TypeScript to ES modules and those
 * to CommonJS; each emit leaves an inline source map, and the two are followed backwards.
 */
import { SourceMap, type SourceMapPayload } from "node:module";
import type { Frame } from "./protocol";

export interface SourceMaps {
  /** CommonJS to ES module. */
  readonly outer: SourceMap;
  /** ES module to the cell, whose first line is the second of what tslab compiles. */
  readonly inner: SourceMap;
  /** Lines of the script; tslab's call of it stands on the line after. */
  readonly lines: number;
}

const mapComment = /^\/\/# sourceMappingURL=data:application\/json;base64,([\w+/=]+)$/gm;

/** Separates emitted code from its source maps. */
export function takeMaps(code: string): { code: string; maps?: SourceMaps } {
  const found = [...code.matchAll(mapComment)].map((match) => match[1] as string);
  const bare = code.replace(mapComment, "").trimEnd();
  const [inner, outer] = found.slice(-2).map(decode);
  return inner && outer ? { code: bare, maps: { inner, outer, lines: bare.split("\n").length } } : { code: bare };
}

export const scriptName = (cell: number) => `cell:${cell}`;

/** The frames of a stack trace that lie in cells, innermost first, placed in the cells' own lines and columns. */
export function framesOf(stack: string, maps: ReadonlyMap<string, SourceMaps>): Frame[] {
  const frames: Frame[] = [];
  for (const match of stack.matchAll(/^ {4}at (?:(?:async )?([^\n(]*?) \()?(?:async )?cell:(\d+):(\d+):(\d+)\)?$/gm)) {
    const [, name, cell, line, column] = match;
    const found = maps.get(scriptName(Number(cell)));
    const position = found && place(found, Number(line), Number(column));
    if (position) frames.push({ cell: Number(cell), ...position, name: functionName(name) });
  }
  return frames;
}

/** V8 counts from 1, source maps from 0. Line 1 holds tslab's wrapper and the mark of an ES module, nothing of the cell. */
function place(maps: SourceMaps, line: number, column: number): { line: number; column: number } | undefined {
  if (line === 1 || line > maps.lines) return undefined;
  const middle = maps.outer.findEntry(line - 1, column - 1);
  if (!("originalLine" in middle)) return undefined;
  const origin = maps.inner.findEntry(middle.originalLine, middle.originalColumn);
  if (!("originalLine" in origin) || origin.originalLine < 1) return undefined;
  return { line: origin.originalLine, column: origin.originalColumn + 1 };
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
