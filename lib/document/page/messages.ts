/** The messages between the page and its workers. */
import type { Ask } from "../../analysis/ask";
import type { FoundData } from "../../analysis/found";
import type { Analysis, VerdictWord } from "../../analysis/result";
import type { Changes } from "../../graph/graph";
import type { NodeId } from "../../graph/node";
import type { Room } from "../../sheet/plot/room";
import type { PublishedBook } from "../model/book-data";
import type { PartKind } from "../model/parts";
import type { Shown } from "../text/show";

export interface PartKey {
  readonly kind: PartKind;
  readonly ref: string;
}

/** Texts and parts of the page, by their number. */
export interface Items {
  readonly texts: readonly number[];
  readonly parts: readonly number[];
}

/** Each request after `open` belongs to a turn; a later turn cancels what an earlier one has not done, and it is not answered. */
export type Request =
  | { readonly type: "open"; readonly book: PublishedBook; readonly shown: readonly Shown[]; readonly parts: readonly PartKey[] }
  /** `applied`: the last `render` whose answer the page has shown; a later one came too late. */
  | { readonly type: "turn"; readonly turn: number; readonly changes: Changes; readonly applied: number; readonly room: Room }
  /** What another worker has found. */
  | { readonly type: "learn"; readonly turn: number; readonly found: FoundData }
  | Question;

/** `plan`: what must be asked for these items; `answer`: find it; `render`: make the items' texts and markup; `sum`: how the book stands. */
export type Question = { readonly turn: number; readonly number: number } & (
  | { readonly type: "plan"; readonly items: Items }
  | { readonly type: "answer"; readonly asks: readonly Ask[] }
  | { readonly type: "render"; readonly items: Items }
  | { readonly type: "sum" }
);

/** All at once, so that the page is laid out once. */
export interface Rendered {
  /** Of the question. */
  readonly number: number;
  /** Every text, since the page writes nominal values itself. */
  readonly texts: readonly (readonly [index: number, text: string])[];
  /** The parts that have changed. */
  readonly parts: readonly (readonly [index: number, markup: string])[];
  /** What could not be computed, in sentences. */
  readonly problems: readonly string[];
}

/** What each question is answered with. */
export interface Answers {
  readonly plan: readonly Ask[];
  readonly answer: FoundData;
  readonly render: Rendered;
  readonly sum: Summary;
}

export type Reply = { readonly turn: number } /** A fault of the program. */ & (
  | { readonly type: "failed"; readonly message: string }
  | { readonly type: "answered"; readonly number: number; readonly answer: Answers[keyof Answers] }
);

/** The state of the book after an evaluation. */
export interface Summary {
  readonly verdicts: Readonly<Record<string, VerdictWord>>;
  /** By name of the decision; empty lists are left out. */
  readonly flags: Readonly<Record<string, readonly string[]>>;
  /** Those that are not confirmed, in words. */
  readonly assumptions: readonly string[];
  /** Verdicts that rest on laws used outside their range. */
  readonly outside: readonly string[];
  readonly analyses: Readonly<Record<NodeId, Analysis>>;
  readonly problems: readonly string[];
}
