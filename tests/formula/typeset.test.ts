import fc from "fast-check";
import katex from "katex";
import { expect, test } from "vitest";
import { parseFormula } from "../../lib/formula/parse";
import { typeset, typesetSymbol } from "../../lib/formula/typeset";
import { trees } from "./trees";
import { goodFormulas } from "./verdicts";

function latex(text: string, symbols: readonly string[] = []): string {
  return typeset(parseFormula(text, symbols).expression);
}

function render(source: string): string {
  return katex.renderToString(source, { throwOnError: true, output: "mathml", strict: "error" });
}

test.each([
  ["(a - b)/c", "\\frac{a - b}{c}"],
  ["a/b/c", "\\frac{a}{b\\,c}"],
  ["a/b*c/d", "\\frac{a}{b}\\,\\frac{c}{d}"],
  ["a*(b/c)/(c + d)", "a\\,\\frac{b}{c\\,\\left(c + d\\right)}"],
  ["a*b/(b + c)*d/(d + a)", "\\frac{a\\,b}{b + c}\\,\\frac{d}{d + a}"],
  ["(a/b + c)/d", "\\frac{\\frac{a}{b} + c}{d}"],
  ["a/(b/c)", "\\frac{a}{\\frac{b}{c}}"],
  ["a*(b + c)", "a\\,\\left(b + c\\right)"],
  ["a - (b + c)", "a - \\left(b + c\\right)"],
  ["a + (b + c)", "a + b + c"],
  ["a*(b*c)", "a\\,b\\,c"],
  ["a - -b", "a - \\left(-b\\right)"],
  ["-a*b", "-a\\,b"],
  ["-(a + b)", "-\\left(a + b\\right)"],
  ["(-a)^2", "\\left(-a\\right)^{2}"],
  ["-a^2", "-a^{2}"],
  ["(a/b)^2", "\\left(\\frac{a}{b}\\right)^{2}"],
  ["(a^2)^b", "\\left(a^{2}\\right)^{b}"],
  ["a^(1/2)", "a^{1/2}"],
  ["a^(-3/2)", "a^{-3/2}"],
  ["a^(b/c)", "a^{\\frac{b}{c}}"],
  ["sqrt(a + b)", "\\sqrt{a + b}"],
  ["cbrt(a)", "\\sqrt[3]{a}"],
  ["exp(-a)", "\\exp\\left(-a\\right)"],
  ["ln(a)^2", "\\left(\\ln\\left(a\\right)\\right)^{2}"],
  ["abs(a - b)", "\\left|a - b\\right|"],
  ["2*pi*f*L", "2\\,\\pi\\,f\\,L"],
  ["a*2", "a \\cdot 2"],
  ["1.6e-19*a", "1.6\\cdot 10^{-19}\\,a"],
  ["1e3/a", "\\frac{1000}{a}"],
  ["if(a > b, a, 2*b) + c", "\\left(\\begin{cases}a & \\text{if } a > b \\\\ 2\\,b & \\text{otherwise}\\end{cases}\\right) + c"],
  ["max(a, b)", "\\max\\left(a, b\\right)"],
])("typeset writes %s as %s", (text, expected) => {
  expect(latex(text)).toBe(expected);
});

test.each([
  ["R", "R"],
  ["R_g", "R_{\\mathrm{g}}"],
  ["R1", "R_{1}"],
  ["C2_max", "C_{2,\\mathrm{max}}"],
  ["theta_JA", "\\theta_{\\mathrm{JA}}"],
  ["θ_JA", "\\theta_{\\mathrm{JA}}"],
  ["ΔT", "\\Delta T"],
  ["DeltaT_j", "\\Delta T_{\\mathrm{j}}"],
  ["dT", "\\mathit{dT}"],
  ["SNR", "\\mathit{SNR}"],
  ["Ω", "\\Omega"],
  ["V_s'", "V_{\\mathrm{s'}}"],
  ["V_x_10", "V_{\\mathrm{x},10}"],
  ["mu_r", "\\mu_{\\mathrm{r}}"],
])("typesetSymbol(%s) is %s", (name, expected) => {
  expect(typesetSymbol(name)).toBe(expected);
});

test("the law with numbers joins factors by a dot and brackets values under powers and signs", () => {
  const values: Record<string, string> = { V: "4.5\\,\\mathrm{V}", I: "-2\\,\\mathrm{mA}", R: "\\text{⟦0⟧}" };
  const numbers = (text: string) => typeset(parseFormula(text).expression, (name) => values[name] ?? name);
  expect(numbers("V*I")).toBe("4.5\\,\\mathrm{V} \\cdot \\left(-2\\,\\mathrm{mA}\\right)");
  expect(numbers("V^2/R")).toBe("\\frac{\\left(4.5\\,\\mathrm{V}\\right)^{2}}{\\text{⟦0⟧}}");
  expect(numbers("V - I")).toBe("4.5\\,\\mathrm{V} - \\left(-2\\,\\mathrm{mA}\\right)");
});

test.each(goodFormulas.map(({ text, symbols }) => [text, Object.keys(symbols)] as const))(
  "%s renders as MathML without error",
  (text, symbols) => {
    expect(render(latex(text, symbols))).toContain("<math");
  },
);

test("every tree renders", () => {
  fc.assert(
    fc.property(trees, (tree) => {
      render(typeset(tree));
    }),
    { seed: 3, numRuns: 300 },
  );
});

test("any name renders, and none injects a command or markup", () => {
  fc.assert(
    fc.property(fc.string({ minLength: 1, unit: fc.constantFrom(..."aZ0_'\\{}$#%&^~<>[]\"`Ωπd;:") }), (name) => {
      expect(render(typesetSymbol(name))).not.toMatch(/<(?!\/?(math|semantics|annotation|m[a-z]+|span)[ >])/);
    }),
    { seed: 5, numRuns: 500 },
  );
});
