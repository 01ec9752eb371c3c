/** Givens: quantities and tables that a worksheet takes from the design file. */
import type { GivenNode, TableNode } from "../graph/node";
import { dimension, readable } from "../quantity/dimension";
import type { Dim } from "../quantity/dimension-types";
import { isBelowZero, limitsOf } from "../quantity/limits";
import type { DimOf, Quantity, Shown, Unit } from "../quantity/quantity";
import { gainAsAsked } from "./asked-gain";
import { Curve } from "./curve";
import { isUnit } from "./fits";
import type { Session } from "./session";

// A unit of whatever dimension; explicit variance refuses Unit<Dim>
type AnyUnit = Unit<any>;

/** `[path, unit]` for a quantity, `[path, unit of x, unit of y]` for a table. */
type GivenEntry = readonly [path: string, unit: AnyUnit] | readonly [path: string, x: AnyUnit, y: AnyUnit];

/** A spec as far as the compiler must know beforehand: the tuple makes it read entries as such; {@link FitsSpec} says what is wrong. */
export type GivenSpec = Readonly<Record<string, readonly [path?: unknown, unit?: unknown, second?: unknown] | object | string>>;

/** Beside the type of a spec: a sentence at each entry that is none. */
export type FitsSpec<G> = {
  readonly [K in keyof G]: G[K] extends GivenEntry ? unknown : `✗ ${K & string} must be [path, unit], or [path, unit, unit] for a table`;
};

/** What `given` returns: each symbol with its quantity or table. */
export type Givens<G extends GivenSpec> = {
  readonly [K in keyof G]: G[K] extends readonly [string, Unit<infer X extends Dim>, Unit<infer Y extends Dim>]
    ? Curve<X, Y>
    : G[K] extends readonly [string, infer U extends AnyUnit]
      ? Shown<DimOf<U>, U>
      : never;
};

/** Reads, checks and shows the givens. Errors name the design file's line and column, the sheet and the cell. */
export function readGivens<G extends GivenSpec>(session: Session, spec: G): Givens<G> {
  const rows = Object.entries(spec).map(([symbol, entry]) => {
    if (!isEntry(entry)) throw session.error("worksheet", `${symbol} must be [path, unit], or [path, unit, unit] for a table`);
    const [path, first, second] = entry;
    const node = gainAsAsked(session.design.given(path), first.dimension);
    session.add(node);
    const value = node.kind === "table" ? tableOf(session, node, first, second) : quantityOf(session, node, first, second);
    return { symbol, node: node.id, value };
  });
  session.show({ type: "givens", rows: rows.map(({ symbol, node }) => ({ symbol, node })) });
  return Object.fromEntries(rows.map(({ symbol, value }) => [symbol, value])) as Givens<G>;
}

function isEntry(entry: unknown): entry is GivenEntry {
  if (!Array.isArray(entry)) return false;
  const [path, ...units]: readonly unknown[] = entry;
  return typeof path === "string" && (units.length === 1 || units.length === 2) && units.every(isUnit);
}

function quantityOf(session: Session, node: GivenNode, unit: AnyUnit, second: AnyUnit | undefined): Quantity<Dim> {
  if (second !== undefined)
    throw session.error("dimension", `${place(node)}: ${node.path} is a single quantity; a table was asked for (two units)`);
  expectGiven(session, node, node.dimension, unit);
  return session.quantity(node.id, unit) as Quantity<Dim>;
}

function tableOf(session: Session, node: TableNode, x: AnyUnit, y: AnyUnit | undefined): Curve<Dim, Dim> {
  if (y === undefined)
    throw session.error(
      "dimension",
      `${place(node)}: ${node.path} is a table; give the units of both columns, as in ["${node.path}", ${node.xUnit}, ${node.unit}]`,
    );
  expectGiven(session, node, node.xDimension, x);
  expectGiven(session, node, node.dimension, y);
  return new Curve<Dim, Dim>(session, node.id);
}

/** Throws where a given of the design file cannot be asked for in a unit. */
export function expectGiven(session: Session, node: GivenNode | TableNode, key: string, unit: AnyUnit): void {
  const found = dimension(key);
  if (node.kind === "given") refuseBelowZero(session, node, unit);
  if (readable(found, unit.dimension)) return;
  throw session.error(
    "dimension",
    `${place(node)}: ${node.path} is ${found.label}; the worksheet asks for ${unit.dimension.label} (in ${unit.symbol}); change the unit there or the path here`,
  );
}

/** Kelvins in the design file may be a difference: only here they are asked for as a temperature. */
function refuseBelowZero(session: Session, { path, text, nominal, spread, provenance }: GivenNode, { dimension: asked }: AnyUnit): void {
  if (asked.key !== "K|temperature" || !isBelowZero(Math.min(nominal, ...limitsOf(spread, nominal)))) return;
  throw session.error(
    "dimension",
    `${provenance.place ?? path}: ${path}, ${text}, reaches below absolute zero; as a difference ask for it in Δ°C or K`,
  );
}

const place = (node: GivenNode | TableNode) => node.provenance.place ?? node.path;
