/** Topological order of a part of the graph, without recursion: a book's chains may be very deep. */
import { WorkingsError } from "../quantity/error";
import type { NodeId } from "./node";

interface Visit {
  readonly id: NodeId;
  readonly inputs: readonly NodeId[];
  next: number;
}

/**
 * Every node that `ids` depend on, they themselves included, inputs before users. The order depends only on
 * `ids` and on what `inputs` answers. Throws "graph-cycle" naming the nodes of a cycle.
 */
export function topologicalOrder(ids: Iterable<NodeId>, inputs: (id: NodeId) => readonly NodeId[]): NodeId[] {
  const order: NodeId[] = [];
  const done = new Set<NodeId>();
  for (const id of ids) {
    if (!done.has(id)) visitFrom(id, inputs, done, order);
  }
  return order;
}

function visitFrom(root: NodeId, inputs: (id: NodeId) => readonly NodeId[], done: Set<NodeId>, order: NodeId[]): void {
  const path: Visit[] = [{ id: root, inputs: inputs(root), next: 0 }];
  const open = new Set<NodeId>([root]);
  while (path.length > 0) {
    const visit = path[path.length - 1] as Visit;
    const input = visit.inputs[visit.next++];
    if (input === undefined) {
      path.pop();
      open.delete(visit.id);
      done.add(visit.id);
      order.push(visit.id);
    } else if (open.has(input)) {
      throw cycleError(path, input);
    } else if (!done.has(input)) {
      open.add(input);
      path.push({ id: input, inputs: inputs(input), next: 0 });
    }
  }
}

function cycleError(path: readonly Visit[], again: NodeId): WorkingsError {
  const names = path.map((visit) => visit.id);
  const cycle = [...names.slice(names.indexOf(again)), again].join(" → ");
  return new WorkingsError(
    "graph-cycle",
    `these results depend on one another in a circle: ${cycle}; assume one of them and confirm it later`,
  );
}
