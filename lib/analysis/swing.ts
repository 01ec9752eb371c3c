/**
 * Sensitivity beside variance: what a result is worth when one given alone is moved, a limit, a level or a temperature that has no
 * variance among them. Found by evaluating at both ends of a step, not from the derivative, so that limits, branches and preferred
 * values show, which are chosen anew.
 *
 * How far a given is moved, by the first of these that fits it: the step that the design file states, to either side; a range, a
 * condition of use, from end to end; 10 K to either side of a point of temperature, which has no per cent; 1 dB of a level; its
 * own limits about a value of zero, which has no per cent either; 10 % of any other value, and of the ordinates of a table. A range
 * is left by no step, and does not move what is set once. Constants of the reference tables are not moved.
 */
import type { NodeValue } from "../graph/curve";
import type { GivenNode, NodeId, TableNode } from "../graph/node";
import type { Selections } from "../graph/state";
import { fromLevel } from "../quantity/level";
import { limitsOf } from "../quantity/limits";
import { unitOf } from "../quantity/unit";
import type { Study } from "./study";

export type SwingRule = "step" | "range" | "10 K" | "1 dB" | "limits" | "10 %";

/** SI. */
export interface SwingEnd {
  /** Of the given; of a table the factor of its ordinates, or the kelvins added to them. */
  readonly value: number;
  /** Of the result; absent where there is none for that value. */
  readonly result?: number;
}

export interface Swing {
  /** The given itself, or the first of its parts behind the result: parts of one path move together. */
  readonly given: NodeId;
  readonly path: string;
  readonly rule: SwingRule;
  readonly low: SwingEnd;
  readonly high: SwingEnd;
}

/** A share of the value that the rounding of a long evaluation may make. */
const rounding = 1e-12;

/** Of every given and table that moves the result, the largest difference of its two ends first. */
export function swings(study: Study): Swing[] {
  const { graph, tape } = study.program;
  const inputs = tape.order.map((id) => graph.get(id)).filter(isMovable);
  const paths = [...new Set(inputs.map(({ path }) => path))];
  const found = paths.flatMap((path): Swing[] => {
    const nodes = inputs.filter((node) => node.path === path);
    const [node] = nodes as [Movable];
    const ends = endsOf(node);
    if (ends === undefined) return [];
    const at = (value: number): SwingEnd => {
      const result = resultAt(study, nodes, value);
      return { value, ...(result !== undefined && { result }) };
    };
    const [low, high] = [at(ends.low), at(ends.high)];
    const isMoved = [low, high].some(
      ({ result }) => result === undefined || Math.abs(result - study.value) > rounding * Math.abs(study.value),
    );
    return isMoved ? [{ given: node.id, path, rule: ends.rule, low, high }] : [];
  });
  return found.toSorted((a, b) => sizeOf(b, study.value) - sizeOf(a, study.value) || (a.path < b.path ? -1 : 1));
}

/** Between the ends, or from the nominal to the one that there is; what has a result at neither end comes first. */
function sizeOf({ low, high }: Swing, nominal: number): number {
  if (low.result === undefined && high.result === undefined) return Infinity;
  return Math.abs((high.result ?? nominal) - (low.result ?? nominal));
}

export type Movable = GivenNode | TableNode;

function isMovable(node: { readonly kind: string; readonly id: NodeId }): node is Movable {
  return (node.kind === "given" || node.kind === "table") && !node.id.startsWith("reference.");
}

export interface Ends {
  readonly rule: SwingRule;
  readonly low: number;
  readonly high: number;
}

/** Where a given is moved to. Undefined of an exact zero: nothing says how far to move it. */
export function endsOf(node: Movable): Ends | undefined {
  if (node.kind === "table") return unitOf(node.unit).affine ? { rule: "10 K", low: -10, high: 10 } : { rule: "10 %", low: 0.9, high: 1.1 };
  const { nominal, spread } = node;
  const unit = unitOf(node.unit);
  const [low, high] = limitsOf(spread, nominal);
  const isLevel = unit.log !== undefined && nominal > 0;
  const about = (rule: SwingRule, step: number): Ends => {
    const ends = isLevel && rule !== "10 %" ? [nominal / step, nominal * step] : [nominal - step, nominal + step];
    const inside = spread.kind === "range" ? ends.map((x) => Math.min(Math.max(x, low), high)) : ends;
    return { rule, low: Math.min(...inside), high: Math.max(...inside) };
  };
  if (node.step !== undefined) return about("step", node.step);
  if (spread.kind === "range") return { rule: "range", low, high };
  if (unit.affine === true) return about("10 K", 10);
  if (isLevel && unit.log !== undefined) return about("1 dB", fromLevel(1, { ...unit.log, reference: 1 }));
  if (nominal === 0) return low < high ? { rule: "limits", low, high } : undefined;
  return about("10 %", Math.abs(nominal) / 10);
}

function resultAt(study: Study, nodes: readonly Movable[], value: number): number | undefined {
  const { program, id } = study;
  const overrides = new Map(nodes.map((node): [NodeId, NodeValue] => [node.id, moved(node, value)]));
  const isCondition = nodes.some((node) => node.kind === "given" && node.spread.kind === "range");
  const selections = isCondition ? setOnceOf(study) : undefined;
  const result = program.valueIn(program.evaluate({ overrides, strict: false, ...(selections && { selections }) }), id);
  return typeof result === "number" && Number.isFinite(result) ? result : undefined;
}

/** The values that are set once: a condition of use does not move them. */
function setOnceOf({ program, nominal }: Study): Selections | undefined {
  const held = program.tape.order.filter((node) => program.graph.get(node).kind === "set-once");
  if (held.length === 0) return undefined;
  return { chosen: new Map(held.map((node) => [node, program.valueIn(nominal, node) as number])), sweeps: new Map() };
}

function moved(node: Movable, value: number): NodeValue {
  if (node.kind === "given") return value;
  const shift = unitOf(node.unit).affine === true;
  const { x, y, interpolation } = node;
  return { x: Float64Array.from(x), y: Float64Array.from(y, (at) => (shift ? at + value : at * value)), interpolation };
}
