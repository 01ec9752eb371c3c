/** Why a result is what it is: from the result down to the givens, with values, shares of its spread, and sources. */

import type { Evaluation } from "../analysis/evaluation";
import { proofText } from "../analysis/proof";
import type { Contribution } from "../analysis/result";
import type { SwingEnd } from "../analysis/swing";
import type { Batch } from "../design/types";
import { plainText } from "../formula/plain-text";
import type { Graph } from "../graph/graph";
import { isUnnamed, spelledName } from "../graph/identity";
import { inputsOf } from "../graph/inputs";
import { modelNamed } from "../graph/model";
import type { GivenNode, GraphNode, NodeId } from "../graph/node";
import { entryOf } from "../quantity/entry-of";
import { WorkingsError } from "../quantity/error";
import { format } from "../quantity/format";
import { unitOf } from "../quantity/unit";
import { readingId } from "../sheet/reading-node";
import { aboutText, batchText } from "../sheet/reading-words";
import { givenAt } from "../sheet/swing-words";
import { givenText, resultLine } from "../sheet/words";

/** Indented lines; what was told higher up is referred to, not repeated. `batches`: of the design file. */
export function whyLines(root: NodeId, evaluation: Evaluation, batches: readonly Batch[] = []): string[] {
  const analysis = evaluation.analysis(root);
  const sharesOf = (id: NodeId) => analysis.contributions.filter(({ given }) => given === id);
  const worth = worthOf(root, evaluation);
  const outside = evaluation.outside(root);
  const narrowing = narrowingOf(evaluation);
  const told = new Set<NodeId>();
  const lines: string[] = [];
  // A stack, not a recursion: a book's graph may be deep.
  const stack: { id: NodeId; depth: number }[] = [{ id: root, depth: 0 }];
  for (let next = stack.pop(); next !== undefined; next = stack.pop()) {
    const { id, depth } = next;
    const node = evaluation.graph.get(id);
    const indent = "  ".repeat(depth);
    const inputs = tellingInputs(node, evaluation);
    const again = told.has(id) && inputs.length > 0;
    const value = depth === 0 ? resultLine(analysis, unitOf(node.unit)) : valueText(node, evaluation);
    lines.push(
      `${indent}${title(node, evaluation)} = ${value}${shareText(sharesOf(id))}${worth.get(id) ?? ""}${again ? "  (told above)" : ""}`,
    );
    if (depth === 0 && analysis.worst !== null) lines.push(`  worst case: ${proofText(analysis.worst)}`);
    if (again) continue;
    told.add(id);
    const faults = outside.filter((one) => one.node === id).map(({ fault }) => `outside its range: ${fault}`);
    lines.push(...[...facts(node), ...(narrowing.get(id) ?? []), ...batched(node, batches), ...faults].map((fact) => `${indent}  ${fact}`));
    for (const input of [...new Set(inputs)].reverse()) stack.push({ id: input, depth: depth + 1 });
  }
  return lines;
}

/** Of a decided result, the chosen alternative only: the others are not why. */
function tellingInputs(node: GraphNode, { graph }: Evaluation): readonly NodeId[] {
  if (node.kind !== "switch") return inputsOf(node);
  const choice = graph.get(node.choice);
  const chosen = choice.kind === "choice" ? entryOf(node.cases, choice.chosen) : undefined;
  return chosen === undefined ? inputsOf(node) : [node.choice, chosen];
}

function title(node: GraphNode, { graph }: Evaluation): string {
  const name = isUnnamed(node.id) ? "intermediate" : nameIn(graph, node.id);
  return node.meaning === undefined ? name : `${name} (${node.meaning})`;
}

/** A given by its path alone, where no result has that name. */
function nameIn(graph: Graph, id: NodeId): string {
  const name = spelledName(id);
  return name !== id && graph.has(name) ? id : name;
}

function valueText(node: GraphNode, evaluation: Evaluation): string {
  if (node.kind === "given") return givenText(node);
  if (node.kind === "choice") return node.chosen;
  if (node.kind === "table") return `table of ${node.x.length} rows`;
  try {
    return format({ si: evaluation.nominal(node.id), unit: unitOf(node.unit) });
  } catch (error) {
    if (!(error instanceof WorkingsError)) throw error;
    return error.code === "graph-shape" ? "a curve" : `cannot be computed: ${error.message}`;
  }
}

/** By given, what the result is worth at both ends of its step: `  [at 360 mAh 13.5 h, at 440 mAh 16.5 h]`. Parts of one path move together. */
function worthOf(root: NodeId, evaluation: Evaluation): ReadonlyMap<NodeId, string> {
  const { graph } = evaluation;
  const unit = unitOf(graph.get(root).unit);
  const end = (node: GraphNode, { value, result }: SwingEnd) =>
    `at ${givenAt(node, value)} ${result === undefined ? "no value" : format({ si: result, unit })}`;
  return new Map(
    evaluation.swings(root).map(({ given, low, high }) => {
      const node = graph.get(given);
      return [given, `  [${end(node, low)}, ${end(node, high)}]`];
    }),
  );
}

/** By given, what readings that are evidence leave of its doubt; by result, the reading. */
function narrowingOf(evaluation: Evaluation): ReadonlyMap<NodeId, readonly string[]> {
  const found = new Map<NodeId, string[]>();
  const add = (id: NodeId, line: string) => found.set(id, [...(found.get(id) ?? []), line]);
  for (const node of evaluation.graph.nodes()) {
    if (node.kind !== "reading") continue;
    const name = node.id.slice(readingId("").length);
    add(node.of, `reading ${name}: ${node.text}${node.specimen === undefined ? "" : ` (${node.specimen})`}`);
    const learned = evaluation.learned(node.id);
    if (learned?.isUsed === false) add(node.of, `reading ${name} is evidence, but not used: ${learned.refused}`);
    for (const truth of learned?.truths ?? []) {
      const given = evaluation.graph.get(truth.given) as GivenNode;
      add(
        truth.given,
        `what is not known, narrowed by reading ${name}: ${aboutText(truth.before, given)} before, ${aboutText(truth.after, given)} after`,
      );
    }
  }
  return found;
}

function batched(node: GraphNode, batches: readonly Batch[]): string[] {
  if (node.kind !== "given") return [];
  return batches.filter(({ given }) => given === node.path).map(({ id, values }) => `pilot batch ${id}: ${batchText(values, node)}`);
}

function shareText(contributions: readonly Contribution[]): string {
  return contributions
    .filter(({ share }) => share >= 0.0005)
    .map(({ share, kind }) => `  [${(100 * share).toFixed(1)} % of the variance${kind === undefined ? "" : ", knowledge"}]`)
    .join("");
}

function facts(node: GraphNode): string[] {
  switch (node.kind) {
    case "formula":
      return [`law: ${plainText(node.expression)}${node.source === undefined ? "" : `  (${node.source})`}`];
    case "model":
      return [`model: ${modelNamed(node.model).meaning}  (${modelNamed(node.model).source})`];
    case "select":
      return [
        `preferred value of ${node.series}, ${node.rule}${node.pair === undefined ? "" : `, the ${node.pair.part} of two in ${node.pair.joined}`}`,
      ];
    case "set-once":
      return ["set once from nominal values, the same in every unit"];
    case "switch":
      return [
        `the chosen one of ${Object.keys(node.cases)
          .map((name) => `“${name}”`)
          .join(", ")}`,
      ];
    case "frozen":
      return [`frozen: made from a number after ${node.reads.join(", ")} had been read out`];
    case "given":
    case "table":
    case "choice": {
      const alike = node.kind === "given" ? (node.shared ?? []).map((one) => ("common" in one ? one.common : spelledName(one.with))) : [];
      const { source, note, fromMemory } = node.provenance;
      return [
        `source: ${source}${fromMemory === true ? ", from memory" : ""}${note === undefined ? "" : `; ${note}`}`,
        ...(alike.length > 0 ? [`varies with: ${alike.join(", ")}`] : []),
      ];
    }
    default:
      return [];
  }
}
