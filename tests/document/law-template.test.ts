import { describe, expect, it } from "vitest";
import { filledLaw } from "../../lib/document/text/law-template";
import { lawTemplate, withoutSources } from "../../lib/document/text/math";

const values = [
  { node: "a", unit: "V" },
  { node: "b", unit: "%" },
];
const texts: Readonly<Record<string, string>> = { a: "2 V", b: "5 %" };

describe("a law with numbers", () => {
  const template = lawTemplate("x = \\text{⟦0⟧} - \\text{⟦1⟧}");
  const { text: markup } = filledLaw(template, values, ({ node, show }) => (show === "operand" ? `(${texts[node]})` : (texts[node] ?? "")));

  it("holds each number as an element bound to its node, and in the LaTeX beside it, escaped", () => {
    expect(markup).toContain('<mn data-node="a" data-show="nominal" data-unit="V">2 V</mn>');
    expect(markup).toContain('<mn data-node="b" data-show="operand" data-unit="%">(5 %)</mn>');
    expect(markup).toContain('<annotation encoding="application/x-tex">x = \\text{2 V} - \\text{(5 \\%)}</annotation></math>');
  });

  it("is what it was in a page, which leaves the LaTeX out", () => {
    expect(withoutSources(markup)).not.toContain("x-tex");
    expect(withoutSources(markup)).toMatch(/^<math display="block">.*<\/math>$/);
    expect(lawTemplate("a < b & c")).toContain("<code>a &lt; b &amp; c</code>");
  });
});
