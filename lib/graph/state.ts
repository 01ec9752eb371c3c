/** The values of a program at one point, and the evaluation of its special instructions there. */
import { WorkingsError } from "../quantity/error";
import type { CurveData } from "./curve";
import { nodeName } from "./diagnose";
import { checkCurve, curveAt, curveCrossing, curveIntegral, curveMaximum, curveMinimum } from "./interpolate";
import { type CurveArgument, type CurveResult, curveArgument } from "./model";
import type { CurveOperationNode, GraphNode, NodeId, SelectNode } from "./node";
import { preferred, preferredPair } from "./preferred";
import type { ModelCall, Selection } from "./tape";

/** Preferred values and values set once as they were chosen, by the id of their node; and those of each point of each sweep. */
export interface Selections {
  readonly chosen: ReadonlyMap<NodeId, number>;
  readonly sweeps: ReadonlyMap<NodeId, readonly Selections[]>;
}

/** By slot of the program's tape. */
export interface ProgramState {
  readonly values: Float64Array;
  readonly curves: (CurveData | undefined)[];
  readonly selections: { readonly chosen: Map<NodeId, number>; readonly sweeps: Map<NodeId, readonly Selections[]> };
  /** States of the inner program of each sweep, one a point, by index of the special instruction. */
  readonly inner: Map<number, readonly ProgramState[]>;
}

/** How special instructions fail: by an error that names the node, or quietly as NaN. */
export interface Mode {
  readonly strict: boolean;
  /** Preferred values to hold; chosen afresh where absent. */
  readonly held: Selections | undefined;
}

/** The preferred value, or the one that is set once: chosen or held. */
export function evaluateSelection({ node }: Selection, of: number, mode: Mode): number {
  const held = mode.held?.chosen.get(node.id);
  if (held !== undefined) return held;
  if (node.kind === "set-once") return of;
  return attempt(node, mode.strict, () => chosenPart(node, of), Number.NaN);
}

function chosenPart({ series, rule, pair }: SelectNode, of: number): number {
  if (pair === undefined) return preferred(of, series, rule);
  const [larger, smaller] = preferredPair(of, series, pair.joined, rule).parts;
  return pair.part === "larger" ? larger : smaller;
}

/** A number read from a curve. */
export function evaluateReading(node: CurveOperationNode, curve: CurveData, argument: number, strict: boolean): number {
  return attempt(node, strict, () => readCurve(node.operation, curve, argument), Number.NaN);
}

function readCurve(operation: CurveOperationNode["operation"], curve: CurveData, argument: number): number {
  switch (operation) {
    case "at":
      return curveAt(curve, argument);
    case "crossing":
      return curveCrossing(curve, argument);
    case "maximum":
      return curveMaximum(curve);
    case "minimum":
      return curveMinimum(curve);
    case "integral":
      return curveIntegral(curve);
  }
}

export type ModelArgumentValues = Record<string, number | CurveArgument>;

/** All outputs of a model; undefined where it fails and `strict` is off. */
export function evaluateModel(
  call: ModelCall,
  args: ModelArgumentValues,
  strict: boolean,
): Readonly<Record<string, number | CurveResult>> | undefined {
  return attempt(call.node, strict, () => call.model.evaluate(args), undefined);
}

/** One output as a number or curve; in strict mode it must be finite and a proper curve. */
export function modelOutput(
  call: ModelCall,
  results: Readonly<Record<string, number | CurveResult>> | undefined,
  name: string,
  strict: boolean,
): number | CurveData {
  const result = results?.[name];
  if (typeof result === "object") return asCurve(result, call, name, strict);
  const value = result ?? Number.NaN;
  if (strict && !Number.isFinite(value)) {
    throw new WorkingsError(
      "nominal-domain",
      `${nodeName(call.node)}: model '${call.model.name}' gives no finite '${name}' for its arguments`,
      { node: call.node.id },
    );
  }
  return value;
}

/** A curve argument from a slot: tables keep one reading function for all rows. */
export const toArgument = (curve: CurveData | undefined): CurveArgument => curveArgument(curve ?? noCurve);

/** Stands where a model failed: every reading of it fails too. */
export const noCurve: CurveData = { x: Float64Array.of(Number.NaN), y: Float64Array.of(Number.NaN) };

function asCurve(result: CurveResult, call: ModelCall, name: string, strict: boolean): CurveData {
  const { interpolation } = result;
  const points = { x: Float64Array.from(result.x), y: Float64Array.from(result.y) };
  const curve = interpolation === undefined ? points : { ...points, interpolation };
  if (strict) checkCurve(curve, `'${name}' of ${nodeName(call.node)}`);
  return curve;
}

/** Runs f; an error then names the node, or gives way to `otherwise`. */
function attempt<T>(node: GraphNode, strict: boolean, f: () => T, otherwise: T): T {
  try {
    return f();
  } catch (error) {
    if (!strict) return otherwise;
    const { message } = error as Error;
    const known = error instanceof WorkingsError;
    throw new WorkingsError(known ? error.code : "model-failed", `${nodeName(node)}: ${message}`, {
      ...(known ? error.details : {}),
      node: node.id,
    });
  }
}
