/**
 * What an evaluation has found, kept in a file under build/ so that publishing does not compute again what a run has just computed. It
 * may be lost or out of date at any time: it is used only by the library that wrote it, and only for nodes that are still the same.
 */
import { readFileSync } from "node:fs";
import { deserialize, serialize } from "node:v8";
import { Evaluation, type Found } from "../analysis/evaluation";
import { WorkingsError } from "../quantity/error";
import { writeWhole } from "./write";

/** Where to keep it, and what the library and Node are that may read it. */
export interface Keeping {
  readonly path: string;
  readonly stamp: string;
}

/** A file that cannot be written is no failure of what was found. */
export function keep({ path, stamp }: Keeping, found: Found): void {
  try {
    writeWhole(path, serialize({ stamp, found }));
  } catch (error) {
    if (!(error instanceof WorkingsError)) throw error;
  }
}

/** Undefined where there is none, or one of another library or Node. */
export function kept({ path, stamp }: Keeping): Evaluation | undefined {
  try {
    const { stamp: own, found } = deserialize(readFileSync(path)) as { stamp?: unknown; found: Found };
    return own === stamp ? Evaluation.knowing(found) : undefined;
  } catch {
    return undefined;
  }
}
