/** A comparison in one line. */
import type { Comparison } from "./compare";

/** `1 verdict got worse (run-new); 3 margins shrank; 12 results moved; 1 given changed`. */
export function headline({ worse, notJudged, judgements, results, design, budgets, findings }: Comparison): string {
  const both = judgements.filter(({ before, after }) => before !== undefined && after !== undefined);
  const flipped = both.filter(({ before, after }) => before?.verdict !== after?.verdict).map(({ requirement }) => requirement);
  const better = flipped.filter((id) => !worse.includes(id) && !notJudged.includes(id));
  const margins = both.filter(({ requirement }) => !flipped.includes(requirement));
  const grown = (sign: number) =>
    margins.filter(({ before, after }) => Math.sign((after?.margin ?? 0) - (before?.margin ?? 0)) === sign).length;
  const fresh = judgements.filter(({ before }) => before === undefined).length;
  const parts = [
    worse.length === 0 ? "no verdict got worse" : `${counted(worse.length, "verdict")} got worse (${worse.join(", ")})`,
    notJudged.length === 0 ? "" : `${counted(notJudged.length, "verdict")} not judged (${notJudged.join(", ")})`,
    better.length === 0 ? "" : `${counted(better.length, "verdict")} got better (${better.join(", ")})`,
    fresh === 0 ? "" : counted(fresh, "new verdict"),
    grown(-1) === 0 ? "" : `${counted(grown(-1), "margin")} shrank`,
    grown(1) === 0 ? "" : `${counted(grown(1), "margin")} grew`,
    results.length === 0 ? "no result moved" : `${counted(results.length, "result")} moved`,
    budgets.length === 0 ? "" : `${counted(budgets.length, "budget")} moved`,
    findings.appeared.length === 0 ? "" : `${counted(findings.appeared.length, "new finding")}`,
    design === null ? "" : designPart(design),
  ];
  return parts.filter((part) => part !== "").join("; ");
}

function designPart({ givens, decisions, requirements }: NonNullable<Comparison["design"]>): string {
  const parts = [
    named(
      givens.map(({ path }) => path),
      "given",
    ),
    named(
      decisions.map(({ id }) => id.replace(/^decisions\./, "")),
      "decision",
    ),
    named(
      requirements.map(({ id }) => id),
      "requirement",
    ),
  ].filter((part) => part !== "");
  return parts.length === 0 ? "givens, decisions and requirements as before" : `changed: ${parts.join(", ")}`;
}

/** `given battery.middle.capacity`, `7 givens`. */
function named(names: readonly string[], word: string): string {
  if (names.length === 0) return "";
  return names.length <= 2 ? `${word} ${names.join(" and ")}` : `${names.length} ${word}s`;
}

function counted(count: number, word: string): string {
  return `${count} ${word}${count === 1 ? "" : "s"}`;
}
