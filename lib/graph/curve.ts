/** A quantity as a function of one other, as numbers: what tables, sweeps and model outputs evaluate to. */
import type { TableNode } from "./node";

export type Interpolation = TableNode["interpolation"];

export interface CurveData {
  /** Strictly increasing, SI. */
  readonly x: Float64Array;
  /** SI. */
  readonly y: Float64Array;
  /** How it is read between its points: straight lines unless stated. */
  readonly interpolation?: Interpolation;
}

/** What a node evaluates to. */
export type NodeValue = number | CurveData;

/** Rows of one node in a block: a number or a curve for each row. */
export type Column = Float64Array | readonly CurveData[];
