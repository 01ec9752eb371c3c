/** Laws set as MathML come back as LaTeX that sets the same MathML. */
import rehypeParse from "rehype-parse";
import { unified } from "unified";
import { describe, expect, it } from "vitest";
import { mathml } from "../../lib/document/text/math";
import { latexOf, type MarkupNode } from "../../lib/document/text/mathml-latex";
import type { formula } from "../../lib/formula/formula";
import { typeset } from "../../lib/formula/typeset";
import * as physics from "../../lib/physics";

const parsed = (markup: string) => unified().use(rehypeParse, { fragment: true }).parse(markup) as unknown as MarkupNode;
const again = (latex: string) => latexOf(parsed(mathml(latex, true).text));
/** What is seen of MathML: its elements and letters, spaces and groups of one apart. */
const seen = (latex: string) =>
  mathml(latex, true)
    .text.replace(/<mspace[^>]*>(<\/mspace>)?|<mtext>\s*<\/mtext>|<\/?mrow>|<\/?mstyle[^>]*>|\u2061/g, "")
    .replace(/ (?:stretchy|fence|separator|lspace|rspace|form|mathvariant|displaystyle|scriptlevel)="[^"]*"/g, "")
    .replace(/<m([io])>∣<\/m\1>/g, "|")
    .replace(/<\/mi><mi>/g, "");

describe("LaTeX of MathML", () => {
  it.each([
    ["R = \\frac{V_\\mathrm{s} - V_\\mathrm{f}}{I}", "R = \\frac{{V}_{\\mathrm{s}} - {V}_{\\mathrm{f}}}{I}"],
    ["\\sqrt{1 + \\left(\\omega R C\\right)^2}", "\\sqrt{1 + {( \\omega R C )}^{2}}"],
    ["P_\\mathrm{play}", "{P}_{\\mathrm{play}}"],
    ["\\text{10.5 mW}\\,\\%", "\\text{10.5\u00a0mW} \\  \\%"],
  ])("%s", (latex, expected) => {
    expect(again(latex)).toBe(expected);
  });

  it("sets the same again, for every law of the physics", () => {
    const laws = Object.values(physics).flatMap((subject) =>
      Object.values(subject as Record<string, unknown>).flatMap((law) => {
        const { expression } = (law ?? {}) as Partial<ReturnType<typeof formula>> & { expression?: never };
        return expression === undefined ? [] : [typeset(expression)];
      }),
    );
    expect(laws.length).toBeGreaterThan(300);
    for (const law of laws) expect(seen(again(law)), law).toBe(seen(law));
  });
});
