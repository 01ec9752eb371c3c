/** What a book has to say against itself: choices that no longer stand, assumptions and readings that the results contradict. */
import { batchStatistics } from "../analysis/batch";
import { meets } from "../analysis/reading";
import type { Batch, Reading } from "../design/types";
import { format, formatInterval } from "../quantity/format";
import { unitOf } from "../quantity/unit";
import { confirmationWord } from "../sheet/assumption-word";
import { assessDecision } from "../sheet/decision";
import { readingId } from "../sheet/reading-node";
import type { Book } from "./book";

export interface Finding {
  /** `open`: nothing answers the question yet; `wrong`: what the book says does not stand. */
  readonly weight: "open" | "wrong";
  readonly text: string;
}

export function findings(book: Book): Finding[] {
  const { sheets, evaluation, published, decisions } = book;
  const { readings, batches } = book.design;
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
  const read = readings.flatMap((reading) => readingFindings(reading, book));
  const batched = batches.flatMap((batch) => batchFindings(batch, book));
  const shown = displays.flatMap(({ block }) => (block.type === "result" || block.type === "requirement" ? [block.node] : []));
  const laws = [...shown, ...published.values()].flatMap((id) => evaluation.outside(id).map(({ law, fault }) => `${law}: ${fault}`));
  const outside = [...new Set(laws)].map((text): Finding => ({ weight: "open", text: `used outside its range: ${text}` }));
  // What is said of other blocks, laws used outside their range, is told above for the whole book.
  const omitted = displays.flatMap(({ sheet, block, warnings = [] }) =>
    block.type === "plot" ? warnings.map((text): Finding => ({ weight: "open", text: `${sheet}, ${text}` })) : [],
  );
  const drawn = new Set(displays.flatMap(({ block }) => (block.type === "drawing" && block.states ? [block.states.id] : [])));
  const unshown = book.design.stateTables.flatMap(({ id, place }): Finding[] =>
    drawn.has(id) ? [] : [{ weight: "open", text: `states ${id} (${place}): no sheet shows them; write sheet.states("${id}", …)` }],
  );
  return [...doubted, ...assumed, ...read, ...batched, ...outside, ...omitted, ...unshown];
}

/** A reading beside what was predicted before any evidence was used, and what keeps one that is called evidence from being used. */
function readingFindings(reading: Reading, { sheets, graph, evaluation, published }: Book): Finding[] {
  const id = published.get(reading.result);
  if (id === undefined) return [{ weight: "open", text: `reading ${reading.id}: no sheet publishes ${reading.result}` }];
  const wrong = (text: string): Finding => ({ weight: "wrong", text: `reading ${reading.id}${text}` });
  const blocks = sheets.flatMap(({ displays }) =>
    displays.flatMap(({ display: { block } }) => (block.type === "reading" && block.reading === reading.id ? [block] : [])),
  );
  const elsewhere = blocks.find(({ of }) => of !== id);
  const learned = evaluation.learned(readingId(reading.id));
  const unit = unitOf(graph.get(id).unit);
  const predicted = evaluation.predicted(id);
  const expected = predicted ? formatInterval(predicted.low, predicted.high, unit) : format({ si: evaluation.nominal(id), unit });
  return [
    ...(meets(reading.nominal, id, evaluation)
      ? []
      : [wrong(`: ${reading.text} of ${reading.result} lies outside ${expected}, 95 % of what one unit was predicted to be`)]),
    ...(elsewhere === undefined
      ? []
      : [
          wrong(
            ` is of ${reading.result}, but a sheet sets it beside ${elsewhere.of}: write sheet.reading("${reading.id}", …) with the result published as ${reading.result}`,
          ),
        ]),
    ...(reading.evidence && blocks.length === 0
      ? [
          wrong(
            ` is called evidence, but no sheet uses it: write sheet.reading("${reading.id}", …) in the sheet that derives ${reading.result}, above its requirements`,
          ),
        ]
      : []),
    ...(learned?.isUsed === false ? [wrong(` is evidence, but not used: ${learned.refused}`)] : []),
  ];
}

function batchFindings({ id, given, values }: Batch, { design }: Book): Finding[] {
  const node = design.given(given);
  if (node.kind !== "given") return [];
  const { contradictions, remarks } = batchStatistics(values, node);
  return [
    ...contradictions.map((text): Finding => ({ weight: "wrong", text: `batch ${id} contradicts ${given}, ${node.text}: ${text}` })),
    ...remarks.map((text): Finding => ({ weight: "open", text: `batch ${id} of ${given}: ${text}` })),
  ];
}
