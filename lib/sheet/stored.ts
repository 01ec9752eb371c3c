/**
 * What a notebook's cells have shown, in order: our own JSON among the outputs that its file holds, which anybody may have edited.
 * A node is stored by the cell that first makes it. A later cell that makes it again names it with a hash of its content.
 */
import { hashDigits } from "../graph/hash";
import { spelledName } from "../graph/identity";
import type { GraphNode, NodeId } from "../graph/node";
import { canonicalText, sameContent } from "../graph/serialise";
import { WorkingsError } from "../quantity/error";
import { type Display, displayType } from "./block";
import { displayFault } from "./display-shape";
import { isFields } from "./shape";
import { readBlock, storeBlock } from "./stored-block";
import { readNodes, StoredFault, storeNodes } from "./stored-nodes";

/** A display, the cell that showed it, and the ids of all nodes that it names. */
export interface Stored {
  readonly display: Display;
  /** 1-based among the code cells. */
  readonly cell: number;
  readonly named: readonly string[];
}

/** Of the stored form; 1 held every node and analysis in full. */
const version = 2;

/** The JSON of a display as it stands in an output. */
export function storeDisplay({ sheet, block, nodes, refers = [], warnings = [] }: Display): Readonly<Record<string, unknown>> {
  return {
    version,
    sheet,
    block: storeBlock(block, byId(nodes)),
    nodes: storeNodes(nodes),
    ...(refers.length > 0 && { refers }),
    ...(warnings.length > 0 && { warnings }),
  };
}

/** How a display names a node that an earlier cell has stored: its id and a hash of its content. */
export function reference(node: GraphNode): string {
  return `${node.id} ${hashDigits(canonicalText(node))}`;
}

/** The display in an output; undefined for another program's. Throws WorkingsError "notebook" for one that this library has not written. */
export function storedDisplay(output: unknown, sheet: string, cell: number): Stored | undefined {
  const data = isFields(output) ? output.data : undefined;
  const value = isFields(data) ? data[displayType] : undefined;
  if (value === undefined) return undefined;
  if (isFields(value) && typeof value.version === "number" && value.version !== version)
    throw refused(sheet, cell, "its output was written by another version of this library");
  const named: string[] = [];
  const display = wholeDisplay(value, sheet, cell);
  const fault = isFields(value) && value.version !== version ? `version is no ${version}` : displayFault(display, named);
  if (fault === undefined) return { display: display as Display, cell, named };
  throw edited(sheet, cell, fault);
}

/** Every display of a notebook, as parsed JSON. `sheet` names it in errors. Throws as {@link storedDisplay} and {@link expectWhole} do. */
export function storedDisplays(notebook: unknown, sheet: string): Stored[] {
  const cells = isFields(notebook) && Array.isArray(notebook.cells) ? notebook.cells : [];
  const code = cells.filter((cell) => isFields(cell) && cell.cell_type === "code");
  const displays = code.flatMap(({ outputs }, index) =>
    Array.isArray(outputs) ? outputs.flatMap((output) => storedDisplay(output, sheet, index + 1) ?? []) : [],
  );
  expectWhole(displays, sheet);
  return displays;
}

/**
 * Throws WorkingsError "notebook" where the displays of a sheet do not make one whole: one names a node that none of them holds, as
 * when a cell was deleted or its output cleared; or two hold, or name, different nodes under one id.
 */
export function expectWhole(displays: readonly Stored[], sheet: string): void {
  const held = new Map<NodeId, { readonly node: GraphNode; readonly cell: number }>();
  for (const { display, cell } of displays) {
    for (const node of display.nodes) {
      const known = held.get(node.id);
      if (known === undefined) held.set(node.id, { node, cell });
      else if (!sameContent(known.node, node))
        throw refused(sheet, cell, `its output has another ${spelledName(node.id)} than that of cell ${known.cell}`);
    }
  }
  for (const { display, cell, named } of displays) {
    const missing = [...named, ...(display.refers ?? []).map(idOf)].find((id) => !held.has(id));
    if (missing !== undefined)
      throw refused(sheet, cell, `its output names ${spelledName(missing)}, which no cell's output holds (was a cell deleted or cleared?)`);
    const other = (display.refers ?? [])
      .map((one) => ({ one, at: held.get(idOf(one)) }))
      .find(({ one, at }) => at && reference(at.node) !== one);
    if (other?.at !== undefined)
      throw refused(sheet, cell, `its output was made with another ${spelledName(other.at.node.id)} than that in cell ${other.at.cell}`);
  }
}

const idOf = (reference: string): NodeId => reference.slice(0, Math.max(0, reference.lastIndexOf(" ")));

const byId = (nodes: readonly GraphNode[]) => new Map(nodes.map((node) => [node.id, node]));

/** With its nodes and its block in full, their shape not yet checked. */
function wholeDisplay(value: unknown, sheet: string, cell: number): unknown {
  if (!isFields(value) || !Array.isArray(value.nodes)) return value;
  try {
    const nodes = readNodes(value.nodes);
    return { ...value, nodes, block: readBlock(value.block, byId(nodes)) };
  } catch (error) {
    if (error instanceof StoredFault) throw edited(sheet, cell, error.message);
    throw error;
  }
}

const edited = (sheet: string, cell: number, fault: string) =>
  refused(sheet, cell, `its output was edited, or is of another version of this library: ${fault}`);

function refused(sheet: string, cell: number, why: string): WorkingsError {
  return new WorkingsError("notebook", `${sheet}, cell ${cell}: ${why}; workings run ${sheet} makes it anew`, { sheet, cell, why });
}

/** What keeps a notebook's outputs from being read, in words: `cell 4: its output names …`; undefined where nothing does. */
export function outputFault(notebook: unknown): string | undefined {
  try {
    storedDisplays(notebook, "");
    return undefined;
  } catch (error) {
    if (error instanceof WorkingsError && typeof error.details.why === "string") return `cell ${error.details.cell}: ${error.details.why}`;
    throw error;
  }
}
