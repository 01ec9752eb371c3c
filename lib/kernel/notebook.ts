/**
 * Notebooks as files: nbformat 4.5 (Jupyter's JSON schema), in memory with every multi-line text as one string.
 * Formatting gives the bytes that Python's nbformat gives for the same notebook. One exception: a whole number
 * written with a decimal point (`1.0`) is read as JavaScript reads it and written as `1`.
 */
import { readFileSync, statSync } from "node:fs";
import { basename } from "node:path";
import { WorkingsError } from "../quantity/error";
import { decodeText } from "../sheet/text-file";
import { jsonFault } from "./json-fault";
import { validateNotebook } from "./notebook-schema";
import { type Json, type JsonObject, pythonJson, splitLines } from "./python-json";
import { writeUnchanged } from "./write";

interface StreamOutput {
  output_type: "stream";
  name: "stdout" | "stderr";
  text: string;
}

interface DisplayOutput {
  output_type: "display_data" | "execute_result";
  data: Record<string, Json>;
  metadata: JsonObject;
  execution_count?: number | null;
}

interface ErrorOutput {
  output_type: "error";
  ename: string;
  evalue: string;
  traceback: string[];
}

export type Output = StreamOutput | DisplayOutput | ErrorOutput;

export interface CodeCell {
  cell_type: "code";
  id: string;
  metadata: JsonObject;
  source: string;
  outputs: Output[];
  execution_count: number | null;
}

interface TextCell {
  cell_type: "markdown" | "raw";
  id: string;
  metadata: JsonObject;
  source: string;
  attachments?: Record<string, JsonObject>;
}

type Cell = CodeCell | TextCell;

export interface Notebook {
  nbformat: 4;
  nbformat_minor: 5;
  metadata: JsonObject;
  cells: Cell[];
}

/** A larger file is refused: 64 MiB. A sheet with its plots takes well under one. */
export const largestNotebook = 64 * 1024 * 1024;

/** Levels of brackets in JSON and in a cell: a notebook with its plots has some twenty, and what reads it calls itself once a level. */
const deepest = 1_000;

/** Reads and validates a notebook. Throws WorkingsError "notebook" that names the file, the place and what is wrong. */
export function readNotebook(path: string): Notebook {
  return parseNotebook(readNotebookText(path), basename(path));
}

/** The text of a notebook file; throws WorkingsError "notebook" when it is missing, unreadable, not UTF-8 or over the limit. */
export function readNotebookText(path: string): string {
  const name = basename(path);
  let size: number;
  try {
    size = statSync(path).size;
    if (size <= largestNotebook) return decodeText(readFileSync(path));
  } catch (error) {
    throw new WorkingsError("notebook", `cannot read the notebook ${name}: ${(error as Error).message}`, { place: name });
  }
  const mega = (bytes: number) => (bytes / 1024 / 1024).toFixed(0);
  throw new WorkingsError(
    "notebook",
    `${name} has ${mega(size)} MiB; the limit is ${mega(largestNotebook)} MiB. Clear its outputs and run it again.`,
    { place: name },
  );
}

/** `name` is the file name used in messages. */
export function parseNotebook(text: string, name: string): Notebook {
  const notebook = validateNotebook(parseJson(text, name), name);
  joinTexts(notebook);
  stripTransient(notebook);
  notebook.cells.forEach((cell, index) => {
    if (tooDeep(cell.source) === undefined) return;
    const where = `${name}: cell ${index + 1} of all ${notebook.cells.length} (id ${cell.id})`;
    throw new WorkingsError("notebook", `${where} has brackets nested deeper than ${deepest} levels`, { place: name });
  });
  return notebook;
}

/** The file's text, as nbformat 5 writes it: sorted keys, indent 1, lines of text as lists, a newline at the end. */
export function formatNotebook(notebook: Notebook): string {
  const copy = structuredClone(notebook);
  stripTransient(copy);
  return `${pythonJson({ ...copy, cells: copy.cells.map(splitCell) } as unknown as Json)}\n`;
}

/**
 * Writes the notebook whole or not at all, only when its bytes change; true when they did. `before` is its text as it was read: throws
 * WorkingsError "changed" where the file has another one by now.
 */
export function writeNotebook(path: string, before: string, notebook: Notebook): boolean {
  return writeUnchanged(path, Buffer.from(before, "utf8"), formatNotebook(notebook));
}

/** Whether every code cell that says something has been executed. */
export function hasRun(notebook: Notebook): boolean {
  return codeCells(notebook).every(({ source, execution_count }) => source.trim() === "" || execution_count !== null);
}

/** Jupyter does not execute a blank cell: it has no count. */
export const isBlank = (cell: CodeCell): boolean => cell.source.trim() === "";

export function codeCells(notebook: Notebook): CodeCell[] {
  return notebook.cells.filter((cell): cell is CodeCell => cell.cell_type === "code");
}

function parseJson(text: string, name: string): unknown {
  const bare = text.startsWith("\uFEFF") ? text.slice(1) : text;
  checkDepth(bare, name);
  try {
    return JSON.parse(bare);
  } catch {
    const { offset, expected } = jsonFault(bare);
    const before = bare.slice(0, offset).split("\n");
    const place = `${name}:${before.length}:${(before.at(-1) ?? "").length + 1}`;
    const found = offset === bare.length ? "the file ends" : `found ${JSON.stringify(bare[offset])}`;
    throw new WorkingsError("notebook", `${place}: not a notebook, the JSON is malformed: ${found} where ${expected} was expected`, {
      place,
    });
  }
}

function checkDepth(text: string, name: string): void {
  const offset = tooDeep(text);
  if (offset === undefined) return;
  const place = `${name}:${text.slice(0, offset).split("\n").length}`;
  throw new WorkingsError("notebook", `${place}: JSON nested deeper than ${deepest} levels; a notebook has some twenty`, { place });
}

/** Where brackets outside texts in double quotes are nested too deep. A scan, because JSON's and TypeScript's readers call themselves. */
function tooDeep(text: string): number | undefined {
  let depth = 0;
  for (const { 0: piece, index } of text.matchAll(/"(?:[^"\\]|\\.)*"|[[\](){}]/gs)) {
    if (piece === "[" || piece === "{" || piece === "(") depth += 1;
    else if (piece.length === 1) depth -= 1;
    if (depth > deepest) return index;
  }
  return undefined;
}

const isJsonType = (mime: string) => mime === "application/json" || (mime.startsWith("application/") && mime.endsWith("+json"));
const isSplitType = (mime: string) => mime.startsWith("text/") || mime === "application/javascript" || mime === "image/svg+xml";
const isLines = (value: unknown): value is string[] => Array.isArray(value) && value.every((line) => typeof line === "string");

function joined<T>(value: T): T | string {
  return isLines(value) ? value.join("") : value;
}

function joinBundle(bundle: Record<string, Json>): void {
  for (const [mime, value] of Object.entries(bundle)) if (!isJsonType(mime)) bundle[mime] = joined(value);
}

function joinTexts(notebook: Notebook): void {
  for (const cell of notebook.cells) {
    cell.source = joined(cell.source);
    if (cell.cell_type !== "code") for (const bundle of Object.values(cell.attachments ?? {})) joinBundle(bundle);
    else cell.outputs.forEach(joinOutput);
  }
}

function joinOutput(output: Output): void {
  if (output.output_type === "stream") output.text = joined(output.text);
  else if (output.output_type !== "error") joinBundle(output.data);
}

function splitBundle(bundle: Record<string, Json>): JsonObject {
  const split = ([mime, value]: [string, Json]): [string, Json] => [
    mime,
    typeof value === "string" && isSplitType(mime) ? splitLines(value) : value,
  ];
  return Object.fromEntries(Object.entries(bundle).map(split));
}

function splitOutput(output: Output): object {
  if (output.output_type === "stream") return { ...output, text: splitLines(output.text) };
  return output.output_type === "error" ? output : { ...output, data: splitBundle(output.data) };
}

function splitCell(cell: Cell): object {
  const source = splitLines(cell.source);
  if (cell.cell_type === "code") return { ...cell, source, outputs: cell.outputs.map(splitOutput) };
  if (cell.attachments === undefined) return { ...cell, source };
  const attachments = Object.fromEntries(Object.entries(cell.attachments).map(([name, bundle]) => [name, splitBundle(bundle)]));
  return { ...cell, source, attachments };
}

/** nbformat's strip_transient: state of one session, never stored. */
function stripTransient(notebook: Notebook): void {
  for (const key of ["orig_nbformat", "orig_nbformat_minor", "signature"]) delete notebook.metadata[key];
  for (const cell of notebook.cells) delete cell.metadata.trusted;
}
