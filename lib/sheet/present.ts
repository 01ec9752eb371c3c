/** One call of a worksheet as a MIME bundle: text, and HTML, LaTeX or SVG, for any notebook front end; our JSON for the document. */
import type { Analysis, Verdict } from "../analysis/result";
import { type Display, displayType } from "./block";
import { htmlOf } from "./block-html";
import { latexOf } from "./block-latex";
import { warningLine } from "./block-words";
import type { MimeBundle } from "./emit";
import { kindOf } from "./kinds";
import type { Session } from "./session";
import { storeDisplay } from "./stored";

/** Graphics that a block carries beside its data. */
export interface Drawn {
  readonly svg?: string;
  /** What their bands and lines mean. */
  readonly key?: string | undefined;
  /** What they leave out, in sentences. */
  readonly warnings?: readonly string[];
}

interface Content extends Pick<Display, "block" | "nodes" | "refers"> {
  readonly analyses: readonly Analysis[];
  readonly verdicts: readonly Verdict[];
}

export function presentation(session: Session, content: Content, drawn: Drawn): MimeBundle {
  const { block, nodes, refers = [], analyses, verdicts } = content;
  const { warnings = [] } = drawn;
  const outside = [...new Set(analyses.flatMap((analysis) => analysis.outside ?? []))];
  const told = [...outside.map((text) => `outside the range of ${text}`), ...warnings];
  const display: Display = { sheet: session.sheet, block, nodes, refers, warnings: told };
  const statement = (id: string) => session.design.requirement(id).statement;
  const said = { evaluation: session.evaluation, analyses, verdicts, statement };
  const latex = latexOf(block, said);
  const markup = htmlOf(block, said);
  return {
    [displayType]: storeDisplay(display),
    ...(drawn.svg === undefined ? {} : { "image/svg+xml": onPaper(drawn.svg) }),
    ...(markup === undefined ? {} : { "text/html": markup.text }),
    ...(latex === undefined ? {} : { "text/latex": latex }),
    "text/plain": [...kindOf(block).words(block, said), ...warnings.map(warningLine)].join("\n"),
  };
}

/** On white of its own: the ink is dark, and a front end's page may be too. */
const onPaper = (svg: string) => svg.replace(/^<svg[^>]*>/, (tag) => `${tag}<rect width="100%" height="100%" fill="#fff"/>`);
