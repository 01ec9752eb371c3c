/** Published results that two revisions give otherwise, with what carried each. */
import type { Evaluation } from "../../analysis/evaluation";
import type { NodeId } from "../../graph/node";
import { entryOf } from "../../quantity/entry-of";
import { significantText } from "../../quantity/number-text";
import { unitOf } from "../../quantity/unit";
import type { PublishedResult, Results } from "../results";
import { differenceText, inSI, isMoved, publishedText, publishedTexts } from "./figures";
import type { Revision } from "./revision";
import type { Carrier, Turning } from "./turning";

export interface ResultMoved {
  /** `battery.runtime` */
  readonly name: string;
  readonly meaning: string;
  readonly change: "moved" | "added" | "removed";
  readonly before?: string;
  readonly after?: string;
  readonly unit: string;
  /** By how much the value has moved: a share of what it was, of points of temperature and levels the difference; empty where only its spread has. */
  readonly by: string;
  /** The same as a share, for sorting: of points of temperature of their distance to 0 K. */
  readonly share: number | null;
  /** Of these the effects are on the value, in the unit; where only the spread has moved, on half the width of the worst case. */
  readonly carriers: readonly Carrier[];
}

/** The largest share first; those of which only the spread has moved after them, then added and removed ones. */
export function movedResults(before: Revision, after: Revision, turning: Turning | undefined): ResultMoved[] {
  const sheets = [...new Set([...Object.keys(after.results.sheets), ...Object.keys(before.results.sheets)])];
  const left = new Set([...before.untrusted, ...after.untrusted]);
  const found = sheets
    .filter((sheet) => !left.has(sheet))
    .flatMap((sheet) => {
      const [old, now] = [before, after].map(({ results }) => entryOf(results.sheets, sheet) ?? {}) as SheetResults[];
      const names = [...new Set([...Object.keys(now ?? {}), ...Object.keys(old ?? {})])];
      return names.flatMap((name) => moved(`${sheet}.${name}`, entryOf(old, name), entryOf(now, name), turning) ?? []);
    });
  return found.toSorted((a, b) => order(a) - order(b) || Math.abs(b.share ?? 0) - Math.abs(a.share ?? 0));
}

type SheetResults = Results["sheets"][string];

function order({ change, share }: ResultMoved): number {
  return change === "moved" ? (share === null ? 1 : 0) : 2;
}

function moved(
  name: string,
  old: PublishedResult | undefined,
  now: PublishedResult | undefined,
  turning: Turning | undefined,
): ResultMoved | undefined {
  const { meaning = "", unit } = (now ?? old) as PublishedResult;
  const told = { name, meaning, unit, by: "", share: null, carriers: [] };
  if (old === undefined) return now && { ...told, change: "added", after: publishedText(now) };
  if (now === undefined) return { ...told, change: "removed", before: publishedText(old) };
  if (!isMoved(old, now)) return undefined;
  const [was, is] = publishedTexts(old, now);
  const share = shareOf(inSI(old), inSI(now));
  const ids = [turning?.before, turning?.after].map((book) => book?.published.get(name));
  const carriers = turning === undefined || ids[0] === undefined ? [] : carriersOf(ids[0], now, share, turning);
  return { ...told, change: "moved", before: was, after: is, by: share === null ? "" : byText(old, now, share), share, carriers };
}

/** Rounded: what differs by the last digits of an evaluation alone keeps the order of the book. */
function shareOf(before: number, after: number): number | null {
  if (Math.abs(after - before) <= 1e-9 * Math.abs(before)) return null;
  return Number(((after - before) / (before === 0 ? Math.abs(after) : Math.abs(before))).toPrecision(3));
}

function byText(old: PublishedResult, now: PublishedResult, share: number): string {
  const { affine, log } = unitOf(now.unit);
  const isDifference = affine === true || log !== undefined || old.value === 0;
  if (isDifference && old.unit === now.unit) return differenceText(now.value - old.value, now.unit);
  return `${share > 0 ? "+" : ""}${significantText(100 * share, 2)}\u00a0%`;
}

function carriersOf(id: NodeId, now: PublishedResult, share: number | null, turning: Turning): readonly Carrier[] {
  const unit = unitOf(now.unit);
  if (share !== null) return turning.carriers(id, (evaluation) => unit.fromSI(evaluation.nominal(id)), now.value);
  const halfWidth = (evaluation: Evaluation) => {
    const { worst } = evaluation.analysis(id);
    return worst === null ? 0 : (unit.fromSI(worst.high) - unit.fromSI(worst.low)) / 2;
  };
  return turning.carriers(id, halfWidth, now.worst === null ? 0 : (now.worst.high - now.worst.low) / 2);
}
