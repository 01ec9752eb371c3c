/**
 * Links to results in Markdown: `[270 Ω](#R)` in a sheet, `[12 h](battery.ipynb#runtime)` from anywhere; `[10.2 h](#runtime?worst-low)` to
 * an end of its worst case, of the middle 95 % of units or of its doubt. Sheets are
 * found by name, whatever number stands before it in the file's name.
 */
import { givenId } from "../graph/identity";
import type { NodeId } from "../graph/node";

/** Which results there are, and under which names (`sheet.name`) sheets have published them. */
export interface LinkTargets {
  has(id: NodeId): boolean;
  readonly published: ReadonlyMap<string, NodeId>;
}

/** The result, or else the given, that a link target names, or undefined where it names none. */
export function linkedResult(target: string, sheet: string, { has, published }: LinkTargets): NodeId | undefined {
  const name = linkedName(target, sheet);
  if (name === undefined) return undefined;
  return [published.get(name) ?? name, givenId(name)].find(has);
}

/** How the target of a link to a state of the book begins: `#with?path=value`. */
export const stateMark = "#with?";

/** Whether a target is a state, to which the document's page turns, and not a place in it. */
export function isStateLink(target: string): boolean {
  return target.startsWith(stateMark);
}

/** `sheet.name` for a target of the form of a link to a result, whether or not there is one. */
export function linkedName(target: string, sheet: string): string | undefined {
  if (isStateLink(target)) return undefined;
  const parts = /^(?:.*?([^/]+)\.ipynb)?#([^?]+)(?:\?.*)?$/.exec(decoded(target));
  if (parts === null) return undefined;
  const owner = parts[1]?.replace(/^\d+-/, "") ?? sheet;
  return `${owner}.${parts[2] ?? ""}`;
}

/** `low end of the worst case` and the like behind a `?`: `[10.2 h](#runtime?worst-low)`; undefined where there is none. */
export function linkedEnd(target: string): string | undefined {
  return isStateLink(target) ? undefined : /#[^?]*\?(.*)$/.exec(decoded(target))?.[1];
}

/** Whether the text of a link is a number that the document replaces by the computed one. */
export function isNumber(text: string): boolean {
  return /^[\s≈~<>≤≥+−-]*\d/.test(text);
}

/** Text without its percent-encoding; as it is where that is malformed (`50%`). */
export function decoded(target: string): string {
  try {
    return decodeURIComponent(target);
  } catch {
    return target;
  }
}
