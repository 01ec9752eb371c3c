/** Finds the book that a worksheet belongs to, its design file and the reference tables. */
import { existsSync, readdirSync, realpathSync, statSync } from "node:fs";
import { basename, dirname, isAbsolute, join, relative, resolve, sep } from "node:path";
import { parseDocument } from "yaml";
import type { ReadBeside } from "../design/locate";
import { readDesign } from "../design/read";
import { readReferences } from "../design/reference";
import type { Design } from "../design/types";
import { WorkingsError } from "../quantity/error";
import { findBook, rootOf } from "./find-book";
import { type DesignKeeping, designBytes, keptDesign } from "./kept-design";
import { readText } from "./text-file";

/** Set by the runner to run the same notebooks on another design file. */
export const designVariable = "WORKINGS_DESIGN";

export interface Project {
  /** Folder that holds notebooks/ and data/. */
  readonly root: string;
  readonly design: Design;
  /** Folder of book.yaml, where the worksheets are. */
  readonly notebooks: string;
}

/**
 * The project of the notebook being run: the nearest folder upwards from `folder` (the notebook's own, which every
 * Jupyter front end makes the working folder) that holds book.yaml, or notebooks/book.yaml.
 * Throws where there is none, or where the design file it names does not exist.
 */
export function findProject(folder: string = process.cwd()): Project {
  const book = findBook(folder);
  const root = rootOf(book);
  const file = process.env[designVariable] ?? designOf(book);
  const path = resolve(dirname(book), file);
  if (!existsSync(path)) {
    throw new WorkingsError(
      "project",
      `${relative(root, book)}: the design file ${file} does not exist; give its path from the folder of book.yaml under "design:"`,
      { place: book },
    );
  }
  const keeping = (globalThis as Record<symbol, unknown>)[Symbol.for("workings.design")] as DesignKeeping | undefined;
  return { root, design: telling(readDesignFile(path, root, { keeping })), notebooks: dirname(book) };
}

/** Something that a sheet has asked of the design: `given rails.high`, `requirement led`, `decision decisions.brief.board`. */
export type Asked = string;

/** What the design says to that, word for word, but not where in the file. Throws "path" where it has no such thing. */
export function askedText(design: AskableDesign, asked: Asked): string {
  const space = asked.indexOf(" ");
  const [kind, name] = [asked.slice(0, space), asked.slice(space + 1)];
  if (kind === "given") return design.text(name);
  const asking = askedKinds.find((one) => one === kind) ?? "decision";
  return JSON.stringify({ ...design[asking](name), place: "" });
}

const askedKinds = ["requirement", "decision", "reading", "batch", "states"] as const;

/** What of a design a sheet can ask for. */
export type AskableDesign = Pick<Design, "text" | (typeof askedKinds)[number]>;

/** The design, which tells a runner that wants to know what is asked of it. */
function telling(design: Design): Design {
  const tell = (asked: Asked): void => {
    const listener = (globalThis as Record<symbol, unknown>)[Symbol.for("workings.asked")];
    if (typeof listener === "function") listener(asked);
  };
  const asking = (["given", ...askedKinds] as const).map((kind) => {
    const value = (name: string) => {
      tell(`${kind} ${name}`);
      return design[kind](name);
    };
    return [kind, { value }] as const;
  });
  return Object.create(design, Object.fromEntries(asking)) as Design;
}

/** `03-indicators.ipynb` is the sheet `indicators`, and keeps that name when it is renumbered. */
export function sheetName(file: string): string {
  return basename(file)
    .replace(/\.ipynb$/, "")
    .replace(/^\d+-/, "");
}

export interface ReadingDesign {
  /** Told every text that it is made from. */
  readonly onRead?: (path: string, text: string) => void;
  /** Where it may be kept as it was read before. */
  readonly keeping?: DesignKeeping | undefined;
  /** Told a design that was not kept, as bytes to keep. */
  readonly onParsed?: (bytes: Uint8Array) => void;
}

/** The design at a path, with the reference tables of its project. */
export function readDesignFile(path: string, root: string, { onRead = () => undefined, keeping, onParsed }: ReadingDesign = {}): Design {
  const told = (file: string, text: string): string => {
    onRead(file, text);
    return text;
  };
  const beside = filesBeside(path, root);
  const name = relative(root, path).split(sep).join("/");
  const text = told(path, textOf(path, `the design file ${name}`));
  const references = referenceTexts(root);
  for (const [file, content] of Object.entries(references)) told(join(root, file), content);
  const companion = (file: string): string => told(resolve(dirname(path), file), beside(file));
  const texts = { named: name, own: { ...references, "": text } };
  const known = keeping && keptDesign(keeping, texts, companion);
  if (known !== undefined) return known;
  const companions: Record<string, string> = {};
  const design = readDesign(text, name, readReferences(references), (file) => {
    companions[file] = companion(file);
    return companions[file];
  });
  const bytes = keeping && onParsed && designBytes(design, { ...texts, companions }, keeping.stamp);
  if (bytes !== undefined) onParsed?.(bytes);
  return design;
}

/** Reads the files that a design file names, from its own folder; none outside the project. */
export function filesBeside(design: string, root: string): ReadBeside {
  // A design file given on the command line may lie elsewhere, with its tables beside it.
  const homes = [root, dirname(design)];
  return (name) => readText(fileBeside(design, name, homes));
}

/** The real path of a file that another one names by its path from there. Throws an Error where it is none, outside the homes, or huge. */
export function fileBeside(naming: string, name: string, homes: readonly string[]): string {
  const path = resolve(dirname(naming), name);
  if (!homes.some((home) => isInside(home, path))) throw new Error("it lies outside the project");
  if (!existsSync(path)) throw new Error("there is no such file");
  const real = realpathSync(path);
  if (!homes.some((home) => isInside(realpathSync(home), real))) throw new Error("it leads outside the project");
  const state = statSync(real);
  if (!state.isFile()) throw new Error("it is no file");
  if (state.size > largestFile) throw new Error(`it is larger than ${largestFile / 1e6} MB`);
  return real;
}

function isInside(folder: string, path: string): boolean {
  const way = relative(folder, path);
  return way !== "" && !way.startsWith("..") && !isAbsolute(way);
}

const largestFile = 4e6;

/** Texts of data/reference/*.yaml by file name, in alphabetical order. */
export function referenceTexts(root: string): Record<string, string> {
  const folder = join(root, "data/reference");
  if (!existsSync(folder)) return {};
  const files = readdirSync(folder)
    .filter((name) => name.endsWith(".yaml"))
    .sort();
  return Object.fromEntries(files.map((name) => [`data/reference/${name}`, textOf(join(folder, name), `data/reference/${name}`)]));
}

function textOf(path: string, name: string): string {
  try {
    return readText(path);
  } catch (error) {
    throw new WorkingsError("project", `cannot read ${name}: ${(error as Error).message}`, { place: name });
  }
}

/** Paths of the worksheets, from the folder of book.yaml, as it lists them. */
export function listedWorksheets(book: string): string[] {
  const { worksheets } = contentOf(book);
  return Array.isArray(worksheets) ? worksheets.filter((file): file is string => typeof file === "string") : [];
}

function contentOf(book: string): { readonly design?: unknown; readonly worksheets?: unknown } {
  const content: unknown = parseDocument(textOf(book, basename(book))).toJS();
  return typeof content === "object" && content !== null ? content : {};
}

function designOf(book: string): string {
  const { design } = contentOf(book);
  if (typeof design !== "string") {
    throw new WorkingsError(
      "project",
      `${book}: "design:" is missing; it names the design file, as in design: ../data/bittern/design.yaml`,
      { place: book },
    );
  }
  return design;
}
