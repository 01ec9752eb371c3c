/** What a formula or model of the physics modules takes and gives, as quantities and curves. */
import type { Slots, TableInput } from "../graph/model";
import type { Dim } from "../quantity/dimension-types";
import type { Quantity } from "../quantity/quantity";
import type { Unit } from "../quantity/quantity";
import type { Curve } from "./curve";

/** A quantity for each unit of a formula's arguments. */
export type FormulaArguments<A> = { readonly [K in keyof A]: A[K] extends Unit<infer D extends Dim> ? Quantity<D> : never };

type SlotValue<S> = S extends TableInput<infer X extends Dim, infer Y extends Dim> ? Curve<X, Y> : S extends Unit<infer D extends Dim> ? Quantity<D> : never;

export type ModelInputs<I extends Slots> = { readonly [K in keyof I]: SlotValue<I[K]> };
export type ModelOutputs<O extends Slots> = { readonly [K in keyof O]: SlotValue<O[K]> };
