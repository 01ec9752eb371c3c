/** LaTeX of the MathML that the document's laws are set in, for readers of Markdown. */

/** An element or text of a parsed page, as far as it is read here. */
export interface MarkupNode {
  readonly type: string;
  readonly tagName?: string;
  readonly value?: string;
  readonly properties?: Readonly<Record<string, unknown>>;
  readonly children?: readonly MarkupNode[];
}

const letters: Readonly<Record<string, string>> = {
  α: "\\alpha",
  β: "\\beta",
  γ: "\\gamma",
  δ: "\\delta",
  ϵ: "\\epsilon",
  ε: "\\varepsilon",
  ζ: "\\zeta",
  η: "\\eta",
  θ: "\\theta",
  κ: "\\kappa",
  λ: "\\lambda",
  μ: "\\mu",
  ν: "\\nu",
  ξ: "\\xi",
  π: "\\pi",
  ρ: "\\rho",
  σ: "\\sigma",
  τ: "\\tau",
  ϕ: "\\phi",
  φ: "\\varphi",
  χ: "\\chi",
  ψ: "\\psi",
  ω: "\\omega",
  Γ: "\\Gamma",
  Δ: "\\Delta",
  Θ: "\\Theta",
  Λ: "\\Lambda",
  Σ: "\\Sigma",
  Φ: "\\Phi",
  Ψ: "\\Psi",
  Ω: "\\Omega",
  ℓ: "\\ell",
  "∞": "\\infty",
  "⋅": "\\cdot",
  "×": "\\times",
  "−": "-",
  "±": "\\pm",
  "≤": "\\le",
  "≥": "\\ge",
  "≠": "\\ne",
  "≈": "\\approx",
  "→": "\\to",
  "∑": "\\sum",
  "∫": "\\int",
  "√": "\\surd",
  "∣": "|",
  "{": "\\{",
  "}": "\\}",
  "%": "\\%",
  "⌈": "\\lceil",
  "⌉": "\\rceil",
  "⌊": "\\lfloor",
  "⌋": "\\rfloor",
};

/** Names that LaTeX sets upright by itself. */
const functions = new Set("arccos arcsin arctan cos cosh exp lg ln log max min sin sinh tan tanh".split(" "));

/** What KaTeX puts between a function and its argument. */
const invisible = /[\u2061\u2062\u2063\u200b]/g;

/** LaTeX of a `math` element; upright letters of one word stand in one group. */
export function latexOf(node: MarkupNode): string {
  return partOf(node)
    .replaceAll("\\{ \\begin{cases}", "\\begin{cases}")
    .replace(/\\mathrm\{[^{}]*\}(?: \\mathrm\{[^{}]*\})+/g, (run) => `\\mathrm{${run.replace(/\\mathrm\{([^{}]*)\} ?/g, "$1")}}`);
}

function partOf(node: MarkupNode): string {
  if (node.type === "text") return (node.value ?? "").replace(invisible, "");
  const parts = (node.children ?? []).filter(({ type, value }) => type === "element" || (value ?? "").trim() !== "");
  const [a = "", b = "", c = ""] = parts.map(partOf);
  switch (node.tagName) {
    case "mi":
      return identifier(textOf(node), node.properties?.mathvariant ?? node.properties?.mathVariant);
    case "mn":
      return number(textOf(node));
    case "mo":
      return operator(textOf(node));
    case "mtext":
      return textOf(node).trim() === "" ? "\\ " : `\\text{${escaped(textOf(node))}}`;
    case "mspace":
      return "\\ ";
    case "mfrac":
      return `\\frac{${a}}{${b}}`;
    case "msqrt":
      return `\\sqrt{${parts.map(partOf).join(" ")}}`;
    case "mroot":
      return `\\sqrt[${b}]{${a}}`;
    case "msup":
      return `{${a}}^{${b}}`;
    case "msub":
      return `{${a}}_{${b}}`;
    case "msubsup":
      return `{${a}}_{${b}}^{${c}}`;
    case "munder":
      return `\\underset{${b}}{${a}}`;
    case "mover":
      return b === "\\text{¯}" || b === "¯" || b === "‾" ? `\\overline{${a}}` : `\\overset{${b}}{${a}}`;
    case "mtable":
      return `\\begin{cases}${parts.map(partOf).join("\\\\")}\\end{cases}`;
    case "mtr":
      return parts.map(partOf).join(" & ");
    default:
      return parts.map(partOf).join(" ");
  }
}

function textOf(node: MarkupNode): string {
  return node.value ?? (node.children ?? []).map(textOf).join("");
}

function identifier(text: string, variant: unknown): string {
  const name = text.replace(invisible, "");
  if (name.length <= 1) {
    const letter = letters[name] ?? escaped(name);
    return variant === "normal" && /^[A-Za-z]$/.test(name) ? `\\mathrm{${letter}}` : letter;
  }
  return functions.has(name) ? `\\${name}` : `\\mathrm{${escaped(name)}}`;
}

/** A bare number as it is, one with its unit as upright text. */
function number(text: string): string {
  return /^[\d.]+$/.test(text) ? text : `\\text{${escaped(text)}}`;
}

function operator(text: string): string {
  const mark = text.replace(invisible, "");
  return letters[mark] ?? (mark.length > 1 ? `\\operatorname{${escaped(mark)}}` : mark);
}

function escaped(text: string): string {
  return text.replace(/[\\{}$%&#_^~]/g, (mark) =>
    mark === "\\" ? "\\backslash " : mark === "^" || mark === "~" ? `\\${mark}{}` : `\\${mark}`,
  );
}
