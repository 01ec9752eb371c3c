/**
 * Reads a design file: YAML with the keys product, sources, requirements, decisions, givens, correlations, common,
 * blocks, states, readings and batches. Every error carries file, line and column; all of them are collected and thrown as one. Text stays plain text.
 */
import { type Node, YAMLMap } from "yaml";
import { WorkingsError } from "../quantity/error";
import { readBlocks } from "./blocks";
import { readCorrelations } from "./correlation";
import { Fields, mapOf } from "./fields";
import { isPathPart, type ReadGiven, readGivens } from "./given";
import { type Entry, LocatedFile, type ReadBeside, start } from "./locate";
import { nearest, suggestion } from "./nearest";
import { readStates } from "./read-states";
import { readBatch, readReading } from "./reading";
import { noReferences } from "./reference";
import { readRequirement } from "./requirement";
import { readSources } from "./source";
import type {
  Batch,
  BlockRow,
  CommonRow,
  CorrelationRow,
  CslItem,
  DecisionRow,
  Design,
  Product,
  Reading,
  ReferenceTables,
  RequirementRow,
  StatesRow,
} from "./types";

export const designKeys = [
  "product",
  "sources",
  "requirements",
  "decisions",
  "givens",
  "correlations",
  "common",
  "blocks",
  "states",
  "readings",
  "batches",
] as const;
export const productKeys = ["name", "title", "revision", "note"] as const;
export const decisionKeys = ["chosen", "reason", "reconsider"] as const;

/**
 * The design in a YAML text. `fileName` is how errors and places name it; `readBeside` reads the CSV files that it names. Throws a WorkingsError `design` that
 * lists everything wrong.
 */
export function readDesign(text: string, fileName: string, references: ReferenceTables = noReferences, readBeside?: ReadBeside): Design {
  const file = new LocatedFile(text, fileName, readBeside);
  const top = new Fields(file, file.top, designKeys, "the design file");
  const product = readProduct(top);
  const sources = readSources(file, top.node("sources"));
  const requirements = section(top, "requirements").flatMap((entry) => readRequirement(file, entry) ?? []);
  const decisions = section(top, "decisions").flatMap((sheet) => readDecisions(file, sheet));
  const readings = section(top, "readings").flatMap((entry) => readReading(file, entry, sources) ?? []);
  const givens = new Map<string, ReadGiven>();
  const tree = top.node("givens") && mapOf(file, top.node("givens") as Node, "givens", "nested keys that lead to values");
  readGivens({ file, sources, references }, tree ?? new YAMLMap(), "", givens);
  const correlated = { correlations: top.node("correlations"), common: top.node("common") };
  const { correlations, common } = readCorrelations(file, correlated, sources, givens);
  const blocks = readBlocks(file, section(top, "blocks"), givens);
  const states = section(top, "states").flatMap((entry) => readStates(file, entry) ?? []);
  const batches = section(top, "batches").flatMap((entry) => readBatch(file, entry, sources, givens) ?? []);
  file.throwProblems();
  const all = allSources(sources, references);
  return new ReadDesign({
    fileName,
    product,
    sources: all,
    requirements,
    decisions,
    readings,
    batches,
    correlations,
    common,
    blocks,
    states,
    givens,
    references,
  });
}

/** All that a design file says, as plain data. */
export interface DesignContent {
  readonly fileName: string;
  readonly product: Product;
  readonly sources: ReadonlyMap<string, CslItem>;
  readonly requirements: readonly RequirementRow[];
  readonly decisions: readonly DecisionRow[];
  readonly readings: readonly Reading[];
  readonly batches: readonly Batch[];
  readonly correlations: readonly CorrelationRow[];
  readonly common: readonly CommonRow[];
  readonly blocks: readonly BlockRow[];
  readonly states: readonly StatesRow[];
  readonly givens: ReadonlyMap<string, ReadGiven>;
  readonly references: ReferenceTables;
}

/** Of a design that was read from a file; undefined for any other. */
export function contentOf(design: Design): DesignContent | undefined {
  return design instanceof ReadDesign ? design.content : undefined;
}

export function designOf(content: DesignContent): Design {
  return new ReadDesign(content);
}

function section(top: Fields, key: (typeof designKeys)[number]): readonly Entry[] {
  const node = top.node(key);
  const map = node && mapOf(top.file, node, key, "named entries");
  return map ? top.file.entries(map).filter((entry) => isPathPart(top.file, entry)) : [];
}

function readProduct(top: Fields): Product {
  const node = top.node("product");
  if (!node) top.missing("product", "write it with name and revision");
  const map = node && mapOf(top.file, node, "product", "keys name and revision");
  if (!map) return { name: "", revision: "" };
  const fields = new Fields(top.file, map, productKeys, "product");
  const name = fields.requiredText("name", "write the name of the product") ?? "";
  const revision = fields.requiredText("revision", "write the revision of this file, in quotes") ?? "";
  const [title, note] = [fields.text("title"), fields.text("note")];
  return { name, revision, ...(title && { title }), ...(note && { note }) };
}

function readDecisions(file: LocatedFile, { key: sheet, value }: Entry): readonly DecisionRow[] {
  const map = mapOf(file, value, `decisions of '${sheet}'`, "the name of a decision with the key chosen under it");
  return (map ? file.entries(map) : []).flatMap((entry) => {
    const path = `decisions.${sheet}.${entry.key}`;
    const body = isPathPart(file, entry) && mapOf(file, entry.value, `decision '${path}'`, "the key chosen");
    if (!body) return [];
    const fields = new Fields(file, body, decisionKeys, `decision '${path}'`);
    const chosen = fields.requiredText("chosen", "write the name of one alternative of the sheet");
    const reason = fields.requiredText("reason", "write why this one was chosen");
    const reconsider = fields.requiredText("reconsider", "write what would change our mind");
    if (chosen === undefined || reason === undefined || reconsider === undefined) return [];
    return [{ path, chosen, reason, reconsider, place: file.place(start(fields.node("chosen") ?? body)) }];
  });
}

function allSources(own: ReadonlyMap<string, CslItem>, references: ReferenceTables): ReadonlyMap<string, CslItem> {
  return new Map([...own, ...references.sources]);
}

interface Identified {
  readonly id: string;
}

const idOf = ({ id }: Identified): string => id;
const named = <T extends Identified>(rows: readonly T[], id: string): T | undefined => rows.find((row) => row.id === id);

class ReadDesign implements Design {
  readonly name: string;
  readonly revision: string;
  readonly title?: string;
  readonly note?: string;

  readonly fileName: string;
  readonly sources: ReadonlyMap<string, CslItem>;
  readonly readings: readonly Reading[];
  readonly batches: readonly Batch[];
  readonly correlations: readonly CorrelationRow[];
  readonly common: readonly CommonRow[];
  readonly blocks: readonly BlockRow[];
  readonly stateTables: readonly StatesRow[];

  // No private fields of the language: a worksheet's design inherits from this one (`sheet/project.ts`).
  constructor(readonly content: DesignContent) {
    const { product } = content;
    this.fileName = content.fileName;
    this.sources = content.sources;
    this.readings = content.readings;
    this.batches = content.batches;
    this.correlations = content.correlations;
    this.common = content.common;
    this.blocks = content.blocks;
    this.stateTables = content.states;
    this.name = product.name;
    this.revision = product.revision;
    if (product.title) this.title = product.title;
    if (product.note) this.note = product.note;
  }

  given(path: string) {
    const node = this.content.givens.get(path)?.node ?? this.content.references.nodes.get(path);
    return node ?? this.unknown("given", path, [...this.content.givens.keys(), ...this.content.references.nodes.keys()]);
  }

  paths(): readonly string[] {
    return [...this.content.givens.keys()];
  }

  requirement(id: string): RequirementRow {
    const row = this.content.requirements.find((requirement) => requirement.id === id);
    const known = () => this.content.requirements.map((requirement) => requirement.id);
    return row ?? this.unknown("requirement", id, known());
  }

  reading(id: string): Reading {
    return named(this.readings, id) ?? this.unknown("reading", id, this.readings.map(idOf));
  }

  batch(id: string): Batch {
    return named(this.batches, id) ?? this.unknown("batch", id, this.batches.map(idOf));
  }

  states(id: string): StatesRow {
    return named(this.stateTables, id) ?? this.unknown("table of states", id, this.stateTables.map(idOf));
  }

  requirements(): readonly RequirementRow[] {
    return this.content.requirements;
  }

  decision(path: string): DecisionRow {
    const row = this.content.decisions.find((decision) => decision.path === path);
    const known = () => this.content.decisions.map((decision) => decision.path);
    return row ?? this.unknown("decision", path, known());
  }

  decisions(): readonly DecisionRow[] {
    return this.content.decisions;
  }

  place(path: string): string | undefined {
    const node = this.content.givens.get(path)?.node ?? this.content.references.nodes.get(path);
    return node?.provenance.place ?? this.content.decisions.find((decision) => decision.path === path)?.place;
  }

  text(path: string): string {
    if (path.startsWith("decisions.")) return this.decision(path).chosen;
    return this.content.givens.get(path)?.text ?? this.content.references.texts.get(this.given(path).path) ?? "";
  }

  private unknown(kind: string, path: string, known: readonly string[]): never {
    const names = nearest(path, known);
    const remedy = suggestion(names, `add it to the file, or use one of its ${known.length} paths`);
    throw new WorkingsError("path", `${this.fileName} has no ${kind} '${path}'; ${remedy}`, { place: this.fileName, path, nearest: names });
  }
}
