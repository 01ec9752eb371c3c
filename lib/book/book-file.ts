/** Reads `book.yaml`: what the book is called, which design it is about, its worksheets in reading order. */
import { existsSync, realpathSync } from "node:fs";
import { basename, dirname, relative, resolve, sep } from "node:path";
import { isMap, isScalar, isSeq, type Node } from "yaml";
import { Fields } from "../design/fields";
import { LocatedFile } from "../design/locate";
import { reservedNames } from "../graph/identity";
import { WorkingsError } from "../quantity/error";
import { rootOf } from "../sheet/find-book";
import { sheetName } from "../sheet/project";
import { readText } from "../sheet/text-file";
import { readGroups, type SheetGroup } from "./groups";

export interface Worksheet {
  /** Without number and extension: `03-indicators.ipynb` is `indicators`, and keeps that name when it is renumbered. */
  readonly name: string;
  /** As book.yaml writes it, from the folder of book.yaml. */
  readonly file: string;
  readonly path: string;
}

/** What book.yaml says. */
export interface BookFile {
  readonly title: string;
  readonly revision: string;
  readonly preparedBy?: string;
  readonly checkedBy?: string;
  /** Path of the design file. */
  readonly design: string;
  readonly worksheets: readonly Worksheet[];
  /** Every sheet is in one of them; none where book.yaml names none. */
  readonly groups: readonly SheetGroup[];
  /** Folder of the project: it holds data/ and build/. */
  readonly root: string;
  readonly path: string;
}

const bookKeys = ["title", "revision", "prepared by", "checked by", "design", "worksheets", "groups"] as const;

/** Reads and checks a book. Throws one WorkingsError "book" that lists everything wrong with line and column. */
export function readBookFile(path: string): BookFile {
  let text: string;
  try {
    text = readText(path);
  } catch (error) {
    throw new WorkingsError("book", `cannot read the book ${path}: ${(error as Error).message}`, { place: path });
  }
  return parseBookFile(text, resolve(path));
}

export function parseBookFile(text: string, path: string): BookFile {
  const root = rootOf(path);
  const file = new LocatedFile(text, relative(root, path).split(sep).join("/"));
  const fields = new Fields(file, file.top, bookKeys, "the book");
  const title = fields.requiredText("title", "write the title of the book") ?? "";
  const revision = fields.requiredText("revision", "write the revision, in quotes") ?? "";
  const design = fields.requiredText("design", "write the path of the design file from here") ?? "";
  const [preparedBy, checkedBy] = [fields.text("prepared by"), fields.text("checked by")];
  const designNode = fields.node("design");
  if (designNode && design !== "") checkInside(file, designNode, resolve(dirname(path), design), root);
  const worksheets = readWorksheets(file, fields, path, root);
  const groups = readGroups(
    file,
    fields.node("groups"),
    worksheets.map(({ name }) => name),
  );
  throwAsBook(file);
  return {
    title,
    revision,
    ...(preparedBy && { preparedBy }),
    ...(checkedBy && { checkedBy }),
    design: resolve(dirname(path), design),
    worksheets,
    groups,
    root,
    path,
  };
}

function readWorksheets(file: LocatedFile, fields: Fields, path: string, root: string): Worksheet[] {
  const node = fields.node("worksheets");
  if (!node) fields.missing("worksheets", "list the notebooks in reading order, one - line each");
  if (!isSeq(node)) {
    if (node) file.report(node, "worksheets is no list", "file names in reading order", "write one '- name.ipynb' line each");
    return [];
  }
  const names = new Map<string, string>();
  return (node.items as Node[]).flatMap((item) => {
    const name = isScalar(item) && typeof item.value === "string" ? item.value : undefined;
    if (name === undefined || !name.endsWith(".ipynb")) {
      file.report(
        item,
        `${isMap(item) ? "a mapping" : JSON.stringify(name ?? null)} is no worksheet`,
        "the file name of a notebook",
        "write a name that ends in .ipynb",
      );
      return [];
    }
    const worksheet = { name: sheetName(name), file: name, path: resolve(dirname(path), name) };
    checkInside(file, item, worksheet.path, root);
    const same = names.get(worksheet.name);
    if (same !== undefined)
      file.report(
        item,
        `${name} and ${same} are both the sheet '${worksheet.name}'`,
        "every sheet under its own name",
        "rename one of the two, numbers apart",
      );
    if (reservedNames.includes(worksheet.name))
      file.report(
        item,
        `a sheet cannot be called '${worksheet.name}': names of other things begin so`,
        "a name of its own",
        "rename the notebook",
      );
    names.set(worksheet.name, name);
    return [worksheet];
  });
}

function checkInside(file: LocatedFile, node: Node, path: string, root: string): void {
  const inner = relative(root, path);
  if (inner.startsWith("..") || resolve(root, inner) !== path) {
    file.report(node, "the path leads out of the book's folder", `a file under ${basename(root)}`, "move the file into the book");
  } else if (!existsSync(path)) {
    file.report(
      node,
      `the file ${inner.split(sep).join("/")} does not exist`,
      "an existing file",
      "mend the path, which starts from the folder of book.yaml",
    );
  } else if (relative(realpathSync(root), realpathSync(path)).startsWith("..")) {
    // A run would write through the link.
    file.report(
      node,
      `${basename(inner)} is a link that leads out of the book's folder`,
      `a file under ${basename(root)}`,
      "put the file itself, or a copy, into the book",
    );
  }
}

function throwAsBook(file: LocatedFile): void {
  try {
    file.throwProblems();
  } catch (error) {
    throw error instanceof WorkingsError ? new WorkingsError("book", error.message, error.details) : error;
  }
}
