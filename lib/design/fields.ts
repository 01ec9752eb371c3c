/** Reading a mapping with known keys: unknown ones are reported with the nearest known name, text must be text. */
import { isMap, isScalar, type Node, type YAMLMap } from "yaml";
import { type LocatedFile, start } from "./locate";
import { list, nearest, suggestion } from "./nearest";

/** A mapping whose keys are all among `known`; what is not is reported. */
export class Fields {
  private readonly values = new Map<string, Node>();
  /** Keys that were not known. */
  readonly unknown: readonly string[];

  constructor(
    readonly file: LocatedFile,
    readonly map: YAMLMap,
    known: readonly string[],
    readonly subject: string,
  ) {
    const unknown: string[] = [];
    for (const { key, at, value } of file.entries(map)) {
      if (known.includes(key)) this.values.set(key, value);
      else {
        unknown.push(key);
        file.report(
          at,
          `unknown key '${key}' in ${subject}`,
          list(known, "or"),
          suggestion(nearest(key, known, 1), "delete it, or move it to a comment"),
        );
      }
    }
    this.unknown = unknown;
  }

  node(key: string): Node | undefined {
    return this.values.get(key);
  }

  /** Text of an optional key; reported and undefined where it is not text. */
  text(key: string): string | undefined {
    const node = this.values.get(key);
    return node === undefined ? undefined : textOf(this.file, node, `${key} of ${this.subject}`);
  }

  /** Text of a key that must be there and not empty. `why` ends the sentence 'write one: …'. */
  requiredText(key: string, why: string): string | undefined {
    if (this.values.has(key)) return this.text(key);
    this.missing(key, why);
    return undefined;
  }

  missing(key: string, why: string): void {
    // An unknown key that is a slip of this one has been reported already, with this name as the remedy.
    if (this.unknown.some((other) => nearest(other, [key]).length > 0)) return;
    this.file.report(this.map, `${this.subject} has no ${key}`, `a key '${key}'`, why);
  }

  flag(key: string): boolean | undefined {
    const node = this.values.get(key);
    if (node === undefined) return undefined;
    if (isScalar(node) && typeof node.value === "boolean") return node.value;
    this.file.report(node, `${key} of ${this.subject} is not a yes or no`, "true or false", "write one of the two without quotes");
    return undefined;
  }
}

/** The text of a scalar; anything else, and text of nothing but spaces, is reported. */
export function textOf(file: LocatedFile, node: Node, what: string): string | undefined {
  if (isScalar(node) && typeof node.value === "string" && node.value.trim() !== "") return node.value;
  const empty = isScalar(node) && (node.value === null || node.value === "");
  const found = isMap(node) ? "a mapping" : isScalar(node) ? `${node.source ?? String(node.value)}` : "a list";
  if (empty) file.report(start(node), `${what} is empty`, "text", "write it, or delete the key");
  else file.report(start(node), `${what} is ${found}, not text`, "text", "put it in quotes");
  return undefined;
}

/** The mapping at a node, or undefined after a report. */
export function mapOf(file: LocatedFile, node: Node, what: string, example: string): YAMLMap | undefined {
  if (isMap(node)) return node;
  file.report(node, `${what} is not a mapping`, example, "indent its keys under it");
  return undefined;
}
