/**
 * Whether a sheet's outputs still stand: the facts that a run depended on, held against what they are now. They are its cells,
 * the text of what it read from the design file, the graphs of what it took, the files that its cells imported or read, the
 * library; and the outputs that came of it, which a front end may have overwritten since. What other sheets put out counts only
 * by the graphs that are taken. Kept in build/fresh.json, which may be lost at any time: then every sheet runs.
 */
import { createHash } from "node:crypto";
import { existsSync, readFileSync, rmSync } from "node:fs";
import { Graph } from "../graph/graph";
import type { GraphNode, NodeId } from "../graph/node";
import { canonicalText } from "../graph/serialise";
import { codeCells, formatNotebook, type Notebook } from "../kernel/notebook";
import { rollUp, type Take } from "../kernel/takes";
import { writeWhole } from "../kernel/write";
import { WorkingsError } from "../quantity/error";
import type { Block, Display } from "../sheet/block";
import { broughtWith } from "../sheet/other-sheets";
import { type AskableDesign, type Asked, askedText } from "../sheet/project";
import { storedDisplays } from "../sheet/stored";

type Hashes = Readonly<Record<string, string>>;

/** Hashes of what a sheet's outputs came of, by name where there are several. */
export interface Facts {
  readonly library: string;
  readonly cells: string;
  readonly outputs: string;
  readonly design: Hashes;
  /** By `sheet.name`; by `sheet` alone where it was read without a name that its cells spell out. */
  readonly taken: Hashes;
  /** By path from the book's folder; "absent" for a file that was looked for. */
  readonly files: Hashes;
}

export interface Readable {
  readonly notebook: Notebook;
  readonly takes: readonly Pick<Take, "sheet" | "name">[];
}

/** What facts are made from, besides the sheet itself. */
export interface Surroundings {
  readonly design: AskableDesign;
  readonly library: string;
  readonly sheets: ReadonlyMap<string, Outputs>;
  /** Hash of a file's bytes by its path from the book's folder, "absent" where there is none. */
  readonly fileHash: (path: string) => string;
}

/** What the outputs of a sheet hold: read when something is first taken from them, and once however many names are. */
export class Outputs {
  private read: { readonly displays: readonly Display[]; readonly graph: Graph } | undefined;

  constructor(
    private readonly sheet: string,
    private readonly notebook: Notebook,
  ) {}

  /** Throws WorkingsError "notebook" where they cannot be read. */
  get shown(): { readonly displays: readonly Display[]; readonly graph: Graph } {
    if (this.read === undefined) {
      const displays = storedDisplays(this.notebook, this.sheet).map(({ display }) => display);
      this.read = { displays, graph: Graph.from(displays.flatMap(({ nodes }) => nodes)) };
    }
    return this.read;
  }
}

/** What a run has asked for beyond its cells: of the design file, and of the disk. */
export interface Uses {
  readonly design: readonly Asked[];
  readonly files: readonly string[];
}

export function factsOf({ notebook, takes }: Readable, uses: Uses, { design, library, sheets, fileHash }: Surroundings): Facts {
  const code = codeCells(notebook);
  return {
    library,
    cells: hashOf(code.map(({ id, source }) => [id, source])),
    outputs: hashOf(formatNotebook({ ...notebook, metadata: {}, cells: code.map((cell) => ({ ...cell, execution_count: null })) })),
    design: table(uses.design, (asked) => hashOf(textAt(design, asked) ?? "gone")),
    taken: table(
      takes.map(({ sheet, name }) => (name === "" ? sheet : `${sheet}.${name}`)),
      (name) => takenHash(name, sheets),
    ),
    files: table(uses.files, fileHash),
  };
}

/** What makes outputs of `then` doubtful now, in words; nothing where all is as it was. */
export function differences(then: Facts, now: Facts): string[] {
  const changed = (what: "design" | "taken" | "files") =>
    [...new Set([...Object.keys(then[what]), ...Object.keys(now[what])])].filter(
      (name) => (valueAt(then[what], name) ?? nothingGiven) !== (valueAt(now[what], name) ?? nothingGiven),
    );
  return [
    ...(then.library === now.library ? [] : ["the library has changed"]),
    ...(then.cells === now.cells ? [] : ["its cells have changed"]),
    ...changed("design").map((name) => `${name} has changed in the design file`),
    ...changed("taken").map((name) => `${name}, which it takes, has changed`),
    ...changed("files").map((name) => `${name} has changed`),
    ...(then.outputs === now.outputs || then.cells !== now.cells ? [] : ["its outputs are not those of its last run"]),
  ];
}

function valueAt(hashes: Hashes, name: string): string | undefined {
  return Object.hasOwn(hashes, name) ? hashes[name] : undefined;
}

/** A sheet that gives nothing to a roll-up is like one that the book did not have. */
const nothingGiven = hashOf([[], []]);

function table(names: readonly string[], hash: (name: string) => string): Hashes {
  return Object.fromEntries([...new Set(names)].sort().map((name) => [name, hash(name)]));
}

/** Undefined where the design file no longer has it: the run will say so at its place. */
function textAt(design: Surroundings["design"], asked: Asked): string | undefined {
  try {
    return askedText(design, asked);
  } catch (error) {
    if (error instanceof WorkingsError) return undefined;
    throw error;
  }
}

/** The graph behind a result taken, as the publishing sheet's outputs hold it; givens by path only. */
function takenHash(name: string, sheets: ReadonlyMap<string, Outputs>): string {
  const dot = name.indexOf(".");
  const outputs = sheets.get(dot < 0 ? name : name.slice(0, dot));
  if (outputs === undefined) return "absent";
  try {
    const { displays, graph } = outputs.shown;
    const ids = displays.flatMap(({ block }) => givenUnder(dot < 0 ? undefined : name.slice(dot + 1), block));
    const behind = [...new Set(ids.flatMap((id) => broughtWith(graph, id)))].sort();
    return hashOf([ids, behind.map((ancestor) => withoutValue(graph.get(ancestor)))]);
  } catch (error) {
    // Outputs that cannot be read: the sheet that they are of is told of them.
    if (error instanceof WorkingsError) return "unreadable";
    throw error;
  }
}

/** The nodes that a block gives to others under a name, or under any: a published result, an assumption, items of a roll-up. */
function givenUnder(name: string | undefined, block: Block): NodeId[] {
  if (block.type === "publish") return Object.entries(block.names).flatMap(([own, id]) => (name === undefined || own === name ? [id] : []));
  if (block.type === "assumption") return name === undefined || block.name === name ? [block.node] : [];
  if (block.type !== "contribution" || (name !== undefined && name !== rollUp(block.budget))) return [];
  return block.items.map(({ node }) => node);
}

/** A given is taken as the design file states it now: what its text says is asked of the design. */
function withoutValue(node: GraphNode): string {
  return "path" in node ? `${node.id} from ${node.path}` : canonicalText(node);
}

export function hashOf(value: unknown): string {
  const text = typeof value === "string" || value instanceof Uint8Array ? value : JSON.stringify(value);
  return createHash("sha256").update(text).digest("hex").slice(0, 32);
}

/** What is kept of a sheet: the facts of its last good run, and what its last run failed with, if it did. */
export interface Kept {
  readonly facts?: Facts;
  readonly failed?: string;
}

/** The record of what ran, by sheet. */
export class FreshRecord {
  private readonly known: Map<string, Kept>;

  constructor(private readonly path: string) {
    this.known = read(path);
  }

  get(name: string): Kept | undefined {
    return this.known.get(name);
  }

  /** Written at once, whole, so that an interrupted run keeps what was done. */
  remember(name: string, kept: Kept): void {
    this.known.set(name, kept);
    this.write();
  }

  /**
   * Before other outputs are written: a run that is killed between the two would leave outputs of one design under the
   * facts of another, to which the design may return.
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
    writeWhole(this.path, `${JSON.stringify({ version: recordVersion, sum: hashOf(sorted), sheets: sorted }, null, 1)}\n`);
  }
}

const recordVersion = 2;

function read(path: string): Map<string, Kept> {
  if (!existsSync(path)) return new Map();
  try {
    const content = JSON.parse(readFileSync(path, "utf8")) as { version?: unknown; sum?: unknown; sheets?: unknown } | null;
    if (content?.version !== recordVersion || !isRecord(content.sheets) || content.sum !== hashOf(content.sheets)) return new Map();
    return new Map(Object.entries(content.sheets).flatMap(([name, kept]) => (isKept(kept) ? [[name, kept] as const] : [])));
  } catch {
    // Cut short or edited: nothing is known.
    return new Map();
  }
}

function isKept(value: unknown): value is Kept {
  if (!isRecord(value)) return false;
  const { facts, failed } = value;
  if (failed !== undefined && typeof failed !== "string") return false;
  if (facts === undefined) return true;
  if (!isRecord(facts)) return false;
  const texts = [facts.library, facts.cells, facts.outputs];
  const tables = [facts.design, facts.taken, facts.files];
  return (
    texts.every((text) => typeof text === "string") &&
    tables.every((hashes) => isRecord(hashes) && Object.values(hashes).every((hash) => typeof hash === "string"))
  );
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}
