/**
 * Correlations between givens, and causes that several have in common: `correlations`, a list of pairs with their
 * coefficients, and `common`, named causes with the share of each one's variance that they make up.
 */
import { isMap, isScalar, isSeq, type Node } from "yaml";
import { scoresFor, strongest } from "../analysis/correlation";
import { commonParts, couple } from "../analysis/couple";
import { isTolerance } from "../analysis/distribution";
import type { GivenNode, SharedPart } from "../graph/node";
import { Fields, mapOf } from "./fields";
import { isPathPart, type ReadGiven } from "./given";
import type { LocatedFile } from "./locate";
import { list, nearest, suggestion } from "./nearest";
import { sourceKey } from "./source";
import type { CommonRow, CorrelationRow, CslItem } from "./types";

export const correlationKeys = ["between", "coefficient", "source", "note"] as const;
export const commonKeys = ["paths", "share", "reason", "source", "note"] as const;

type Placed<T> = T & { readonly node: Node };

export interface Correlations {
  readonly correlations: readonly CorrelationRow[];
  readonly common: readonly CommonRow[];
}

/** Reads both sections and gives every given concerned what it shares: entries of `givens` are replaced. */
export function readCorrelations(
  file: LocatedFile,
  nodes: { readonly correlations: Node | undefined; readonly common: Node | undefined },
  sources: ReadonlyMap<string, CslItem>,
  givens: Map<string, ReadGiven>,
): Correlations {
  const pairs = readPairs(file, nodes.correlations, sources, givens);
  const causes = readCauses(file, nodes.common, sources, givens);
  const correlated = new Set(pairs.flatMap(({ between }) => between));
  for (const { paths, name, node } of causes) {
    const both = paths.filter((path) => correlated.has(path));
    if (both.length > 0)
      file.report(
        node,
        `${list(both, "and")} of the common cause '${name}' also ${both.length === 1 ? "stands" : "stand"} in correlations`,
        "one of the two",
        "state every pair in correlations",
      );
  }
  shareCauses(file, causes, givens);
  for (const group of groupsOf(pairs)) couplePairs(file, group, givens);
  return { correlations: pairs.map(withoutNode), common: causes.map(withoutNode) };
}

function withoutNode<T>({ node: _, ...row }: Placed<T>) {
  return row;
}

function readPairs(
  file: LocatedFile,
  section: Node | undefined,
  sources: ReadonlyMap<string, CslItem>,
  givens: ReadonlyMap<string, ReadGiven>,
): readonly Placed<CorrelationRow>[] {
  const rows: Placed<CorrelationRow>[] = [];
  const known = new Set<string>();
  for (const item of itemsOf(file, section, "correlations", "a list of pairs")) {
    const row = readPair(file, item, sources, givens);
    if (row === undefined) continue;
    const key = [...row.between].sort().join(" ");
    if (known.has(key))
      file.report(
        item,
        `the correlation of ${list(row.between, "and")} stands here a second time`,
        "each pair once",
        "delete one of the two",
      );
    else rows.push(row);
    known.add(key);
  }
  return rows;
}

function readPair(
  file: LocatedFile,
  item: Node,
  sources: ReadonlyMap<string, CslItem>,
  givens: ReadonlyMap<string, ReadGiven>,
): Placed<CorrelationRow> | undefined {
  const map = mapOf(file, item, "a correlation", "keys between, coefficient and source");
  if (!map) return undefined;
  const fields = new Fields(file, map, correlationKeys, "a correlation");
  const between = pathsOf(fields, "between", givens);
  const coefficient = numberOf(fields, "coefficient", [-1, 1]);
  const source = sourceKey(fields, sources);
  const note = fields.text("note");
  if (between === undefined || coefficient === undefined || source === undefined) return undefined;
  const [first, second] = between as [string, string];
  if (between.length !== 2 || first === second)
    return void file.report(
      fields.node("between") ?? map,
      `a correlation is between two givens, not ${list(between, "and")}`,
      "two different paths",
      "write between: [path, path]",
    );
  if (!isOneKind(fields, "between", between, givens)) return undefined;
  return { between: [first, second], coefficient, source, ...(note && { note }), node: item };
}

function readCauses(
  file: LocatedFile,
  section: Node | undefined,
  sources: ReadonlyMap<string, CslItem>,
  givens: ReadonlyMap<string, ReadGiven>,
): readonly Placed<CommonRow>[] {
  const map = section && mapOf(file, section, "common", "named causes with the keys paths and share");
  return (map ? file.entries(map) : []).flatMap((entry): Placed<CommonRow>[] => {
    const what = `common cause '${entry.key}'`;
    const body = isPathPart(file, entry) && mapOf(file, entry.value, what, "keys paths, share, reason and source");
    if (!body) return [];
    const fields = new Fields(file, body, commonKeys, what);
    const paths = pathsOf(fields, "paths", givens);
    const share = numberOf(fields, "share", [0, 1]);
    const reason = fields.requiredText("reason", "write why they vary alike: one reel, one lot, one oven");
    const source = sourceKey(fields, sources);
    const note = fields.text("note");
    if (paths === undefined || share === undefined || reason === undefined || source === undefined) return [];
    if (!isOneKind(fields, "paths", paths, givens)) return [];
    return [{ name: entry.key, paths: [...new Set(paths)], share, reason, source, ...(note && { note }), node: entry.value }];
  });
}

function itemsOf(file: LocatedFile, node: Node | undefined, what: string, example: string): readonly Node[] {
  if (node === undefined) return [];
  if (isSeq(node)) return node.items as Node[];
  file.report(node, `${what} is no list`, example, "begin each entry with a dash");
  return [];
}

/** A list of paths of givens with a tolerance; undefined after a report. */
function pathsOf(fields: Fields, key: string, givens: ReadonlyMap<string, ReadGiven>): readonly string[] | undefined {
  const node = fields.node(key);
  if (!node) return void fields.missing(key, "list the paths of givens");
  const items = itemsOf(fields.file, node, `${key} of ${fields.subject}`, "a list of paths, as in [rails.high, rails.low]");
  const paths = items.map((item) => pathOf(fields.file, item, givens));
  return paths.length > 0 && paths.every((path) => path !== undefined) ? paths : undefined;
}

/** Units differ from one another, what is not known is the same in all of them: nothing varies with both. */
function isOneKind(fields: Fields, key: string, paths: readonly string[], givens: ReadonlyMap<string, ReadGiven>): boolean {
  const isKnowledge = (path: string): boolean => {
    const node = givens.get(path)?.node;
    return node?.kind === "given" && node.knowledge === true;
  };
  const truths = paths.filter(isKnowledge);
  if (truths.length === 0 || truths.length === paths.length) return true;
  const units = paths.filter((path) => !isKnowledge(path));
  fields.file.report(
    fields.node(key) ?? fields.map,
    `${fields.subject} joins two kinds of spread: ${list(truths, "and")} ${truths.length === 1 ? "is" : "are"} of knowledge, ${list(units, "and")} of production`,
    "givens whose spreads are of one kind",
    "part them, or give them all the same spread:",
  );
  return false;
}

function pathOf(file: LocatedFile, item: Node, givens: ReadonlyMap<string, ReadGiven>): string | undefined {
  const path = isScalar(item) ? String(item.value) : "";
  const given = givens.get(path)?.node;
  if (given === undefined)
    return void file.report(
      item,
      `there is no given '${path}'`,
      "the path of a given of this file",
      suggestion(nearest(path, givens.keys()), "look at the keys under givens"),
    );
  if (given.kind === "given" && given.doubt !== undefined)
    return void file.report(
      item,
      `'${path}' has a doubt beside its tolerance, and two spreads cannot be drawn with others by one coefficient`,
      "a given with one spread",
      "state the doubt as a given of its own that the law multiplies, with spread: knowledge",
    );
  if (given.kind === "given" && isTolerance(given)) return path;
  const what = given.kind === "table" ? "a table" : given.spread.kind === "range" ? "a condition of use, which is never drawn" : "exact";
  return void file.report(item, `'${path}' is ${what}`, "a given with a tolerance", "state its tolerance, or leave it out here");
}

function numberOf(fields: Fields, key: string, [low, high]: readonly [number, number]): number | undefined {
  const node = fields.node(key);
  if (!node) return void fields.missing(key, `write a number from ${low} to ${high}`);
  const value = isScalar(node) ? node.value : undefined;
  if (typeof value === "number" && value >= low && value <= high) return value;
  const found = isScalar(node) ? (node.source ?? String(node.value)) : isMap(node) ? "a mapping" : "a list";
  return void fields.file.report(node, `${key} of ${fields.subject} is ${found}`, `a number from ${low} to ${high}`, "mend it");
}

/** Pairs that hang together, each group's paths in alphabetical order: the same draws whatever the order of the file. */
function groupsOf(pairs: readonly Placed<CorrelationRow>[]): readonly (readonly Placed<CorrelationRow>[])[] {
  const groups: { readonly paths: Set<string>; readonly pairs: Placed<CorrelationRow>[] }[] = [];
  for (const pair of pairs) {
    const touched = groups.filter(({ paths }) => pair.between.some((path) => paths.has(path)));
    const merged = {
      paths: new Set([...touched.flatMap(({ paths }) => [...paths]), ...pair.between]),
      pairs: [...touched.flatMap((group) => group.pairs), pair],
    };
    for (const group of touched) groups.splice(groups.indexOf(group), 1);
    groups.push(merged);
  }
  return groups.map((group) => group.pairs);
}

function couplePairs(file: LocatedFile, pairs: readonly Placed<CorrelationRow>[], givens: Map<string, ReadGiven>): void {
  const paths = [...new Set(pairs.flatMap(({ between }) => between))].sort();
  const nodes = paths.map((path) => givens.get(path)?.node as GivenNode);
  if (!pairs.map((pair) => isReachable(file, pair, givens)).every(Boolean)) return;
  const matrix = paths.map((a) => paths.map((b) => (a === b ? 1 : coefficientOf(pairs, a, b))));
  const shared = couple(nodes, matrix);
  if (shared === undefined) {
    file.report(
      (pairs.at(-1) as Placed<CorrelationRow>).node,
      `the correlations between ${list(paths, "and")} cannot all be true: their matrix is not positive semidefinite`,
      "coefficients that go together, with 0 for every pair left out",
      "weaken one of them, or state the pairs that are missing",
    );
    return;
  }
  for (const [i, path] of paths.entries()) share(givens, path, shared[i] as readonly SharedPart[], pairs);
}

function coefficientOf(pairs: readonly CorrelationRow[], a: string, b: string): number {
  return pairs.find(({ between }) => between.includes(a) && between.includes(b))?.coefficient ?? 0;
}

/** Two distributions of unlike shape cannot be correlated as strongly as one likes. */
function isReachable(
  file: LocatedFile,
  { between, coefficient, node }: Placed<CorrelationRow>,
  givens: ReadonlyMap<string, ReadGiven>,
): boolean {
  const [a, b] = between.map((path) => givens.get(path)?.node) as [GivenNode, GivenNode];
  if (scoresFor(coefficient, a, b) !== undefined) return true;
  const [low, high] = strongest(a, b).map((r) => Math.floor(Math.abs(r) * 1000) / 1000) as [number, number];
  file.report(
    node,
    `${list(between, "and")} cannot have a correlation of ${coefficient}: their distributions differ too much`,
    `-${low} to ${high}`,
    "weaken it, or write 1 or -1 where one determines the other",
  );
  return false;
}

function shareCauses(file: LocatedFile, causes: readonly Placed<CommonRow>[], givens: Map<string, ReadGiven>): void {
  for (const path of new Set(causes.flatMap(({ paths }) => paths))) {
    const own = causes.filter(({ paths, share: part }) => paths.includes(path) && part > 0);
    const sum = own.reduce((total, { share: part }) => total + part, 0);
    if (sum > 1 + 1e-9)
      file.report(
        (own.at(-1) as Placed<CommonRow>).node,
        `the common causes ${list(
          own.map(({ name }) => name),
          "and",
        )} make up ${sum} of the variance of '${path}'`,
        "at most 1 in all",
        "lower a share",
      );
    else if (own.length > 0) share(givens, path, commonParts(givens.get(path)?.node as GivenNode, own), own);
  }
}

/** The rows belong to the text of the given: a coefficient that changes makes it another. */
function share(givens: Map<string, ReadGiven>, path: string, shared: readonly SharedPart[], rows: readonly Placed<object>[]): void {
  const { node, text } = givens.get(path) as ReadGiven;
  if (shared.length > 0)
    givens.set(path, { node: { ...(node as GivenNode), shared }, text: `${text}\n${JSON.stringify([rows.map(withoutNode), shared])}` });
}
