/** What a notebook's cells have shown, in order: our own JSON among the outputs that its file holds, which anybody may have edited. */
import { WorkingsError } from "../quantity/error";
import { type Display, displayType } from "./block";
import { displayFault } from "./display-shape";
import { isFields } from "./shape";

/** A display, the cell that showed it, and the ids of all nodes that it names. */
export interface Stored {
  readonly display: Display;
  /** 1-based among the code cells. */
  readonly cell: number;
  readonly named: readonly string[];
}

/** The display in an output; undefined for another program's. Throws WorkingsError "notebook" for one that this library has not written. */
export function storedDisplay(output: unknown, sheet: string, cell: number): Stored | undefined {
  const data = isFields(output) ? output.data : undefined;
  const value = isFields(data) ? data[displayType] : undefined;
  if (value === undefined) return undefined;
  const named: string[] = [];
  const fault = displayFault(value, named);
  if (fault === undefined) return { display: value as Display, cell, named };
  throw new WorkingsError(
    "notebook",
    `${sheet}, cell ${cell}: its output was edited, or is of another version of this library: ${fault}; workings run ${sheet} makes it anew`,
    { sheet, cell },
  );
}

/** Every display of a notebook, as parsed JSON. `sheet` names it in errors. */
export function storedDisplays(notebook: unknown, sheet: string): Stored[] {
  const cells = isFields(notebook) && Array.isArray(notebook.cells) ? notebook.cells : [];
  const code = cells.filter((cell) => isFields(cell) && cell.cell_type === "code");
  return code.flatMap(({ outputs }, index) =>
    Array.isArray(outputs) ? outputs.flatMap((output) => storedDisplay(output, sheet, index + 1) ?? []) : [],
  );
}
