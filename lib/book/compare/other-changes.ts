/** What else differs between two revisions: sheets and their cells, budgets, and what a book has to say against itself. */
import { format } from "../../quantity/format";
import { unitOf } from "../../quantity/unit";
import type { Book } from "../book";
import { findings } from "../findings";
import type { SheetOutputs } from "../outputs";
import type { Revision } from "./revision";

export interface BudgetChanged {
  readonly budget: string;
  readonly before: string;
  readonly after: string;
  /** Items that were added, removed, or are another figure. */
  readonly items: readonly { readonly label: string; readonly before: string; readonly after: string }[];
}

export interface OtherChanges {
  readonly sheetsAdded: readonly string[];
  readonly sheetsRemoved: readonly string[];
  /** By sheet: cells of code that were changed, added or removed. */
  readonly code: readonly string[];
  /** Sheets whose text alone differs. */
  readonly text: readonly string[];
  readonly budgets: readonly BudgetChanged[];
  /** Assumptions, decisions and readings that do not stand, and laws used outside their range: new ones, and those that are gone. */
  readonly findings: { readonly appeared: readonly string[]; readonly gone: readonly string[] };
}

export function otherChanges(before: Revision, after: Revision): OtherChanges {
  const [a, b] = [sheetNames(before), sheetNames(after)];
  const [old, now] = [before.whole?.book, after.whole?.book];
  const both = old !== undefined && now !== undefined;
  return {
    sheetsAdded: b.filter((name) => !a.includes(name)),
    sheetsRemoved: a.filter((name) => !b.includes(name)),
    code: both ? cellChanges(old, now, "code") : [],
    text: both ? cellChanges(old, now, "prose") : [],
    // A sheet that is left out may add to any budget.
    budgets: both && before.untrusted.length + after.untrusted.length === 0 ? budgetChanges(old, now) : [],
    findings: both && old.stale.size + now.stale.size === 0 ? findingChanges(old, now) : { appeared: [], gone: [] },
  };
}

function sheetNames({ results, untrusted }: Revision): string[] {
  return [...new Set([...Object.keys(results.sheets), ...untrusted])];
}

function cellChanges(before: Book, after: Book, kind: "code" | "prose"): string[] {
  return after.sheets.flatMap((sheet) => {
    const old = before.sheets.find(({ name }) => name === sheet.name);
    if (old === undefined) return [];
    const [was, is] = [texts(old, kind), texts(sheet, kind)];
    const [gone, come] = [missing(was, is), missing(is, was)];
    return gone + come === 0 ? [] : [`${sheet.name} (${Math.max(gone, come)} ${Math.max(gone, come) === 1 ? "cell" : "cells"})`];
  });
}

function texts({ pieces }: SheetOutputs, kind: "code" | "prose"): string[] {
  return pieces.flatMap((piece) => (piece.kind !== kind ? [] : [piece.kind === "code" ? piece.source : piece.markdown]));
}

/** How many of these texts the others do not have. */
function missing(own: readonly string[], others: readonly string[]): number {
  const left = [...others];
  return own.filter((text) => {
    const at = left.indexOf(text);
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  }).length;
}

function budgetChanges(before: Book, after: Book): BudgetChanged[] {
  const [old, now] = [budgetsOf(before), budgetsOf(after)];
  return [...new Set([...now.keys(), ...old.keys()])].flatMap((budget) => {
    const none = { sum: "none", items: new Map<string, string>() };
    const [a, b] = [old.get(budget) ?? none, now.get(budget) ?? none];
    const items = [...new Set([...b.items.keys(), ...a.items.keys()])].flatMap((label) => {
      const [was, is] = [a.items.get(label) ?? "none", b.items.get(label) ?? "none"];
      return was === is ? [] : [{ label, before: was, after: is }];
    });
    return a.sum === b.sum && items.length === 0 ? [] : [{ budget, before: a.sum, after: b.sum, items }];
  });
}

function budgetsOf(book: Book): ReadonlyMap<string, { readonly sum: string; readonly items: ReadonlyMap<string, string> }> {
  const figure = (id: string) => format({ si: book.evaluation.nominal(id), unit: unitOf(book.graph.get(id).unit) });
  return new Map(
    Object.values(book.blocks).flatMap((block) =>
      block.type === "collection"
        ? [
            [
              block.budget,
              {
                sum: figure(block.node),
                items: new Map(block.items.map(({ label, sheet, node }) => [`${label} (${sheet})`, figure(node)])),
              },
            ],
          ]
        : [],
    ),
  );
}

function findingChanges(before: Book, after: Book): OtherChanges["findings"] {
  const [old, now] = [before, after].map((book) => [...new Set(findings(book).map(({ text }) => text))]);
  return {
    appeared: (now ?? []).filter((text) => !old?.includes(text)),
    gone: (old ?? []).filter((text) => !now?.includes(text)),
  };
}
