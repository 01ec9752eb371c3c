/**
 * Whether a sheet's outputs still stand: a fingerprint of everything that a run depends on, its cells, the text of what it
 * read from the design file, the graphs of what it took, the library; and of the outputs that came of it, which a front
 * end may have overwritten since. What other sheets put out counts only by the graphs that are taken. Kept in
 * build/fresh.json, which may be lost at any time: then every sheet runs.
 */

import { createHash } from "node:crypto";
import { existsSync, readFileSync, rmSync } from "node:fs";
import type { Design } from "../design/types";
import { Graph } from "../graph/graph";
import type { GraphNode, NodeId } from "../graph/node";
import { canonicalText } from "../graph/serialise";
import { codeCells, formatNotebook, hasRun, type Notebook } from "../kernel/notebook";
import { rollUp, type Take } from "../kernel/takes";
import { writeWhole } from "../kernel/write";
import { entryOf } from "../quantity/entry-of";
import { WorkingsError } from "../quantity/error";
import type { Block } from "../sheet/block";
import { displaysOf } from "./displays";

export interface Readable {
  readonly name: string;
  readonly notebook: Notebook;
  readonly takes: readonly Take[];
}

/** The fingerprint of a sheet with the outputs it has now, or undefined where it has not run or no longer can. */
export function fingerprint(sheet: Readable, design: Design, library: string, sheets: ReadonlyMap<string, Notebook>): string | undefined {
  if (!hasRun(sheet.notebook)) return undefined;
  try {
    const facts = [library, cellText(sheet.notebook), designTexts(sheet.notebook, design), takenGraphs(sheet.takes, sheets)];
    return createHash("sha256").update(JSON.stringify(facts)).digest("hex");
  } catch (error) {
    // A path or result that is gone: the run will say so at its place.
    if (error instanceof WorkingsError) return undefined;
    throw error;
  }
}

/** Sources and outputs as a file would hold them, whatever the order in memory. */
function cellText(notebook: Notebook): string {
  return formatNotebook({ ...notebook, metadata: {}, cells: codeCells(notebook).map((cell) => ({ ...cell, execution_count: null })) });
}

/** What the design file says at every path that the outputs name, word for word. */
function designTexts(notebook: Notebook, design: Design): readonly (readonly [string, string])[] {
  const displays = displaysOf(notebook);
  const paths = displays.flatMap(({ nodes }) => nodes).flatMap((node) => ("path" in node ? [node.path] : []));
  const requirements = displays.flatMap(({ block }) => [
    ...(block.type === "requirement" ? [block.requirement] : []),
    ...(block.type === "decision"
      ? block.criteria.flatMap(({ limit }) => (limit?.requirement === undefined ? [] : [limit.requirement]))
      : []),
  ]);
  const decisions = displays.flatMap(({ block }) => (block.type === "decision" ? [block.choice] : []));
  return [
    ...[...new Set(paths)].sort().map((path) => [path, design.text(path)] as const),
    ...[...new Set(requirements)].sort().map((id) => [id, JSON.stringify({ ...design.requirement(id), place: "" })] as const),
    ...[...new Set(decisions)].sort().map((path) => [path, JSON.stringify({ ...design.decision(path), place: "" })] as const),
  ];
}

/** The graph behind every result taken, as the publishing sheets' outputs hold it; givens by path only. */
function takenGraphs(takes: readonly Take[], sheets: ReadonlyMap<string, Notebook>): readonly unknown[] {
  return takes.map(({ sheet, name }) => {
    const notebook = sheets.get(sheet);
    if (notebook === undefined) return [sheet, name, "no such sheet"];
    const displays = displaysOf(notebook);
    const ids = displays.flatMap(({ block }) => givenUnder(name, block));
    if (ids.length === 0) return [sheet, name, "not there"];
    const graph = Graph.from(displays.flatMap(({ nodes }) => nodes));
    const behind = graph.ancestors(ids).sort();
    return [sheet, name, ids, behind.map((ancestor) => withoutValue(graph.get(ancestor)))];
  });
}

/** The nodes that a block gives to others under a name: a published result, an assumption, items of a roll-up. */
function givenUnder(name: string, block: Block): NodeId[] {
  if (block.type === "publish") {
    const id = entryOf(block.names, name);
    return id === undefined ? [] : [id];
  }
  if (block.type === "assumption") return block.name === name ? [block.node] : [];
  return block.type === "contribution" && name === rollUp(block.budget) ? block.items.map(({ node }) => node) : [];
}

/** A given is taken as the design file states it now: its text is in the fingerprint by its path. */
function withoutValue(node: GraphNode): string {
  return "path" in node ? `${node.id} from ${node.path}` : canonicalText(node);
}

/** The record of what ran, by sheet. */
export class FreshRecord {
  private readonly known: Map<string, string>;

  constructor(private readonly path: string) {
    this.known = read(path);
  }

  isFresh(name: string, now: string | undefined): boolean {
    return now !== undefined && this.known.get(name) === now;
  }

  /** Written at once, whole, so that an interrupted run keeps what was done. */
  remember(name: string, now: string | undefined): void {
    if (now === undefined) this.known.delete(name);
    else this.known.set(name, now);
    this.write();
  }

  /**
   * Before other outputs are written: a run that is killed between the two would leave outputs of one design under the
   * fingerprint of another, to which the design may return.
   */
  forget(name: string): void {
    if (!this.known.delete(name)) return;
    try {
      this.write();
    } catch {
      // A full disk: without any record all sheets run again.
      rmSync(this.path, { force: true });
    }
  }

  private write(): void {
    const sorted = Object.fromEntries([...this.known].sort(([a], [b]) => (a < b ? -1 : 1)));
    writeWhole(this.path, `${JSON.stringify(sorted, null, 1)}\n`);
  }
}

function read(path: string): Map<string, string> {
  if (!existsSync(path)) return new Map();
  try {
    const content: unknown = JSON.parse(readFileSync(path, "utf8"));
    const entries = typeof content === "object" && content !== null ? Object.entries(content) : [];
    return new Map(entries.filter((entry): entry is [string, string] => typeof entry[1] === "string"));
  } catch {
    // A record that cannot be read is no record.
    return new Map();
  }
}
