/** What differs between two design files: givens, requirements, decisions, and what is written beside them. */
import type { Design, RequirementRow } from "../../design/types";
import type { GivenNode, Provenance, TableNode } from "../../graph/node";
import { sameContent } from "../../graph/serialise";
import { givenText } from "../../sheet/words";

export interface FieldChange {
  readonly field: string;
  readonly before: string;
  readonly after: string;
}

export interface GivenChanged {
  readonly path: string;
  readonly change: "changed" | "added" | "removed" | "renamed";
  /** The path before, of a renamed one. */
  readonly from?: string;
  readonly meaning: string;
  /** Value and spread as the file states them. */
  readonly before?: string;
  readonly after?: string;
  /** What of the value is another: value, spread, kind of spread, unit, rows. */
  readonly what: readonly string[];
  /** Source, memory, what it varies with. */
  readonly fields: readonly FieldChange[];
}

export interface DesignChanges {
  readonly givens: readonly GivenChanged[];
  readonly requirements: readonly RowChanged[];
  readonly decisions: readonly RowChanged[];
  /** Readings, blocks, states, correlations, common causes, sources. */
  readonly others: readonly string[];
  /** Changed in words alone, in the reader's terms. */
  readonly wording: readonly string[];
}

/** A requirement or a decision. */
export interface RowChanged {
  readonly id: string;
  readonly change: "changed" | "added" | "removed";
  readonly fields: readonly FieldChange[];
  /** What a reviewer should ask about it. */
  readonly note?: string;
}

export function designChanges(before: Design, after: Design): DesignChanges {
  const givens = givenChanges(before, after);
  const requirements = rows(byId(before.requirements()), byId(after.requirements()), requirementFields);
  const decided = (design: Design) => new Map(design.decisions().map((row) => [row.path, row] as const));
  const decisions = rows(decided(before), decided(after), ({ chosen }) => ({ chosen })).map((row) => {
    const [old, now] = [decided(before).get(row.id), decided(after).get(row.id)];
    return old === undefined || old.reason !== now?.reason ? row : { ...row, note: "the reason is that of the former choice" };
  });
  const notes = countDifferent(allGivens(before), allGivens(after), ({ meaning, symbol, provenance: { note } }) => [meaning, symbol, note]);
  const reasons = countDifferent(decided(before), decided(after), ({ reason, reconsider }) => [reason, reconsider]);
  const remarks = countDifferent(byId(before.requirements()), byId(after.requirements()), ({ source, note }) => [source, note]);
  const wording = [
    counted(notes, "meaning or note of", "given"),
    counted(reasons, "reason of", "decision"),
    counted(remarks, "note or source of", "requirement"),
  ].filter((text) => text !== "");
  return { givens, requirements, decisions, others: otherChanges(before, after), wording };
}

function counted(count: number, what: string, of: string): string {
  return count === 0 ? "" : `${what} ${count} ${of}${count === 1 ? "" : "s"}`;
}

const byId = (found: readonly RequirementRow[]) => new Map(found.map((row) => [row.id, row] as const));

/** What of a requirement counts; in the reader's words. */
const requirementFields = ({ text, judged, statement, where }: RequirementRow) => ({
  limit: text,
  judged,
  statement,
  where: where ?? "",
});

function rows<T>(
  before: ReadonlyMap<string, T>,
  after: ReadonlyMap<string, T>,
  fields: (row: T) => Readonly<Record<string, string>>,
): RowChanged[] {
  return union(before, after).flatMap((id): RowChanged[] => {
    const [a, b] = [before.get(id), after.get(id)];
    const change = a === undefined ? "added" : b === undefined ? "removed" : "changed";
    const [old, now] = [a === undefined ? {} : fields(a), b === undefined ? {} : fields(b)] as Readonly<Record<string, string>>[];
    const found = differentFields(old ?? {}, now ?? {});
    return found.length === 0 ? [] : [{ id, change, fields: found }];
  });
}

function differentFields(before: Readonly<Record<string, string>>, after: Readonly<Record<string, string>>): FieldChange[] {
  return [...new Set([...Object.keys(before), ...Object.keys(after)])].flatMap((field) => {
    const [a = "", b = ""] = [before[field], after[field]];
    return a === b ? [] : [{ field, before: a, after: b }];
  });
}

type Given = GivenNode | TableNode;

function allGivens(design: Design): ReadonlyMap<string, Given> {
  return new Map(design.paths().map((path) => [path, design.given(path)]));
}

function givenChanges(before: Design, after: Design): GivenChanged[] {
  const [old, now] = [allGivens(before), allGivens(after)];
  const removed = [...old.keys()].filter((path) => !now.has(path));
  const added = [...now.keys()].filter((path) => !old.has(path));
  const renamed = new Map(added.flatMap((path) => renamedFrom(path, removed, old, now)));
  const gone = new Set(renamed.values());
  return [
    ...[...now.keys()].flatMap((path) => {
      const from = renamed.get(path) ?? path;
      const [a, b] = [old.get(from), now.get(path) as Given];
      return a === undefined
        ? [{ path, change: "added" as const, ...described(b), after: valueText(b), what: [], fields: [] }]
        : changed(a, b, from);
    }),
    ...removed
      .filter((path) => !gone.has(path))
      .map((path) => {
        const node = old.get(path) as Given;
        return { path, change: "removed" as const, ...described(node), before: valueText(node), what: [], fields: [] };
      }),
  ];
}

const described = ({ meaning = "" }: Given) => ({ meaning });

/** By a note that names the path before; without one, by value, meaning and source all the same as of one path that is gone. */
function renamedFrom(
  path: string,
  removed: readonly string[],
  old: ReadonlyMap<string, Given>,
  now: ReadonlyMap<string, Given>,
): (readonly [string, string])[] {
  const node = now.get(path) as Given;
  const named = removed.filter((one) => mentions(node.provenance.note ?? "", one));
  const [first, second] = named.length > 0 ? named : removed.filter((one) => sayTheSame(old.get(one) as Given, node));
  return first === undefined || second !== undefined ? [] : [[path, first]];
}

function mentions(note: string, path: string): boolean {
  return note.split(/[^\p{L}\p{N}._-]+/u).some((word) => word.replace(/\.$/, "") === path);
}

function sayTheSame(a: Given, b: Given): boolean {
  return a.meaning === b.meaning && a.provenance.source === b.provenance.source && whatDiffers(a, b).length === 0;
}

function changed(a: Given, b: Given, from: string): GivenChanged[] {
  const what = whatDiffers(a, b);
  const fields = differentFields(provenanceFields(a), provenanceFields(b));
  const isRenamed = from !== b.path;
  if (what.length + fields.length === 0 && !isRenamed) return [];
  const renaming = isRenamed ? ({ change: "renamed", from } as const) : ({ change: "changed" } as const);
  return [{ path: b.path, ...renaming, ...described(b), before: valueText(a), after: valueText(b), what, fields }];
}

function whatDiffers(a: Given, b: Given): string[] {
  if (a.kind === "table" && b.kind === "table") {
    const rowsDiffer = !sameContent([a.x, a.y], [b.x, b.y]);
    const units = a.unit !== b.unit || a.xUnit !== b.xUnit;
    return [...(rowsDiffer ? ["rows"] : []), ...(a.interpolation === b.interpolation ? [] : ["interpolation"]), ...(units ? ["unit"] : [])];
  }
  if (a.kind !== "given" || b.kind !== "given") return ["kind"];
  return [
    ...(a.nominal === b.nominal ? [] : ["value"]),
    ...(a.spread.kind !== b.spread.kind ? ["kind of spread"] : sameSpread(a, b) ? [] : ["spread"]),
    ...(a.unit === b.unit ? [] : ["unit"]),
    ...(a.knowledge === b.knowledge
      ? []
      : [`spread of ${b.knowledge === true ? "knowledge now, not production" : "production now, not knowledge"}`]),
    ...otherFields(a, b),
  ];
}

/** Of an exact value, and where both stand as far from the value in proportion, a spread has not changed: 5 V ±2 % and 6 V ±2 %. */
function sameSpread(a: GivenNode, b: GivenNode): boolean {
  if (sameContent(a.spread, b.spread)) return true;
  if (a.nominal === b.nominal || a.nominal === 0 || b.nominal === 0) return false;
  const shares = ({ spread, nominal }: GivenNode) =>
    Object.entries(spread).map(([key, value]) =>
      typeof value === "number" && ["low", "high", "sigma"].includes(key) ? (value / nominal).toPrecision(9) : value,
    );
  return sameContent(shares(a), shares(b));
}

/** Fields that this list does not name, such as further statements on a spread, count as well. */
const told = new Set(["kind", "id", "path", "text", "nominal", "spread", "unit", "symbol", "meaning", "provenance", "shared", "knowledge"]);
function otherFields(a: GivenNode, b: GivenNode): string[] {
  const record = (node: GivenNode) => node as unknown as Readonly<Record<string, unknown>>;
  const keys = [...new Set([...Object.keys(a), ...Object.keys(b)])].filter((key) => !told.has(key));
  return keys.filter((key) => !sameContent(record(a)[key], record(b)[key]));
}

function provenanceFields(node: Given): Readonly<Record<string, string>> {
  const { source, fromMemory }: Provenance = node.provenance;
  const shared = node.kind === "given" ? (node.shared ?? []) : [];
  return {
    source,
    "from memory": fromMemory === true ? "yes" : "no",
    "varies with": shared.map((part) => ("common" in part ? part.common : part.with)).join(", "),
  };
}

function valueText(node: Given): string {
  return node.kind === "given" ? givenText(node) : `table of ${node.x.length} rows`;
}

function otherChanges(before: Design, after: Design): string[] {
  const readings = (design: Design) => new Map(design.readings.map(({ place: _, ...row }) => [row.id, row] as const));
  const batches = (design: Design) => new Map(design.batches.map(({ place: _, ...row }) => [row.id, row] as const));
  const states = (design: Design) => new Map(design.stateTables.map(({ id, table, note }) => [id, { table, note }] as const));
  const blocks = (design: Design) => new Map(design.blocks.map((row) => [row.id, row] as const));
  const pairs = (design: Design) => new Map(design.correlations.map((row) => [row.between.join(" with "), row] as const));
  const causes = (design: Design) => new Map(design.common.map((row) => [row.name, row] as const));
  const sources = (design: Design) => new Map([...design.sources].filter(([id]) => !id.startsWith("reference.")));
  return [
    ...setChanges("reading", readings(before), readings(after)),
    ...setChanges("batch", batches(before), batches(after)),
    ...setChanges("block", blocks(before), blocks(after)),
    ...setChanges("states", states(before), states(after)),
    ...setChanges("correlation", pairs(before), pairs(after)),
    ...setChanges("common cause", causes(before), causes(after)),
    ...setChanges("source", sources(before), sources(after)),
  ];
}

function setChanges(what: string, before: ReadonlyMap<string, unknown>, after: ReadonlyMap<string, unknown>): string[] {
  return union(before, after).flatMap((id) => {
    if (!before.has(id)) return [`${what} ${id} added`];
    if (!after.has(id)) return [`${what} ${id} removed`];
    return sameContent(before.get(id), after.get(id)) ? [] : [`${what} ${id} changed`];
  });
}

function countDifferent<T>(before: ReadonlyMap<string, T>, after: ReadonlyMap<string, T>, of: (row: T) => unknown): number {
  return [...after].filter(([id, row]) => before.has(id) && !sameContent(of(before.get(id) as T), of(row))).length;
}

function union(before: ReadonlyMap<string, unknown>, after: ReadonlyMap<string, unknown>): string[] {
  return [...new Set([...after.keys(), ...before.keys()])];
}
