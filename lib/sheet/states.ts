/** Power states of the design file as a drawing, each with its current. */

import type { StatesRow } from "../design/types";
import type { NodeId } from "../graph/node";
import { ampere } from "../units";
import type { DrawingBlock, DrawnStates } from "./block";
import { drawPowerStates, powerStates } from "./drawings/power-states";
import { paperStyle } from "./drawings/svg";
import { expectFits } from "./fits";
import type { AnyQuantity, Session } from "./session";

export interface StatesOptions {
  readonly name: string;
  readonly caption: string;
  /** What each state draws, by its name. */
  readonly currents: Readonly<Record<string, AnyQuantity>>;
}

/** Shows the table of states `id`. Throws where the design has none of that id, or the currents are not those of its states. */
export function showStates(session: Session, id: string, { name, caption, currents }: StatesOptions): void {
  const row = session.design.states(id);
  const { table, place } = row;
  const states = Object.keys(table.next);
  const foreign = Object.keys(currents).find((state) => !states.includes(state));
  if (foreign !== undefined)
    throw session.error("worksheet", `${place}: '${foreign}' is no state of ${id}; its states are ${states.join(", ")}`);
  const nodes: Record<string, NodeId> = {};
  for (const state of states) {
    const current = Object.hasOwn(currents, state) ? currents[state] : undefined;
    if (current === undefined) throw session.error("worksheet", `${place}: the state '${state}' of ${id} has no current; give it one`);
    expectFits(session, `current of ${state}`, ampere.dimension, current);
    nodes[state] = session.enter(current);
  }
  session.name("drawing", name);
  const drawn = drawnStates(row);
  const block: DrawingBlock = { type: "drawing", name, caption, drawing: powerStates, arguments: nodes, states: drawn };
  const values = Object.fromEntries(Object.entries(nodes).map(([state, node]) => [state, session.evaluation.nominal(node)]));
  session.show(block, [], [], { svg: drawPowerStates(drawn, values, paperStyle) });
}

function drawnStates({ id, table: { start, off, events, next } }: StatesRow): DrawnStates {
  return {
    id,
    start,
    off,
    events: Object.entries(events).map(([event, meaning]) => ({ event, meaning })),
    rows: Object.entries(next).map(([state, row]) => ({ state, next: row })),
  };
}
