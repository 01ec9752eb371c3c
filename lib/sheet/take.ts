/** Results that other worksheets have published, with their lineage. */
import type { NodeId } from "../graph/node";
import { assignable, dimension } from "../quantity/dimension";
import type { DimOf, Shown, Unit } from "../quantity/quantity";
import type { TakenBlock } from "./block";
import { isUnit } from "./fits";
import { bring, type OtherSheet, otherSheet } from "./other-sheets";
import type { Session } from "./session";

/** `[sheet.name, unit]` of a published result. */
type TakeEntry = readonly [name: string, unit: Unit<any>];

/** A spec as far as the compiler must know beforehand; {@link FitsTake} says what is wrong. */
export type TakeSpec = Readonly<Record<string, readonly [name?: unknown, unit?: unknown] | object | string>>;

/** Beside the type of a spec: a sentence at each entry that is none. */
export type FitsTake<T> = {
  readonly [K in keyof T]: T[K] extends TakeEntry ? unknown : `✗ ${K & string} must be [sheet.name, unit]`;
};

export type Taken<T extends TakeSpec> = {
  readonly [K in keyof T]: T[K] extends readonly [string, infer U extends Unit<any>] ? Shown<DimOf<U>, U> : never;
};

/** Takes published results. Throws where the sheet or the name is unknown, has not run, or is of another dimension. */
export function take<T extends TakeSpec>(session: Session, folder: string, spec: T): Taken<T> {
  const sheets = new Map<string, OtherSheet>();
  const rows = Object.entries(spec).map(([symbol, entry]) => {
    if (!isEntry(entry)) throw session.error("worksheet", `${symbol} must be [sheet.name, unit]`);
    const [from, unit] = entry;
    const sheet = from.slice(0, from.indexOf("."));
    const known = sheets.get(sheet) ?? otherSheet(session, folder, sheet);
    sheets.set(sheet, known);
    const node = published(session, known, from);
    const found = dimension(session.node(node).dimension);
    if (!assignable(found, unit.dimension)) {
      throw session.error("dimension", `${from} is ${found.label}; the worksheet asks for ${unit.dimension.label} (in ${unit.symbol})`);
    }
    return { symbol, node, from, value: session.quantity(node, unit) };
  });
  const block: TakenBlock = { type: "taken", rows: rows.map(({ symbol, node, from }) => ({ symbol, node, from })) };
  session.show(
    block,
    rows.map(({ node }) => session.evaluation.analysis(node)),
  );
  return Object.fromEntries(rows.map(({ symbol, value }) => [symbol, value])) as Taken<T>;
}

function isEntry(entry: unknown): entry is TakeEntry {
  return Array.isArray(entry) && entry.length === 2 && typeof entry[0] === "string" && isUnit(entry[1]);
}

/** The node of a published result, brought into this sheet. */
function published(session: Session, sheet: OtherSheet, from: string): NodeId {
  const names = new Map(sheet.displays.flatMap(({ block }) => (block.type === "publish" ? Object.entries(block.names) : [])));
  if (names.size === 0) {
    throw session.error("worksheet", `${sheet.file} holds no published results yet; run it first: workings run ${sheet.name}`);
  }
  const name = from.slice(sheet.name.length + 1);
  const id = names.get(name);
  if (id === undefined)
    throw session.error("worksheet", `${sheet.name} publishes no "${name}"; it publishes ${[...names.keys()].join(", ")}`);
  return bring(session, sheet, id);
}
