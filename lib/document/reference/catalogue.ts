/** Every public formula and model of the physics modules, by subject, once each. */
import type { AnyFormula } from "../../formula/formula";
import type { AnyModel } from "../../graph/model";
import * as physics from "../../physics";

export interface CatalogueEntry {
  readonly subject: string;
  readonly name: string;
  readonly law: { readonly kind: "formula"; readonly of: AnyFormula } | { readonly kind: "model"; readonly of: AnyModel };
}

/** The same formula or model under the name of another subject. */
export interface Alias {
  readonly name: string;
  readonly entry: CatalogueEntry;
}

export interface Subject {
  readonly name: string;
  readonly entries: readonly CatalogueEntry[];
  readonly aliases: readonly Alias[];
}

/** `audio.inputLoading`: what a sheet writes. */
export function pathOf({ subject, name }: CatalogueEntry): string {
  return `${subject}.${name}`;
}

/** Subjects and their members in alphabetical order; what several export is told with the first. */
export function catalogue(subjects: Readonly<Record<string, Readonly<Record<string, unknown>>>> = physics): readonly Subject[] {
  const seen = new Map<unknown, CatalogueEntry>();
  return sorted(Object.entries(subjects)).map(([name, members]) => {
    const entries: CatalogueEntry[] = [];
    const aliases: Alias[] = [];
    for (const [member, value] of sorted(Object.entries(members))) {
      const law = lawOf(value);
      const home = seen.get(value);
      if (law === undefined) continue;
      if (home !== undefined) aliases.push({ name: member, entry: home });
      else {
        const entry = { subject: name, name: member, law };
        seen.set(value, entry);
        entries.push(entry);
      }
    }
    return { name, entries, aliases };
  });
}

function lawOf(value: unknown): CatalogueEntry["law"] | undefined {
  if (typeof value !== "object" || value === null) return undefined;
  if ("text" in value && "arguments" in value && "expression" in value) return { kind: "formula", of: value as AnyFormula };
  if ("inputs" in value && "outputs" in value && "evaluate" in value) return { kind: "model", of: value as AnyModel };
  return undefined;
}

function sorted<T>(entries: readonly (readonly [string, T])[]): readonly (readonly [string, T])[] {
  return entries.toSorted(([a], [b]) => (a < b ? -1 : 1));
}
