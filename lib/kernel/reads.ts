/**
 * Which files a sheet reads, and what they say: its outputs came of them. Node's own functions are wrapped, so that whatever
 * imports or reads a file is seen: a cell, a module beside the notebook, the compiler, the library.
 */
import { createHash } from "node:crypto";
import { createRequire } from "node:module";
import { isAbsolute, join, relative, resolve, sep } from "node:path";
import { fileURLToPath } from "node:url";

/** Hash of a file's bytes as the sheet read it, "absent" where there was none, by path from the folder. */
export type ReadFiles = Readonly<Record<string, string>>;

/** Of each file that was read for roll-ups their names, by path, "" among them where it was read for anything else too. */
export type Purposes = Readonly<Record<string, readonly string[]>>;

/** Folders that hold nothing of the author's, and a file that names packages alone. */
export const passedOver: ReadonlySet<string> = new Set(["node_modules", "build", ".git", "package.json"]);

type Anything = (...values: unknown[]) => unknown;

export function hashOfBytes(bytes: string | Uint8Array): string {
  return createHash("sha256").update(bytes).digest("hex").slice(0, 32);
}

export class Reads {
  private found = new Map<string, string>();
  private readonly readFor = new Map<string, Set<string>>();
  private budget = "";
  private folder: string | undefined;
  /** Node reads a file by opening it, which is wrapped too. */
  private isHashing = false;
  private readonly read: typeof import("node:fs").readFileSync;

  /** Wraps for good: call once a process. `library`: the folder of the library's own files. */
  constructor(private readonly library: string) {
    const load = createRequire(join(process.cwd(), "cell.js"));
    const fs = load("node:fs") as typeof import("node:fs");
    this.read = fs.readFileSync;
    this.wrap(fs, ["readFileSync", "readFile", "openSync", "open", "createReadStream"]);
    this.wrap(fs.promises, ["readFile", "open"]);
  }

  /** Forgets what was read, and sees what lies in `folder` from now on. */
  begin(folder: string | undefined): void {
    this.folder = folder;
    this.found = new Map();
    this.readFor.clear();
    this.budget = "";
  }

  /** What is read from now on is read for the items of that roll-up alone; undefined: for whatever a cell makes of it. */
  collect(budget: string | undefined): void {
    this.budget = budget ?? "";
  }

  get files(): ReadFiles {
    return Object.fromEntries([...this.found].sort(([a], [b]) => (a < b ? -1 : 1)));
  }

  get purposes(): Purposes {
    const collected = [...this.readFor].filter(([, budgets]) => [...budgets].some((budget) => budget !== ""));
    return Object.fromEntries(collected.map(([key, budgets]) => [key, [...budgets].sort()]));
  }

  private wrap(module: object, names: readonly string[]): void {
    const functions = module as Record<string, Anything>;
    for (const name of names) {
      const inner = functions[name] as Anything;
      const note = (...values: unknown[]) =>
        this.note(values[0], typeof values[1] === "string" && name.startsWith("open") ? values[1] : "r");
      functions[name] = function (this: unknown, ...values: unknown[]) {
        note(...values);
        return inner.apply(this, values);
      };
      Object.assign(functions[name] as Anything, inner);
    }
  }

  /** A file that said two things to one sheet is like none that there is. */
  private note(path: unknown, flags: string): void {
    if (this.folder === undefined || this.isHashing || /^[wax]/.test(flags)) return;
    const file = pathOf(path);
    if (file === undefined) return;
    const name = relative(this.folder, file);
    if (name === "" || name.startsWith("..") || isAbsolute(name) || file.startsWith(this.library + sep)) return;
    const parts = name.split(sep);
    if (parts.some((part) => passedOver.has(part))) return;
    const key = parts.join("/");
    const hash = this.hash(file);
    this.readFor.set(key, (this.readFor.get(key) ?? new Set()).add(this.budget));
    this.found.set(key, (this.found.get(key) ?? hash) === hash ? hash : "different each time");
  }

  private hash(file: string): string {
    this.isHashing = true;
    try {
      return hashOfBytes(this.read(file));
    } catch {
      return "absent";
    } finally {
      this.isHashing = false;
    }
  }
}

function pathOf(path: unknown): string | undefined {
  if (typeof path === "string") return resolve(path);
  if (path instanceof URL) return path.protocol === "file:" ? fileURLToPath(path) : undefined;
  return path instanceof Uint8Array ? resolve(Buffer.from(path).toString()) : undefined;
}
