/**
 * What an evaluation has found, kept in a file under build/ so that the next run of the sheet, and publishing, do not compute again what is known. It
 * may be lost, damaged or out of date at any time: it is used only whole, only by the library that wrote it, and only for nodes that are
 * still the same. The file is the SHA-256 of the rest, then the rest as V8 serialises it.
 */
import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { deserialize, serialize } from "node:v8";
import { Evaluation } from "../analysis/evaluation";
import type { EvaluationData } from "../analysis/found";
import { WorkingsError } from "../quantity/error";
import { writeWhole } from "./write";

/** Where to keep it, and what the library and Node are that may read it. */
export interface Keeping {
  readonly path: string;
  readonly stamp: string;
}

const digestLength = 32;
const digest = (content: Uint8Array) => createHash("sha256").update(content).digest();

/** A file that cannot be written is no failure of what was found. */
export function keep({ path, stamp }: Keeping, found: EvaluationData): void {
  const content = serialize({ stamp, found });
  keepBytes(path, Buffer.concat([digest(content), content]));
}

/** Writes what may be lost: nothing is said where it cannot be written. */
export function keepBytes(path: string, bytes: Uint8Array): void {
  try {
    writeWhole(path, bytes);
  } catch (error) {
    if (!(error instanceof WorkingsError)) throw error;
  }
}

export function kept(keeping: Keeping): Evaluation | undefined {
  const found = keptData(keeping);
  return found && Evaluation.knowing(found);
}

/** Undefined where there is none, a damaged one, or one of another library or Node. */
export function keptData({ path, stamp }: Keeping): EvaluationData | undefined {
  try {
    const bytes = readFileSync(path);
    const content = bytes.subarray(digestLength);
    // Numbers are plain bytes in the file: without the digest a flipped bit in one would pass for a result.
    if (!digest(content).equals(bytes.subarray(0, digestLength))) return undefined;
    const { stamp: own, found } = deserialize(content) as { stamp?: unknown; found: EvaluationData };
    return own === stamp ? found : undefined;
  } catch {
    return undefined;
  }
}
