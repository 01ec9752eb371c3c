/** Models: numerical procedures as pure functions of numbers, tables and curves, registered by name. */
import { WorkingsError } from "../quantity/error";
import type { Dim, Unit } from "../quantity/quantity";
import type { CurveData, Interpolation } from "./curve";
import { curveAt } from "./interpolate";
import type { ValidityLimit } from "./node";

/** An input that is a table or curve: y in one unit as a function of x in another. */
export interface TableInput<X extends Dim, Y extends Dim> {
  readonly shape: "curve";
  readonly x: Unit<X>;
  readonly y: Unit<Y>;
}

/** An output that is a curve. */
export type CurveOutput<X extends Dim, Y extends Dim> = TableInput<X, Y>;

export function tableInput<X extends Dim, Y extends Dim>(x: Unit<X>, y: Unit<Y>): TableInput<X, Y> {
  return { shape: "curve", x, y };
}

export function curveOutput<X extends Dim, Y extends Dim>(x: Unit<X>, y: Unit<Y>): CurveOutput<X, Y> {
  return { shape: "curve", x, y };
}

// Units are invariant in their dimension: a slot of any dimension has to say `any`.
export type Slot = Unit<any> | TableInput<any, any>;
export type Slots = Readonly<Record<string, Slot>>;

/** A table as a model sees it, SI. `at` reads between the points and throws "table-range" outside them. */
export interface CurveArgument extends CurveData {
  at(x: number): number;
}

/** Points that a model returns; x strictly increasing, SI. */
export interface CurveResult {
  readonly x: ArrayLike<number>;
  readonly y: ArrayLike<number>;
  readonly interpolation?: Interpolation;
}

type IsCurve<S> = S extends TableInput<any, any> ? true : false;
export type ModelArguments<I extends Slots> = { readonly [K in keyof I]: IsCurve<I[K]> extends true ? CurveArgument : number };
export type ModelResults<O extends Slots> = { readonly [K in keyof O]: IsCurve<O[K]> extends true ? CurveResult : number };

interface Named<I extends Slots, O extends Slots> {
  /** Module and name: `light.operatingPoint`. */
  readonly name: string;
  readonly inputs: I;
  readonly outputs: O;
  /** A sentence that says what it does. */
  readonly meaning: string;
  /** Of each output, in a few words; the meaning of the whole where absent. */
  readonly meanings?: Readonly<Record<string, string>>;
  readonly source: string;
  readonly valid?: readonly ValidityLimit[];
  /** What limits of single symbols cannot say: where its tables end, how symbols must stand to one another. */
  readonly holds?: string;
  /** Draws at most, for a model that takes long; those of the evaluation where absent. */
  readonly draws?: number;
  /** The reason for `ways`, in a sentence. */
  readonly waysBecause?: string;
}

/** Of a number, where it lies; of a table, its points. */
export type Over<I extends Slots> = { readonly [K in keyof I]: IsCurve<I[K]> extends true ? CurveData : Extent };

export interface Extent {
  readonly low: number;
  readonly high: number;
}

/** Which way outputs go along inputs, all others standing still: 1 nowhere falling, −1 nowhere rising, anything where undefined. */
export type Ways<I extends Slots, O extends Slots> = { readonly [N in keyof O]?: { readonly [K in keyof I]?: 1 | -1 | undefined } };

export interface Model<I extends Slots = Slots, O extends Slots = Slots> extends Named<I, O> {
  /**
   * The ways over a box that lies within `valid`; where the model has no value they need not hold. Worst cases are proved with them, so
   * they are only for what a reason stands behind, and tests/physics/ways.test.ts tries each.
   */
  ways?(over: Over<I>): Ways<I, O>;
  /** Pure: SI numbers in, SI numbers and curves out. May throw a WorkingsError where it has no answer. */
  evaluate(args: ModelArguments<I>): ModelResults<O>;
}

/** A model as the evaluator calls it: its types were checked where it was defined and used. */
export interface AnyModel extends Named<Slots, Slots> {
  ways?(over: Readonly<Record<string, Extent | CurveData>>): Readonly<Record<string, Readonly<Record<string, 1 | -1 | undefined>>>>;
  evaluate(args: Readonly<Record<string, number | CurveArgument>>): Readonly<Record<string, number | CurveResult>>;
}

const models = new Map<string, AnyModel>();

/** Registers a model under its name, once. Throws "model-duplicate" if the name belongs to another one. */
export function defineModel<const I extends Slots, const O extends Slots>(model: Model<I, O>): Model<I, O> {
  const present = models.get(model.name);
  if (present !== undefined && !isSameModel(present, model as unknown as AnyModel)) {
    throw new WorkingsError("model-duplicate", `two models are called '${model.name}'; give one of them another name`);
  }
  models.set(model.name, Object.freeze({ ...model }) as unknown as AnyModel);
  return model;
}

/** The model of that name; throws "model-unknown" naming those that exist in its module. */
export function modelNamed(name: string): AnyModel {
  const model = models.get(name);
  if (model !== undefined) return model;
  const module = `${name.split(".")[0]}.`;
  const others = [...models.keys()].filter((other) => other.startsWith(module));
  const hint = others.length > 0 ? `; its module has ${others.join(", ")}` : "; is the module that defines it loaded?";
  throw new WorkingsError("model-unknown", `there is no model '${name}'${hint}`, { model: name });
}

/** The shape of one output of a model. */
export function isCurveSlot(slot: Slot | undefined): boolean {
  return slot !== undefined && "shape" in slot && slot.shape === "curve";
}

/** A curve with its reading function. */
export function curveArgument(curve: CurveData): CurveArgument {
  return { ...curve, at: (x) => curveAt(curve, x) };
}

/** Loading a module twice (two bundles in one process) defines the same model again. */
function isSameModel(a: AnyModel, b: AnyModel): boolean {
  const head = (model: AnyModel): string =>
    [model.name, model.meaning, model.source, Object.keys(model.inputs), Object.keys(model.outputs)].join("|");
  return head(a) === head(b) && a.evaluate.toString() === b.evaluate.toString();
}
