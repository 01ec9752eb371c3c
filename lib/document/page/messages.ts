/** The messages between the page and its workers. */
import type { Analysis, VerdictWord } from "../../analysis/result";
import type { Changes } from "../../graph/graph";
import type { NodeId } from "../../graph/node";
import type { BookData } from "../model/book-data";
import type { PartKind } from "../model/parts";
import type { Shown } from "../text/show";

export interface PartKey {
  readonly kind: PartKind;
  readonly ref: string;
}

export type Request =
  /** One worker leads: it also sends the summary. */
  | {
      readonly type: "open";
      readonly book: BookData;
      readonly leads: boolean;
      readonly shown: readonly Shown[];
      readonly parts: readonly PartKey[];
    }
  /** Evaluate the book with these changes; a later request cancels an earlier one. */
  | { readonly type: "evaluate"; readonly generation: number; readonly changes: Changes };

export type Reply =
  | { readonly type: "text"; readonly generation: number; readonly index: number; readonly text: string }
  | { readonly type: "part"; readonly generation: number; readonly index: number; readonly markup: string }
  | {
      readonly type: "done";
      readonly generation: number;
      readonly problems: readonly string[];
      readonly summary?: Omit<Summary, "problems">;
    };

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
