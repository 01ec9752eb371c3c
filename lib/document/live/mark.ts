/** Live: how the requirements stand that a sheet answers, as one mark beside its name. */
import type { VerdictWord } from "../../analysis/result";
import type { View } from "../model/book-data";
import { type Html, html, nothing } from "../text/html";
import { verdictMark } from "../text/verdict-text";
import { requirementVerdict } from "./requirements";

const worstFirst: readonly VerdictWord[] = ["does not hold", "not shown", "not sure", "too close to call", "holds for 95 %", "holds"];

/** The mark of the worst, with how many there are of each in words; nothing for a sheet that answers none. */
export function renderMark(sheet: string, view: View): Html {
  const own = view.book.requirements.filter(({ answers }) => answers.some((answer) => answer.sheet === sheet));
  const found = own.map((requirement) => requirementVerdict(requirement, view));
  const counts = worstFirst.map((word) => [word, found.filter((other) => other === word).length] as const).filter(([, count]) => count > 0);
  const [worst] = counts;
  if (worst === undefined) return nothing;
  const { mark, name } = verdictMark(worst[0]);
  const words = counts.map(([word, count]) => `${count} ${word}`).join(", ");
  return html`<span class="mark badge-${name}" title="Requirements: ${words}"><span aria-hidden="true">${mark}</span><span class="unseen">requirements: ${words}</span></span>`;
}
