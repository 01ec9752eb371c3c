/** What a file must be to count as a notebook: the parts of Jupyter's nbformat 4.5 schema that the runner relies on. */
import { WorkingsError } from "../quantity/error";
import type { Notebook } from "./notebook";

type Row = Record<string, unknown>;

/** Returns its argument, typed. Throws WorkingsError "notebook" at the first thing that is wrong. */
export function validateNotebook(value: unknown, name: string): Notebook {
  const fail = (what: string): never => {
    throw new WorkingsError("notebook", `${name}: ${what}`, { place: name });
  };
  if (!isRow(value)) return fail("not a notebook: the file must hold one JSON object");
  if (value.nbformat !== 4 || value.nbformat_minor !== 5) {
    return fail(
      `nbformat ${version(value.nbformat)}.${version(value.nbformat_minor)} where 4.5 is needed; open it in Jupyter and save it, or convert it with nbformat.convert`,
    );
  }
  if (!isRow(value.metadata)) return fail("metadata must be an object");
  if (!Array.isArray(value.cells)) return fail("cells must be a list");
  const seen = new Map<string, number>();
  value.cells.forEach((cell: unknown, index) => {
    const problem = cellProblem(cell) ?? repeated(seen, (cell as { id: string }).id, index + 1);
    if (problem !== undefined) fail(`cell ${index + 1} of all ${(value.cells as unknown[]).length}: ${problem}`);
  });
  return value as unknown as Notebook;
}

function repeated(seen: Map<string, number>, id: string, position: number): string | undefined {
  const first = seen.get(id);
  seen.set(id, position);
  return first === undefined ? undefined : `its id "${id}" is that of cell ${first}; every cell needs its own`;
}

function cellProblem(cell: unknown): string | undefined {
  if (!isRow(cell)) return "must be an object";
  if (cell.id === undefined) return "has no id, which nbformat 4.5 requires; open the notebook in Jupyter and save it";
  if (typeof cell.id !== "string" || !/^[\w-]{1,64}$/.test(cell.id)) return "its id must be 1 to 64 letters, digits, - or _";
  if (!["code", "markdown", "raw"].includes(cell.cell_type as string))
    return `cell_type is ${JSON.stringify(cell.cell_type)}, expected code, markdown or raw`;
  if (!isRow(cell.metadata)) return "metadata must be an object";
  if (!isText(cell.source)) return "source must be a text or a list of lines";
  return cell.cell_type === "code" ? codeProblem(cell) : attachmentProblem(cell.attachments);
}

function codeProblem(cell: Row): string | undefined {
  if (!Array.isArray(cell.outputs)) return "a code cell must have a list of outputs, perhaps empty";
  if (cell.execution_count !== null && !Number.isInteger(cell.execution_count)) return "execution_count must be null or a whole number";
  for (const output of cell.outputs as unknown[]) {
    const problem = outputProblem(output);
    if (problem !== undefined) return problem;
  }
  return undefined;
}

function outputProblem(output: unknown): string | undefined {
  if (!isRow(output)) return "an output must be an object";
  const needs: Record<string, boolean> = {
    stream: typeof output.name === "string" && isText(output.text),
    display_data: isRow(output.data) && isRow(output.metadata),
    execute_result: isRow(output.data) && isRow(output.metadata),
    error: typeof output.ename === "string" && Array.isArray(output.traceback),
  };
  return needs[output.output_type as string]
    ? undefined
    : `its output of type ${JSON.stringify(output.output_type)} lacks a field that nbformat requires`;
}

function attachmentProblem(attachments: unknown): string | undefined {
  const wellFormed = attachments === undefined || (isRow(attachments) && Object.values(attachments).every(isRow));
  return wellFormed ? undefined : "attachments must be an object of objects";
}

const isRow = (value: unknown): value is Row => typeof value === "object" && value !== null && !Array.isArray(value);
const isText = (value: unknown) => typeof value === "string" || (Array.isArray(value) && value.every((line) => typeof line === "string"));
const version = (value: unknown) => (value === undefined ? "?" : JSON.stringify(value));
