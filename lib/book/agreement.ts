/**
 * Whether the outputs of a sheet agree with a design file, where no run of it is on record: of a revision that was committed,
 * say. What of the design the outputs hold must be what the design says, and what they hold of other sheets what those put out.
 * Whether they came of the cells that stand above them is not known.
 */
import type { Design } from "../design/types";
import type { GraphNode, NodeId } from "../graph/node";
import { revive, sameContent } from "../graph/serialise";
import { codeCells, hasRun, type Notebook } from "../kernel/notebook";
import { WorkingsError } from "../quantity/error";
import { storedDisplays } from "../sheet/stored";

interface SheetOf {
  readonly name: string;
  readonly notebook: Notebook;
}

/** In words, what in the outputs of a sheet cannot have come of this design and of the other sheets as they are. */
export function disagreements({ name, notebook }: SheetOf, others: readonly SheetOf[], design: Design): string[] {
  if (codeCells(notebook).length > 0 && !hasRun(notebook)) return ["it has cells without outputs of a run"];
  try {
    return foundIn({ name, notebook }, others, design);
  } catch (error) {
    // Outputs that were edited, or that another version of this library has written.
    if (error instanceof WorkingsError) return [error.message];
    throw error;
  }
}

function foundIn(sheet: SheetOf, others: readonly SheetOf[], design: Design): string[] {
  const nodes = nodesOf(sheet);
  const stated = nodes.flatMap((node) =>
    statesOtherwise(node, design) ? [`its outputs hold another ${pathOf(node)} than the design file`] : [],
  );
  const asked = requirementsAsked(sheet).filter((id) => !design.requirements().some((row) => row.id === id));
  const gone = asked.map((id) => `it answers the requirement ${id}, which the design file does not have`);
  const taken = others.flatMap((other) => (other.name === sheet.name ? [] : differing(nodes, nodesOf(other), other.name)));
  return [...new Set([...stated, ...gone, ...taken])];
}

function nodesOf({ name, notebook }: SheetOf): GraphNode[] {
  return storedDisplays(notebook, name).flatMap(({ display }) => display.nodes.map(revive));
}

function requirementsAsked({ name, notebook }: SheetOf): string[] {
  return storedDisplays(notebook, name).flatMap(({ display: { block } }) => (block.type === "requirement" ? [block.requirement] : []));
}

const pathOf = (node: GraphNode): string => ("path" in node ? node.path : node.id);

/** Compared is what the file says, not its place there, nor the unit in which a sheet asks for it. */
function statesOtherwise(node: GraphNode, design: Design): boolean {
  if (!("path" in node)) return false;
  try {
    if (node.kind === "choice") return design.decision(node.path).chosen !== node.chosen;
    const stated = design.given(node.path);
    if (stated.kind !== node.kind) return true;
    const content = (one: typeof stated) =>
      one.kind === "given" ? [one.text, one.doubt ?? null, one.knowledge ?? null] : [one.x, one.y, one.interpolation];
    const { source, note, fromMemory } = stated.provenance;
    const own = node.provenance;
    return !sameContent([content(stated), source, note, fromMemory], [content(node), own.source, own.note, own.fromMemory]);
  } catch (error) {
    if (error instanceof WorkingsError) return true;
    throw error;
  }
}

/** Results of the other sheet that this one holds otherwise. */
function differing(own: readonly GraphNode[], others: readonly GraphNode[], other: string): string[] {
  const theirs = new Map<NodeId, GraphNode>(others.map((node) => [node.id, node]));
  const taken = own.filter(({ id }) => id.startsWith(`${other}.`));
  return taken.flatMap((node) => {
    const theirOwn = theirs.get(node.id);
    return theirOwn !== undefined && sameContent(theirOwn, node) ? [] : [`it holds another ${node.id} than ${other} puts out`];
  });
}
