/** Failures of a cell, told from what tslab and V8 report: the first place in a cell and a sentence. */
import { inspect } from "node:util";
import type { ConvertResult, Diagnostic } from "tslab/dist/converter";
import { type CellPlaces, framesOf } from "./positions";
import type { Failure, FailureKind, Frame } from "./protocol";

/** Everything a failure is told from. */
export interface Scene {
  /** The cell that is running, or that ran last. */
  readonly cell: number;
  readonly maps: ReadonlyMap<string, CellPlaces>;
}

/** The first diagnostic, its chain as one sentence, and how many follow. Null when the cell compiled. */
export function compileFailure(converted: ConvertResult | undefined, cell: number): Failure | null {
  const first = converted?.diagnostics[0];
  if (converted === undefined || first === undefined) return null;
  const chain = converted.diagnostics.filter((d) => samePlace(d, first));
  const more = new Set(converted.diagnostics.filter((d) => !samePlace(d, first)).map((d) => `${d.fileName}:${d.start.offset}`)).size;
  const text = compileMessage(
    chain.map(({ messageText }) => messageText),
    more,
  );
  const line = first.start.line + 1,
    column = first.start.character + 1;
  if (first.fileName !== undefined) return { kind: "compile", cell, message: `${first.fileName}:${line}:${column}: ${text}` };
  return { kind: "compile", cell, line, column, message: text };
}

/** A compiler's chain of messages as one text, and how many other errors the cell has. */
export function compileMessage(chain: readonly string[], more: number): string {
  const told = chain.map((message, depth) => "  ".repeat(depth) + message).join("\n");
  const rest = more === 0 ? "" : `\n(and ${more} more ${more === 1 ? "error" : "errors"} in this cell)`;
  return (typeSentence(told) ?? told) + rest;
}

/** The library's types put their sentence into a string literal type: `not assignable to parameter of type '"✗ cannot add …"'`. */
function typeSentence(message: string): string | undefined {
  const literal = /"✗ (?:[^"\\]|\\.)*"/.exec(message)?.[0];
  return literal === undefined ? undefined : (JSON.parse(literal) as string).slice("✗ ".length);
}

const samePlace = (a: Diagnostic, b: Diagnostic) =>
  a.fileName === b.fileName && a.start.offset === b.start.offset && a.end.offset === b.end.offset;

/** A thrown value. The place is the innermost frame that lies in a cell: a library's own frames are left out. */
export function throwFailure(kind: FailureKind, thrown: unknown, scene: Scene): Failure {
  const trace = thrown instanceof Error || hasStack(thrown) ? framesOf(String(thrown.stack), scene.maps) : [];
  return { ...placed(kind, trace, scene.cell), message: sentence(thrown) };
}

/** A failure at the code that is running now. */
export function failureHere(kind: FailureKind, message: string, scene: Scene): Failure {
  return { ...placed(kind, framesOf(String(new Error().stack), scene.maps), scene.cell), message };
}

function placed(kind: FailureKind, trace: readonly Frame[], cell: number): Omit<Failure, "message"> {
  const [first] = trace;
  return first ? { kind, cell: first.cell, line: first.line, column: first.column, trace } : { kind, cell };
}

const hasStack = (value: unknown): value is { stack: unknown } => typeof value === "object" && value !== null && "stack" in value;

/** Our own errors speak for themselves; others are told with their type. Causes follow. */
function sentence(thrown: unknown, depth = 0): string {
  if (!(thrown instanceof Error)) return `the cell threw ${inspect(thrown, { depth: 1, breakLength: 100 })}, which is not an Error`;
  const own = thrown.name === "WorkingsError" ? thrown.message : `${thrown.name}: ${thrown.message}`;
  return thrown.cause instanceof Error && depth < 5 ? `${own}\ncaused by ${sentence(thrown.cause, depth + 1)}` : own;
}
