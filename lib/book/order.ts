/** The order in which sheets run: a sheet after those that it takes from, otherwise as book.yaml lists them. */
import { nearest } from "../design/nearest";
import type { Take } from "../kernel/takes";
import { WorkingsError } from "../quantity/error";

export interface OrderedSheet {
  readonly name: string;
  readonly takes: readonly Take[];
}

/** Throws WorkingsError "book" for sheets that take from one another in a circle, and for a take from no sheet of the book. */
export function runOrder<S extends OrderedSheet>(sheets: readonly S[]): S[] {
  const byName = new Map(sheets.map((sheet) => [sheet.name, sheet]));
  const ordered: S[] = [];
  const done = new Set<string>();
  const visit = (sheet: S, path: readonly string[]): void => {
    if (done.has(sheet.name)) return;
    if (path.includes(sheet.name)) throw circle([...path.slice(path.indexOf(sheet.name)), sheet.name], byName);
    for (const take of sheet.takes) visit(sourceOf(take, sheet, byName), [...path, sheet.name]);
    done.add(sheet.name);
    ordered.push(sheet);
  };
  for (const sheet of sheets) visit(sheet, []);
  return ordered;
}

function sourceOf<S extends OrderedSheet>(take: Take, sheet: S, byName: ReadonlyMap<string, S>): S {
  const source = byName.get(take.sheet);
  if (source !== undefined) return source;
  const near = nearest(take.sheet, [...byName.keys()]);
  const hint = near.length > 0 ? `; did you mean ${near.join(" or ")}?` : "; list it in book.yaml";
  throw new WorkingsError(
    "book",
    `${sheet.name}, cell ${take.cell}: takes ${take.sheet}.${take.name}, but the book has no sheet "${take.sheet}"${hint}`,
  );
}

function circle(names: readonly string[], byName: ReadonlyMap<string, OrderedSheet>): WorkingsError {
  const steps = names.slice(0, -1).map((name, index) => {
    const take = byName.get(name)?.takes.find(({ sheet }) => sheet === names[index + 1]);
    return `${name}, cell ${take?.cell}, takes ${take?.sheet}.${take?.name}`;
  });
  return new WorkingsError(
    "book",
    `sheets take from one another in a circle, ${names.join(" → ")}: ${steps.join("; ")}; let one of them take a given instead`,
  );
}
