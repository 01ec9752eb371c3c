/** A comparison as tables, the same for a terminal and for Markdown, the important ones first. */
import { significantText } from "../../quantity/number-text";
import { unitOf } from "../../quantity/unit";
import type { Comparison } from "./compare";
import type { FieldChange, GivenChanged, RowChanged } from "./design-changes";
import { differenceText } from "./figures";
import type { JudgedSide, Judgement } from "./judgements";
import type { ResultMoved } from "./results-moved";
import type { Carrier } from "./turning";

export interface Section {
  readonly title: string;
  readonly columns: readonly string[];
  readonly rows: readonly (readonly string[])[];
  readonly notes: readonly string[];
  /** The last column is a sentence: in a terminal it stands below its row. */
  readonly isLastBelow?: boolean;
}

export function sectionsOf(comparison: Comparison): Section[] {
  const { judgements, results, design, budgets, findings } = comparison;
  const sections = [
    ...verdictSections(judgements),
    lines("Findings that appeared", findings.appeared),
    lines("Findings that are gone", findings.gone),
    resultSection(results),
    ...(design === null
      ? []
      : [rowSection("Decisions", design.decisions), rowSection("Requirements", design.requirements), givenSection(design.givens)]),
    {
      title: "Budgets",
      columns: ["budget", "sum", "items"],
      rows: budgets.map(({ budget, before, after, items }) => [
        budget,
        arrow(before, after),
        items.map((item) => `${item.label} ${arrow(item.before, item.after)}`).join("; "),
      ]),
      notes: [],
    },
    lines("Also changed", alsoChanged(comparison)),
  ];
  return sections.filter(({ rows, notes }) => rows.length + notes.length > 0);
}

function lines(title: string, notes: readonly string[]): Section {
  return { title, columns: [], rows: [], notes };
}

/** Sheets, cells, other rows of the design file; what is only worded otherwise in one line at the end. */
function alsoChanged({ sheetsAdded, sheetsRemoved, code, text, design }: Comparison): string[] {
  const wording = [...(design?.wording ?? []), ...(text.length > 0 ? [`text of ${text.join(", ")}`] : [])];
  return [
    ...sheetsAdded.map((name) => `sheet ${name} added`),
    ...sheetsRemoved.map((name) => `sheet ${name} removed`),
    ...(code.length > 0 ? [`code of ${code.join(", ")}`] : []),
    ...(design?.others ?? []),
    ...(wording.length > 0 ? [`in words alone: ${wording.join("; ")}`] : []),
  ];
}

function arrow(before: string | undefined, after: string | undefined): string {
  if (before === undefined) return `new: ${after ?? ""}`;
  if (after === undefined) return `gone: ${before}`;
  return before === after ? after : `${before} → ${after}`;
}

function verdictSections(judgements: readonly Judgement[]): Section[] {
  const flipped = judgements.filter(({ before, after }) => before?.verdict !== after?.verdict);
  const rest = judgements.filter((one) => !flipped.includes(one));
  const change = ({ before, after }: Judgement) => Math.sign((after?.margin ?? 0) - (before?.margin ?? 0));
  return [
    judgementSection("Verdicts", flipped, true),
    judgementSection(
      "Margins that shrank",
      rest.filter((one) => change(one) < 0),
      false,
    ),
    judgementSection(
      "Margins that grew",
      rest.filter((one) => change(one) > 0),
      false,
    ),
    judgementSection(
      "Margin as before, limit or judgement otherwise",
      rest.filter((one) => change(one) === 0),
      false,
    ),
  ];
}

function judgementSection(title: string, judgements: readonly Judgement[], isFlip: boolean): Section {
  return {
    title,
    columns: ["requirement", "verdict", "margin", "decided by", "limit", "carried by", "statement"],
    rows: judgements.map((one) => [
      one.requirement,
      isFlip ? arrow(one.before?.verdict, one.after?.verdict) : (one.after?.verdict ?? ""),
      numberChange(one, "margin"),
      `${one.after?.judged ?? one.before?.judged ?? ""} ${numberChange(one, "deciding")}`.trim(),
      arrow(one.before?.limit ?? one.after?.limit, one.after?.limit ?? one.before?.limit),
      carriersText(one.carriers, one.after?.unit ?? "1"),
      one.statement ?? "",
    ]),
    notes: alone(judgements),
    isLastBelow: true,
  };
}

function numberChange({ before, after }: Judgement, key: "margin" | "deciding"): string {
  const text = (side: JudgedSide | undefined) => {
    const value = side?.[key];
    if (value === undefined || side?.unit === undefined) return undefined;
    const { affine, log } = unitOf(side.unit);
    const unit = key === "margin" && affine ? "K" : key === "margin" && log ? "dB" : side.unit;
    return `${significantText(value, 4)}${unit === "1" ? "" : `\u00a0${unit}`}`;
  };
  const [a, b] = [text(before), text(after)];
  return a === undefined && b === undefined ? "" : `${a ?? "none"} → ${b ?? "none"}`;
}

/** `battery.load +1.2 h, decisions.battery.cell −0.3 h`: of one carrier alone the whole change is told already. */
function carriersText(carriers: readonly Carrier[], unit: string): string {
  if (carriers.length === 1) return `by ${carriers[0]?.name ?? ""}`;
  return carriers.length === 0
    ? ""
    : `by ${carriers.map(({ name, effect }) => `${name} ${effect === undefined ? "(cannot be turned)" : differenceText(effect, unit)}`).join(", ")}`;
}

function alone(rows: readonly { readonly carriers: readonly Carrier[] }[], more = ""): string[] {
  const isTold = rows.some(({ carriers }) => carriers.length > 1);
  return isTold ? [`(behind a name: what it does when it alone is changed${more})`] : [];
}

function resultSection(results: readonly ResultMoved[]): Section {
  return {
    title: "Results",
    columns: ["result", "moved", "before → after", "carried by", "meaning"],
    rows: results.map((one) => [
      one.name,
      one.change === "moved" ? one.by || "spread" : one.change,
      arrow(one.before, one.after),
      carriersText(one.carriers, one.unit),
      one.meaning,
    ]),
    notes: alone(
      results,
      results.some(({ share, carriers }) => share === null && carriers.length > 1)
        ? "; where only a spread moved, what it does to half the width of the worst case"
        : "",
    ),
  };
}

function rowSection(title: string, rows: readonly RowChanged[]): Section {
  return {
    title,
    columns: ["id", "changed"],
    rows: rows.map(({ id, change, fields, note }) => [
      id.replace(/^decisions\./, ""),
      change === "changed"
        ? [...fields.map(fieldText), ...(note === undefined ? [] : [note])].join("; ")
        : `${change}: ${fields.map(({ before, after }) => after || before).join("; ")}`,
    ]),
    notes: [],
  };
}

function fieldText({ field, before, after }: FieldChange): string {
  return `${field}: ${before || "none"} → ${after || "none"}`;
}

function givenSection(givens: readonly GivenChanged[]): Section {
  return {
    title: "Givens",
    columns: ["given", "value", "what", "meaning"],
    rows: givens.map(({ path, change, from, before, after, what, fields, meaning }) => [
      change === "renamed" ? `${from} → ${path}` : path,
      arrow(before, after),
      [...(change === "changed" ? [] : [change]), ...what, ...fields.map(fieldText)].join("; "),
      meaning,
    ]),
    notes: [],
  };
}
