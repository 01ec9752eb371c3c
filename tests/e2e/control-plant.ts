/**
 * The product around its table of power states, as a model of its own: a source, a cell that is in its window or not, in the product or
 * not, and at one of five levels; and what happens to them. Each thing that happens sends the events that the control would see. Shares no
 * code with the library: the table is taken as plain data.
 */
export type Level = 0 | 1 | 2 | 3 | 4;
/** Below the cut-off, below the start, below amber, above it, full. */
export const [empty, unready, low, high, full] = [0, 1, 2, 3, 4] as const;

export interface Plant {
  readonly state: string;
  readonly source: "none" | "good" | "weak";
  readonly cell: "in" | "out";
  readonly warm: boolean;
  readonly level: Level;
}

export type Table = Readonly<Record<string, Readonly<Record<string, string | readonly { readonly to: string; readonly if?: string }[]>>>>;

export interface Happening {
  readonly name: string;
  /** The product after it, before the control has seen the events. */
  readonly plant: Plant;
  readonly events: readonly string[];
}

const playing = new Set(["play", "low", "charge play", "hold play"]);
const charging = new Set(["charge", "charge play"]);

/** Nothing of it has power. */
export const isDark = ({ source, cell }: Plant): boolean => source === "none" && cell === "out";
/** The load switch is open: nothing watches but the button and the jack. */
const isAsleep = ({ state, source }: Plant): boolean => source === "none" && (state === "off" || state === "empty");

/** All that can happen next. */
export function happenings(plant: Plant): Happening[] {
  const { state, source, cell, warm, level } = plant;
  const found: Happening[] = [];
  const add = (name: string, change: Partial<Plant>, ...events: string[]) =>
    found.push({
      name,
      plant: { ...plant, ...change },
      events: isDark(plant) && source === "none" && change.source === undefined ? [] : events,
    });
  add("press", {}, "press");
  if (source === "none") {
    const lacks = cell === "out" ? ["pulled"] : warm ? [] : ["window"];
    add("plug in", { source: "good" }, "plug", ...lacks);
    add("plug half in", { source: "weak" }, "plug", "weak", ...lacks);
  } else {
    add("unplug", { source: "none" }, "unplug");
    if (source === "good") add("source sags", { source: "weak" }, "weak");
    else add("source recovers", { source: "good" }, ...(warm && cell === "in" ? ["good"] : []));
  }
  if (cell === "in") {
    add("cell pulled", { cell: "out" }, "pulled");
    const watched = !isAsleep(plant);
    if (warm) add("cell leaves its window", { warm: false }, ...(watched ? ["window"] : []));
    else add("cell is back in its window", { warm: true }, ...(source === "good" ? ["good"] : []));
    if (level > empty) add("cell loses charge", lost(plant), ...(watched ? fallen(level) : []));
    if (charging.has(state) && source === "good" && warm)
      add("cell gains charge", { level: Math.min(full, level + 1) as Level }, ...(level >= high ? ["full"] : []));
    if (state === "empty" && source === "none" && level === empty) add("cell springs back", { level: unready });
    if (state === "low" && level === low) add("cell springs back", { level: high });
  } else add("cell put in", { cell: "in", ...(source === "none" && { state: "off" }) });
  if (playing.has(state) && !isDark(plant)) add("silence", {}, "silence");
  if (charging.has(state)) add("safety timer", {}, "timeout");
  return found;
}

const lost = ({ level }: Plant): Partial<Plant> => ({ level: (level - 1) as Level });
/** What the control sees of a cell that falls by one level: amber, or its cut-off. Between start and cut-off nothing is seen. */
const fallen = (level: Level): string[] => (level === high ? ["low"] : level === unready ? ["empty"] : []);

/** The next state by the table; throws for what the table says cannot happen, or does not say. */
export function answer(table: Table, plant: Plant, event: string): string {
  const cell = table[plant.state]?.[event];
  const at = `${event} in ${plant.state}, ${JSON.stringify(plant)}`;
  if (cell === undefined) throw new Error(`no answer: ${at}`);
  if (cell === "impossible") throw new Error(`impossible, and it happens: ${at}`);
  if (typeof cell === "string") return cell === "stay" ? plant.state : cell;
  const branch = cell.find((one) => one.if === undefined || isTrue(one.if, plant));
  if (branch === undefined) throw new Error(`no branch: ${at}`);
  return branch.to === "stay" ? plant.state : branch.to;
}

function isTrue(condition: string, { source, cell, warm, level }: Plant): boolean {
  if (condition === "the cell stands above the start") return cell === "in" && level >= low;
  if (condition === "the source holds and the cell is inside its window") return source === "good" && cell === "in" && warm;
  throw new Error(`the model of the product knows no condition '${condition}'`);
}
