/**
 * A YAML file whose every part knows its line and column, and the list of what is wrong with it. Reading goes on
 * after an error, so that one look at the file mends all of them.
 */
import { type Document, isAlias, isMap, isScalar, LineCounter, type Node, parseDocument, type YAMLError, type YAMLMap } from "yaml";
import { WorkingsError } from "../quantity/error";

/** One key of a mapping with its value. `at` is the offset of the key. */
export interface Entry {
  readonly key: string;
  readonly at: number;
  readonly value: Node;
}

interface Problem {
  readonly offset: number;
  readonly text: string;
}

/** The text of a file by its path from the folder of the file that names it. Throws where it must not or cannot be read. */
export type ReadBeside = (path: string) => string;

const nothingBeside: ReadBeside = () => {
  throw new Error("no other file can be read from here");
};

export class LocatedFile {
  /** The mapping at the top. */
  readonly top: YAMLMap;
  readonly document: Document;
  private readonly lines = new LineCounter();
  private readonly problems: Problem[] = [];

  /** Texts of the files that it names, by their paths. */
  private readonly companions = new Map<string, string>();

  /**
   * `readBeside` gives the text of a file by its path from this one's folder. Throws a WorkingsError `design` where the text is not a
   * mapping in sound YAML.
   */
  constructor(
    readonly text: string,
    readonly fileName: string,
    private readonly readBeside: ReadBeside = nothingBeside,
  ) {
    const document = parseDocument(text, { lineCounter: this.lines, prettyErrors: false, stringKeys: true, logLevel: "error" });
    this.document = document;
    const errors = [...document.errors, ...document.warnings];
    for (const error of errors) this.reportYaml(error);
    // What stands in a file with broken syntax cannot be trusted; a key that stands twice breaks nothing else.
    if (errors.some((error) => error.code !== "DUPLICATE_KEY")) this.throwProblems();
    if (!isMap(document.contents)) {
      const keys = "keys such as product, sources and givens at the left margin";
      this.report(0, "the file holds no mapping", keys, "write 'key: value' lines");
      this.throwProblems();
    }
    this.top = document.contents as YAMLMap;
  }

  /** The text of a file beside this one, read once. Throws where it cannot be read. */
  beside(path: string): string {
    const text = this.companions.get(path) ?? this.readBeside(path);
    this.companions.set(path, text);
    return text;
  }

  /** Of such a file what has been read; undefined where it has not. */
  readBefore(path: string): string | undefined {
    return this.companions.get(path);
  }

  /** `file:line:column`, both from 1. */
  place(offset: number): string {
    const { line, col } = this.lines.linePos(offset);
    return `${this.fileName}:${line}:${col}`;
  }

  /** Notes one error: what was found, what was expected, what to do. */
  report(at: number | Node, what: string, expected: string, remedy: string): void {
    this.tell(typeof at === "number" ? at : start(at), `${what}; expected ${expected}; ${remedy}`);
  }

  /** Notes one error in a sentence that says all of this itself. */
  tell(offset: number, text: string): void {
    // A mapping may be looked at twice, first to see what it is.
    if (!this.problems.some((problem) => problem.offset === offset && problem.text === text)) this.problems.push({ offset, text });
  }

  /** Entries of a mapping in the order of the file. Aliases are reported and left out. */
  entries(map: YAMLMap): readonly Entry[] {
    const found: Entry[] = [];
    for (const { key, value } of map.items as { key: Node; value: Node | null }[]) {
      if (value === null || !isScalar(key)) continue;
      if (isAlias(value)) this.report(value, "an alias (*name) stands for a value", "the value itself", "write it out where it is used");
      else found.push({ key: String(key.value), at: start(key), value });
    }
    return found;
  }

  /** A stretch of the file word for word. */
  slice(from: number, to: number): string {
    return this.text.slice(from, to).trimEnd();
  }

  /** Throws one error that lists everything reported, in the order of the file. */
  throwProblems(): void {
    if (this.problems.length === 0) return;
    const sorted = [...this.problems].sort((a, b) => a.offset - b.offset);
    const lines = sorted.map(({ offset, text }) => `${this.place(offset)}: ${text}`);
    const head = lines.length > 1 ? `${this.fileName} has ${lines.length} errors\n` : "";
    throw new WorkingsError("design", head + lines.join("\n"), { place: this.place(sorted[0]?.offset ?? 0) });
  }

  private reportYaml(error: YAMLError): void {
    const offset = error.pos[0];
    if (error.code === "MULTIPLE_DOCS") {
      this.report(offset, "a second YAML document begins here", "one document in the file", "delete this line of dashes or dots");
    } else if (error.code === "DUPLICATE_KEY") {
      const key = /^[^:\s]*/.exec(this.text.slice(offset))?.[0] ?? "";
      this.report(offset, `the key '${key}' stands here a second time`, "each key once in a mapping", "rename or delete one of the two");
    } else {
      this.report(offset, `malformed YAML: ${firstLine(error.message)}`, "YAML 1.2", yamlRemedy(this.text, offset));
    }
  }
}

function yamlRemedy(text: string, offset: number): string {
  const lineStart = text.lastIndexOf("\n", offset - 1) + 1;
  const line = /^[^\n]*/.exec(text.slice(lineStart))?.[0] ?? "";
  if (/:\s*[>|@`%&*!]/.test(line)) return "put quotes round text that begins with > | @ ` % & * or !";
  return "look at indentation, colons, quotes and brackets here";
}

function firstLine(message: string): string {
  return message.split("\n", 1)[0] ?? message;
}

/** Offset of the first character of a node. */
export function start(node: Node): number {
  return node.range?.[0] ?? 0;
}

/** Offset after the last character of a node, without trailing comments. */
export function end(node: Node): number {
  return node.range?.[1] ?? 0;
}
