/** Open questions: what nobody knows yet, ranked by what it does to requirements, and what measuring it would win. */
import { contributionGroups } from "../../analysis/contributions";
import { Evaluation } from "../../analysis/evaluation";
import { drawsForTurn, type Measuring, measuring } from "../../analysis/measuring";
import type { VerdictWord } from "../../analysis/result";
import { isFurtherPart } from "../../graph/identity";
import type { GivenNode } from "../../graph/node";
import { formatNumber } from "../../quantity/format";
import { unitOf } from "../../quantity/unit";
import { requirementVerdict } from "../live/requirements";
import { nodeLink, nodeOf, type RequirementData, type View } from "../model/book-data";
import { nodeWords } from "../model/names";
import { anchor, type Html, html, nothing } from "../text/html";
import { numberText, percent } from "../text/show";
import type { Source } from "../text/sources";
import { marginText } from "../text/verdict-text";

/** Smaller shares of a doubt are left out. */
const leastShare = 0.03;
/** From this share of the doubt on it is computed what a measurement would win. */
const worthMeasuring = 0.1;

/** What one given does to the doubt behind a requirement. */
interface Behind {
  readonly requirement: RequirementData;
  /** Of the variance of what is not known. */
  readonly share: number;
  /** Of the whole variance. */
  readonly whole: number;
  /** How far its verdict is from certain. */
  readonly urgency: number;
}

const urgencies: Readonly<Record<VerdictWord, number>> = {
  "does not hold": 3,
  "too close to call": 3,
  "not sure": 2,
  "holds for 95 %": 1,
  holds: 0,
  "not shown": 0,
};

/** What nobody knows of one given. */
interface Doubt {
  readonly node: GivenNode;
  readonly behind: readonly Behind[];
}

/** Givens with a spread of knowledge, those behind the least certain requirements first, in each the largest share of the whole variance. */
function rankedDoubts(view: View): Doubt[] {
  const doubts = new Map<string, { readonly node: GivenNode; readonly behind: Behind[] }>();
  for (const requirement of view.book.requirements) {
    const urgency = urgencies[requirementVerdict(requirement, view)];
    for (const [path, { node, share, whole }] of doubtsBehind(requirement, view)) {
      if (share < leastShare) continue;
      const entry = doubts.get(path) ?? { node, behind: [] };
      entry.behind.push({ requirement, share, whole, urgency });
      doubts.set(path, entry);
    }
  }
  const rank = (behind: readonly Behind[]) => Math.max(...behind.map(({ whole, urgency }) => urgency + whole));
  return [...doubts]
    .toSorted(([a, one], [b, other]) => rank(other.behind) - rank(one.behind) || (a < b ? -1 : 1))
    .map(([, doubt]) => doubt);
}

/** So many stand on the front page. */
const weakest = 5;

/** The front page's list: what nobody knows, each with the requirement that it makes least certain. */
export function renderWeakest(view: View, sources: ReadonlyMap<string, Source>): Html {
  const ranked = rankedDoubts(view);
  if (ranked.length === 0) return nothing;
  const items = ranked.slice(0, weakest).map(({ node, behind }) => {
    const [first] = behind.toSorted((a, b) => b.urgency + b.whole - a.urgency - a.whole);
    const origin = originOf(node, sources);
    const told =
      first &&
      html`: ${first.share > 1 ? "most" : percent(first.share)} of the doubt behind <a href="#${anchor("requirement", first.requirement.id)}">${first.requirement.id}</a>`;
    return html`<li>${nodeLink(node.id, nodeWords(node), view)}${origin && `, ${origin}`}${told}</li>`;
  });
  const rest = ranked.length > items.length ? `All ${ranked.length}, and` : "";
  return html`<section class="weakest" aria-labelledby="weakest-title"><h2 id="weakest-title">The weakest sources</h2><ol>${items}</ol><p><a href="#questions">${rest === "" ? "What" : `${rest} what`} measuring them would win</a></p></section>`;
}

export function renderQuestions(view: View, sources: ReadonlyMap<string, Source>): Html {
  const ranked = rankedDoubts(view);
  if (ranked.length === 0) return nothing;
  const rough = new Evaluation(view.evaluation.graph, { samples: drawsForTurn });
  const items = ranked.map(({ node, behind }) => {
    const sorted = behind.toSorted((a, b) => b.share - a.share || (a.requirement.id < b.requirement.id ? -1 : 1));
    const shares = sorted.map(
      ({ requirement: { id }, share }, index) =>
        html`${index > 0 && ", "}${percent(share)} behind <a href="#${anchor("requirement", id)}">${id}</a>`,
    );
    const origin = originOf(node, sources);
    return html`<li>${nodeLink(node.id, nodeWords(node), view)}${origin && `, ${origin}`}: ${shares}.${sorted.map((one) => worthOf(node, one, view, rough))}</li>`;
  });
  return html`<section class="page back" id="questions" hidden="until-found" aria-labelledby="questions-title"><h2 id="questions-title">Open questions: what to measure next</h2>
<p>What nobody knows yet (a spread of knowledge, or a doubt beside a tolerance), with its share in the doubt behind requirements, from ${percent(leastShare)} up. How units differ is not in this list: measuring one does not end it. First what stands behind a requirement that fails or is too close to call, then behind one that holds for 95 %, then the others; in each the largest share first. A measurement is taken to leave a quarter of the doubt, or less.</p><ol>${items}</ol></section>`;
}

interface Share {
  readonly node: GivenNode;
  readonly share: number;
  readonly whole: number;
}

/** By path of the given; parts of one path together. */
function doubtsBehind({ answers }: RequirementData, view: View): ReadonlyMap<string, Share> {
  const shares = new Map<string, Share>();
  for (const answer of answers) {
    const doubt = contributionGroups(view.evaluation.analysis(answer.node).contributions).find(({ kind }) => kind === "knowledge");
    for (const { given, share } of doubt?.contributions ?? []) {
      const node = nodeOf(view, given);
      if (node.kind !== "given") continue;
      const known = shares.get(node.path) ?? { node, share: 0, whole: 0 };
      const shown = isFurtherPart(known.node) ? node : known.node;
      shares.set(node.path, { node: shown, share: known.share + share, whole: known.whole + share * (doubt?.size ?? 0) });
    }
  }
  return shares;
}

/** What a measurement would win for a requirement that is judged by 95 %. */
function worthOf(given: GivenNode, { requirement, share }: Behind, view: View, rough: Evaluation): Html {
  const { id, judged, limit, answers, unit } = requirement;
  const [answer] = answers;
  if (judged !== "95 %" || share < worthMeasuring || answer === undefined) return nothing;
  const found = measuring(view.evaluation, rough, { node: answer.node, limit, judged }, given);
  if (found === undefined) return nothing;
  const margin = (of: number) => marginText({ margin: of }, unitOf(unit));
  const change = found.after >= found.before ? "rises" : "falls";
  const turn =
    found.turnsAt === undefined
      ? "the verdict turns nowhere within the doubt"
      : `the verdict turns at about ${formatNumber(found.turnsAt, unitOf(given.unit), 3)}`;
  return html` <span class="worth">Measure it to ${halfText(found, given)}: if that confirms the estimate, the margin of ${id} ${change} from ${margin(found.before)} to ${margin(found.after)}; ${turn}.</span>`;
}

function halfText({ half }: Measuring, given: GivenNode): string {
  if (half === undefined) return "a quarter of its doubt";
  if ("share" in half) return `±${numberText(100 * half.share, 2)}\u00a0%${unitOf(given.unit).symbol === "%" ? " of its value" : ""}`;
  const unit = unitOf(given.unit);
  const shown = Math.abs(unit.fromSI(half.si) - unit.fromSI(0));
  return `±${numberText(shown, 2)}${unit.symbol === "1" ? "" : `\u00a0${unit.affine ? "K" : unit.symbol}`}`;
}

/** `from memory`, `invented`; undefined where the value has another source. */
function originOf(node: GivenNode, sources: ReadonlyMap<string, Source>): string | undefined {
  if (node.provenance.fromMemory === true) return "from memory";
  return sources.get(node.provenance.source)?.status === "invented" ? "invented" : undefined;
}
