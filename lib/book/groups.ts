/** The groups of sheets in book.yaml: `Case and light: [enclosure, indicators]`. */
import { isMap, isScalar, isSeq, type Node } from "yaml";
import type { LocatedFile } from "../design/locate";
import { nearest, suggestion } from "../design/nearest";

/** Sheets that belong together, in reading order. */
export interface SheetGroup {
  readonly title: string;
  readonly sheets: readonly string[];
}

/** Reports a sheet that the book does not list, one in two groups or in none, and a group without sheets. `sheets`: of the book, in reading order. */
export function readGroups(file: LocatedFile, node: Node | undefined, sheets: readonly string[]): SheetGroup[] {
  if (node === undefined) return [];
  if (!isMap(node)) {
    file.report(node, "groups is no mapping", "titles with lists of sheets", "write 'Title: [sheet, sheet]' below it");
    return [];
  }
  const groupOf = new Map<string, string>();
  const groups = file.entries(node).map(({ key: title, at, value }): SheetGroup => {
    if (!isSeq(value) || value.items.length === 0) {
      file.report(
        value ?? at,
        `the group '${title}' has no list of sheets`,
        "names of sheets",
        "write '[sheet, sheet]', or delete the group",
      );
      return { title, sheets: [] };
    }
    const own = (value.items as Node[]).flatMap((item) => sheetIn(file, item, title, sheets, groupOf));
    return { title, sheets: sheets.filter((name) => own.includes(name)) };
  });
  for (const name of sheets.filter((sheet) => !groupOf.has(sheet)))
    file.report(node, `the sheet '${name}' is in no group`, "every sheet in one group", "add its name to one of the groups");
  return groups;
}

function sheetIn(file: LocatedFile, item: Node, title: string, sheets: readonly string[], groupOf: Map<string, string>): string[] {
  const name = isScalar(item) && typeof item.value === "string" ? item.value : undefined;
  if (name === undefined || !sheets.includes(name)) {
    const near = nearest(name ?? "", sheets, 1);
    file.report(
      item,
      `the group '${title}' names ${JSON.stringify(name ?? null)}, which is no sheet of the book`,
      "the name of a sheet, without number and .ipynb",
      suggestion(near, "list its notebook under worksheets, or delete the name"),
    );
    return [];
  }
  const other = groupOf.get(name);
  if (other !== undefined) {
    const twice = other === title ? `twice in the group '${title}'` : `in the groups '${other}' and '${title}'`;
    file.report(item, `the sheet '${name}' is ${twice}`, "every sheet in one group", "delete it in one place");
    return [];
  }
  groupOf.set(name, title);
  return [name];
}
