/** What a book has to say against itself: choices that no longer stand, assumptions and readings that the results contradict. */
import { meets } from "../analysis/reading";
import { format, formatInterval } from "../quantity/format";
import { unitOf } from "../quantity/unit";
import { confirmationWord } from "../sheet/assumption-word";
import { assessDecision } from "../sheet/decision";
import type { Book } from "./book";

export interface Finding {
  /** `open`: nothing answers the question yet; `wrong`: what the book says does not stand. */
  readonly weight: "open" | "wrong";
  readonly text: string;
}

export function findings({ sheets, graph, evaluation, published, decisions, design: { readings } }: Book): Finding[] {
  const displays = sheets.flatMap((sheet) => sheet.displays.map(({ display }) => display));
  const confirmations = displays.flatMap(({ block }) => (block.type === "confirmation" ? [block] : []));

  const doubted = decisions.flatMap((block) => {
    const { flags, open } = assessDecision(block, evaluation);
    return flags.map((flag): Finding => ({ weight: open.includes(flag) ? "open" : "wrong", text: `decision ${block.name}: ${flag}` }));
  });
  const assumed = displays.flatMap(({ block, sheet }): Finding[] => {
    if (block.type !== "assumption") return [];
    const name = `${sheet}.${block.name}`;
    const answers = confirmations.filter(({ of }) => of === name);
    if (answers.length === 0) return [{ weight: "open", text: `assumption ${name}: no sheet computes it yet` }];
    const words = answers.map(({ assumed: id, node }) => confirmationWord(evaluation, id, node));
    return words.flatMap((word) =>
      word === "confirmed" ? [] : [{ weight: word === "not confirmed" ? "wrong" : "open", text: `assumption ${name}: ${word}` } as const],
    );
  });
  const read = readings.flatMap((reading): Finding[] => {
    const id = published.get(reading.result);
    if (id === undefined) return [{ weight: "open", text: `reading ${reading.id}: no sheet publishes ${reading.result}` }];
    if (meets(reading.nominal, id, evaluation)) return [];
    const unit = unitOf(graph.get(id).unit);
    const predicted = evaluation.predicted(id);
    const expected = predicted ? formatInterval(predicted.low, predicted.high, unit) : format({ si: evaluation.nominal(id), unit });
    return [
      {
        weight: "wrong",
        text: `reading ${reading.id}: ${reading.text} of ${reading.result} lies outside ${expected}, 95 % of what one unit was predicted to be`,
      },
    ];
  });
  const shown = displays.flatMap(({ block }) => (block.type === "result" || block.type === "requirement" ? [block.node] : []));
  const laws = [...shown, ...published.values()].flatMap((id) => evaluation.outside(id).map(({ law, fault }) => `${law}: ${fault}`));
  const outside = [...new Set(laws)].map((text): Finding => ({ weight: "open", text: `used outside its range: ${text}` }));
  // What is said of other blocks, laws used outside their range, is told above for the whole book.
  const omitted = displays.flatMap(({ sheet, block, warnings = [] }) =>
    block.type === "plot" ? warnings.map((text): Finding => ({ weight: "open", text: `${sheet}, ${text}` })) : [],
  );
  return [...doubted, ...assumed, ...read, ...outside, ...omitted];
}
