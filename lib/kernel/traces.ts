/**
 * What a sheet may leave behind in its process that another sheet could see: globals, changed built-in objects, members and
 * settings of `process`, listeners, modules. Compared with how the process was before; whatever differs, the process is not used again.
 */
import { EventEmitter } from "node:events";
import type fs from "node:fs";
import { existsSync } from "node:fs";
import Module, { createRequire, isBuiltin } from "node:module";
import { dirname, join, sep } from "node:path";

type Snapshot = ReadonlyMap<PropertyKey, PropertyDescriptor>;

/** Modules of Node that hold nothing open and keep nothing from one sheet to the next. */
const harmless = new Set(
  "assert buffer console crypto events fs fs/promises os path path/posix path/win32 perf_hooks process querystring string_decoder url util util/types".split(
    " ",
  ),
);

/** Ours: the cell that runs, and tslab's hand-over of names to it. */
const own = new Set<PropertyKey>([Symbol.for("workings.cell"), "__tslab__"]);

/** Members of `process` that the loader of modules changes by itself. */
const changing = new Set<PropertyKey>(["mainModule", "moduleLoadList"]);

export class Traces {
  private readonly objects = new Map<object, Snapshot>();
  private readonly modules = new Set(Object.keys(require.cache));
  private readonly library = libraryFolder();
  private readonly surroundings = surroundings();
  private found: string | undefined;

  constructor() {
    this.watchTimers();
    this.watchInput();
    this.remember([globalThis, process, process.stdout, process.stderr, ...hidden()]);
    this.watchModules();
  }

  /** The first thing that the sheet left, or undefined. */
  left(): string | undefined {
    if (this.found !== undefined) return this.found;
    // First, because what tells of the surroundings may be changed itself.
    for (const [object, before] of this.objects) {
      const key = difference(before, snapshot(object));
      if (key !== undefined) return `a changed property ${String(key)} of a global or built-in object`;
    }
    return surroundings() === this.surroundings ? undefined : "a changed environment, folder or setting of the process";
  }

  /** The next sheet loads the library anew, so that it finds no model or cache of an earlier one. */
  forgetModules(): void {
    for (const path of Object.keys(require.cache)) if (!this.modules.has(path)) delete require.cache[path];
  }

  private keep(what: string): void {
    this.found ??= what;
  }

  /** These objects and everything that is reached from them, as they are now. */
  private remember(roots: readonly object[]): void {
    for (const object of reached(roots)) if (!this.objects.has(object)) this.objects.set(object, snapshot(object));
  }

  /** Looking at it opens it. */
  private watchInput(): void {
    const { get, ...more } = Object.getOwnPropertyDescriptor(process, "stdin") ?? {};
    const read = () => {
      this.keep("standard input");
      return get?.call(process);
    };
    Object.defineProperty(process, "stdin", { ...more, get: read });
  }

  /** A timer that does not keep the process running would still fire while another sheet runs. */
  private watchTimers(): void {
    const timer = setTimeout(() => undefined, 0);
    clearTimeout(timer);
    const prototype = Object.getPrototypeOf(timer) as NodeJS.Timeout;
    const { unref } = prototype;
    const keep = () => this.keep("a timer");
    prototype.unref = function (this: NodeJS.Timeout) {
      keep();
      return unref.call(this);
    };
  }

  private watchModules(): void {
    const loader = Module as unknown as { _load(request: string, parent: NodeModule | undefined, isMain: boolean): unknown };
    const load = loader._load;
    loader._load = (request, parent, isMain) => {
      const loaded = load.call(Module, request, parent, isMain);
      const byLibrary = this.isLibrary(parent?.filename ?? "");
      if (isBuiltin(request)) this.builtIn(request.replace(/^node:/, ""), loaded, byLibrary);
      else if (!byLibrary) this.file(request, parent);
      return loaded;
    };
  }

  private builtIn(name: string, exports: unknown, byLibrary: boolean): void {
    if (!byLibrary && !harmless.has(name)) this.keep(`the module ${name}`);
    if (isObject(exports) && harmless.has(name)) this.remember(name === "fs" ? [exports, (exports as typeof fs).promises] : [exports]);
  }

  /** A file of the project or of another package keeps what it likes. */
  private file(request: string, parent: NodeModule | undefined): void {
    if (parent?.filename === undefined || parent.filename === null) return;
    try {
      const path = createRequire(parent.filename).resolve(request);
      if (!this.modules.has(path) && !this.isLibrary(path)) this.keep(`the module ${request}`);
    } catch {
      this.keep(`the module ${request}`);
    }
  }

  private isLibrary(path: string): boolean {
    return this.library !== undefined && path.startsWith(this.library);
  }
}

/** Where `import "workings"` leads from the current folder. */
function libraryFolder(): string | undefined {
  try {
    const path = createRequire(join(process.cwd(), "cell.js")).resolve("workings");
    return existsSync(path) ? dirname(path) + sep : undefined;
  } catch {
    return undefined;
  }
}

/** What a sheet can set and no property holds. */
function surroundings(): string {
  const { env, title, debugPort, exitCode } = process;
  const user = [process.getuid?.(), process.getgid?.(), process.geteuid?.(), process.getegid?.(), process.getgroups?.()];
  const handling = [process.hasUncaughtExceptionCaptureCallback(), process.getMaxListeners(), EventEmitter.defaultMaxListeners];
  const maps = (process as { sourceMapsEnabled?: boolean }).sourceMapsEnabled;
  return JSON.stringify([
    env,
    process.cwd(),
    process.umask(),
    title,
    debugPort,
    exitCode ?? null,
    user,
    handling,
    maps,
    Error.stackTraceLimit,
  ]);
}

const isObject = (value: unknown): value is object => (typeof value === "object" && value !== null) || typeof value === "function";

/** Prototypes that no property leads to. */
function hidden(): object[] {
  return [
    (function* () {})(),
    (async function* () {})(),
    async () => undefined,
    new Map().entries(),
    new Set().entries(),
    [].values(),
    "".matchAll(/x/g),
    ""[Symbol.iterator](),
  ].map((value) => Object.getPrototypeOf(value) as object);
}

/** Everything that is reached through own data properties and prototypes. */
function reached(roots: readonly object[]): Set<object> {
  const found = new Set<object>();
  const queue = [...roots];
  for (let object = queue.pop(); object !== undefined; object = queue.pop()) {
    if (found.has(object)) continue;
    found.add(object);
    const prototype: unknown = Object.getPrototypeOf(object);
    if (isObject(prototype)) queue.push(prototype);
    for (const { value } of snapshot(object).values()) if (isObject(value)) queue.push(value);
  }
  return found;
}

function snapshot(object: object): Snapshot {
  const keys = Reflect.ownKeys(object).filter((key) => !own.has(key) && !(object === process && changing.has(key)));
  const properties = keys.map((key) => [key, Object.getOwnPropertyDescriptor(object, key) as PropertyDescriptor] as const);
  return new Map<PropertyKey, PropertyDescriptor>([...properties, [prototypeKey, { value: Object.getPrototypeOf(object) }]]);
}

const prototypeKey = Symbol("prototype");

function difference(before: Snapshot, after: Snapshot): PropertyKey | undefined {
  for (const key of after.keys()) if (!before.has(key)) return key;
  for (const [key, { value, get, set }] of before) {
    const now = after.get(key);
    if (now === undefined || !Object.is(now.value, value) || now.get !== get || now.set !== set) return key;
  }
  return undefined;
}
