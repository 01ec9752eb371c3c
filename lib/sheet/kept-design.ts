/**
 * A design as it was read, kept in a file under build/ so that no other process parses the same texts again. It may be lost, damaged or
 * out of date at any time: it is used only whole, only by the library that wrote it, and only for texts that are the same to the byte.
 * The file is the SHA-256 of the rest, then the rest as V8 serialises it.
 */
import { createHash } from "node:crypto";
import { readFileSync } from "node:fs";
import { deserialize, serialize } from "node:v8";
import { contentOf, type DesignContent, designOf } from "../design/read";
import type { Design } from "../design/types";

/** Where it is kept, and what the library and Node are that may read it. */
export interface DesignKeeping {
  readonly path: string;
  readonly stamp: string;
}

/** By path of each text that a design is made from, what it says; companions are the files that the design file names. */
export interface DesignTexts {
  readonly named: string;
  readonly own: Readonly<Record<string, string>>;
  readonly companions: Readonly<Record<string, string>>;
}

interface Kept {
  readonly stamp: string;
  readonly own: string;
  readonly companions: readonly (readonly [name: string, hash: string])[];
  readonly content: DesignContent;
}

const digestLength = 32;
const digest = (content: Uint8Array | string) => createHash("sha256").update(content).digest();
const hashOf = (text: string) => digest(text).toString("hex");
const hashOfOwn = ({ named, own }: Pick<DesignTexts, "named" | "own">) => hashOf(JSON.stringify([named, own]));

/** The bytes to keep; undefined for a design that was not read from texts. */
export function designBytes(design: Design, texts: DesignTexts, stamp: string): Uint8Array | undefined {
  const content = contentOf(design);
  if (content === undefined) return undefined;
  const companions = Object.entries(texts.companions).map(([name, text]) => [name, hashOf(text)] as const);
  const kept: Kept = { stamp, own: hashOfOwn(texts), companions, content };
  const bytes = serialize(kept);
  return Buffer.concat([digest(bytes), bytes]);
}

/** The design of these texts, where it is kept. `companion` gives the text of a file that the design names, by its name there. */
export function keptDesign(
  { path, stamp }: DesignKeeping,
  texts: Pick<DesignTexts, "named" | "own">,
  companion: (name: string) => string,
): Design | undefined {
  try {
    const bytes = readFileSync(path);
    const rest = bytes.subarray(digestLength);
    // A flipped bit in a number would pass for a given.
    if (!digest(rest).equals(bytes.subarray(0, digestLength))) return undefined;
    const kept = deserialize(rest) as Kept;
    if (kept.stamp !== stamp || kept.own !== hashOfOwn(texts)) return undefined;
    return kept.companions.every(([name, hash]) => hashOf(companion(name)) === hash) ? designOf(kept.content) : undefined;
  } catch {
    return undefined;
  }
}
