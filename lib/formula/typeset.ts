/**
 * A tree as LaTeX, with the fewest brackets that keep its meaning: quotients as fractions, side by side or over one
 * bar rather than one inside another's numerator, roots as roots, function names upright, `if` as cases. ISO 80000-2; log10 is written with its base, `sign` as sgn.
 */
import type { CallExpression, Expression, Operation } from "./expression";
import { functionOf } from "./functions";
import { typesetSymbol } from "./symbol-latex";

export { typesetSymbol } from "./symbol-latex";

/** LaTeX of a symbol, by its name. */
export type SymbolLatex = (name: string) => string;

/** How firmly a piece of LaTeX holds together: what stands around it decides whether it needs brackets. */
const holds = { cases: 0, sum: 1, product: 2, fraction: 3, power: 4, atom: 5 } as const;

interface Piece {
  readonly latex: string;
  readonly holds: number;
  /** Begins with a minus sign, or with a number. */
  readonly starts: "minus" | "digit" | "other";
}

/**
 * LaTeX of an expression. `symbolLatex` replaces how symbols are written; products are then joined by a dot,
 * because values and their units may stand in the place of symbols: `\frac{4.5\,\mathrm{V} - 2.1\,\mathrm{V}}{…}`.
 */
export function typeset(expression: Expression, symbolLatex?: SymbolLatex): string {
  return new Typesetter(symbolLatex).piece(expression).latex;
}

function atom(latex: string): Piece {
  return { latex, holds: holds.atom, starts: /^\d/.test(latex) ? "digit" : "other" };
}

function bracketed(latex: string): string {
  return `\\left(${latex}\\right)`;
}

/** The piece, in brackets unless it holds at least so firmly and does not begin with a minus sign. */
function firm({ latex, holds: own, starts }: Piece, least: number): string {
  return own >= least && starts !== "minus" ? latex : bracketed(latex);
}

const fences: Partial<Record<Operation, readonly [string, string]>> = {
  abs: ["\\left|", "\\right|"],
  ceil: ["\\left\\lceil ", "\\right\\rceil "],
  floor: ["\\left\\lfloor ", "\\right\\rfloor "],
};

const relations: Partial<Record<Operation, string>> = {
  less: "<",
  lessEqual: "\\le",
  greater: ">",
  greaterEqual: "\\ge",
  equal: "=",
  unequal: "\\ne",
};

class Typesetter {
  constructor(private readonly symbolLatex: SymbolLatex | undefined) {}

  piece(expression: Expression): Piece {
    if ("symbol" in expression) return this.#symbol(expression.symbol);
    if ("constant" in expression) return atom(expression.constant === "pi" ? "\\pi" : "\\mathrm{e}");
    if ("number" in expression) return numberPiece(expression.number);
    return this.#call(expression);
  }

  #symbol(name: string): Piece {
    if (this.symbolLatex === undefined) return atom(typesetSymbol(name));
    const latex = this.symbolLatex(name);
    // What replaces a symbol may be a number with its unit: a product as far as a power around it is concerned.
    const starts = latex.startsWith("-") ? "minus" : /^\d/.test(latex) ? "digit" : "other";
    return { latex, holds: latex === typesetSymbol(name) ? holds.atom : holds.product, starts };
  }

  #call({ call, of }: CallExpression): Piece {
    if (call === "divide") return this.#quotient(...(of as readonly [Expression, Expression]));
    const pieces = of.map((e) => this.piece(e));
    const [a, b] = pieces as [Piece, Piece];
    switch (call) {
      case "add":
        return this.#sum(a, "+", firm(b, holds.sum));
      case "subtract":
        return this.#sum(a, "-", firm(b, holds.product));
      case "multiply":
        return this.#product(a, b);
      case "negate":
        return { latex: `-${firm(a, holds.product)}`, holds: holds.product, starts: "minus" };
      case "power":
        return this.#power(a, b, of[1] as Expression);
      case "sqrt":
        return atom(`\\sqrt{${a.latex}}`);
      case "cbrt":
        return atom(`\\sqrt[3]{${a.latex}}`);
      case "if":
        return this.#cases(pieces);
      default:
        return this.#named(call, pieces);
    }
  }

  #sum(a: Piece, sign: string, right: string): Piece {
    const left = a.holds >= holds.sum ? a.latex : bracketed(a.latex);
    return { latex: `${left} ${sign} ${right}`, holds: holds.sum, starts: a.starts };
  }

  #product(a: Piece, b: Piece): Piece {
    // A minus in front of the first factor negates the whole product and needs no brackets.
    const left = a.holds >= holds.product ? a.latex : bracketed(a.latex);
    const joint = this.symbolLatex !== undefined || b.starts === "digit" ? " \\cdot " : "\\,";
    return { latex: `${left}${joint}${firm(b, holds.product)}`, holds: holds.product, starts: a.starts };
  }

  /** a·(b/c)·d over e is a·b/c times d/e, and (a/b)/c is a over b·c: fractions in a numerator are too small to read. */
  #quotient(above: Expression, below: Expression): Piece {
    const factors = factorsOf(above);
    const last = factors.findLastIndex(isQuotient);
    if (last === -1) return this.#fraction(this.piece(above), this.piece(below));
    const before = factors.slice(0, last);
    const rest = factors.slice(last + 1);
    const pieces = before.map((factor) => this.piece(factor));
    if (rest.length > 0) {
      pieces.push(this.piece(factors[last] as Expression), this.#fraction(this.#all(rest), this.piece(below)));
    } else {
      const [over, under] = (factors[last] as CallExpression).of as readonly [Expression, Expression];
      pieces.push(this.#quotient(over, { call: "multiply", of: [under, below] }));
    }
    return this.#joined(pieces);
  }

  #fraction(above: Piece, below: Piece): Piece {
    return { latex: `\\frac{${above.latex}}{${below.latex}}`, holds: holds.fraction, starts: "other" };
  }

  #all(factors: readonly Expression[]): Piece {
    return this.#joined(factors.map((factor) => this.piece(factor)));
  }

  #joined([first, ...others]: readonly Piece[]): Piece {
    return others.reduce((left, right) => this.#product(left, right), first as Piece);
  }

  #power(base: Piece, exponent: Piece, written: Expression): Piece {
    const raised = simpleRatio(written) ?? exponent.latex;
    return { latex: `${firm(base, holds.atom)}^{${raised}}`, holds: holds.power, starts: base.starts === "digit" ? "digit" : "other" };
  }

  #cases(pieces: readonly Piece[]): Piece {
    const [condition, value, otherwise] = pieces.map((piece) => piece.latex) as [string, string, string];
    const latex = `\\begin{cases}${value} & \\text{if } ${condition} \\\\ ${otherwise} & \\text{otherwise}\\end{cases}`;
    return { latex, holds: holds.cases, starts: "other" };
  }

  #named(call: Operation, pieces: readonly Piece[]): Piece {
    const inside = pieces.map((piece) => piece.latex);
    const relation = relations[call];
    if (relation !== undefined) return { latex: inside.join(` ${relation} `), holds: holds.cases, starts: "other" };
    const fence = fences[call];
    if (fence !== undefined) return atom(fence.join(inside.join()));
    // sin x² would be read two ways, so a function keeps its brackets and a power of it gets its own.
    return {
      latex: `${functionOf(call)?.latex ?? `\\operatorname{${call}}`}${bracketed(inside.join(", "))}`,
      holds: holds.power,
      starts: "other",
    };
  }
}

/** a, b, c of a·b·c as it is read from the left. */
function factorsOf(expression: Expression): readonly Expression[] {
  if (!("call" in expression) || expression.call !== "multiply") return [expression];
  const [left, right] = expression.of as readonly [Expression, Expression];
  return [...factorsOf(left), right];
}

function isQuotient(expression: Expression): boolean {
  return "call" in expression && expression.call === "divide";
}

/** 1/2 and -3/2 in one line, as exponents are set; undefined for other exponents. */
function simpleRatio(expression: Expression): string | undefined {
  if (!("call" in expression)) return undefined;
  if (expression.call === "negate") {
    const ratio = simpleRatio(expression.of[0] as Expression);
    return ratio === undefined || ratio.startsWith("-") ? undefined : `-${ratio}`;
  }
  const [over, under] = expression.of.map(wholeNumber);
  return expression.call === "divide" && over !== undefined && under !== undefined && under >= 0 ? `${over}/${under}` : undefined;
}

function wholeNumber(expression: Expression): number | undefined {
  if ("number" in expression) return expression.number;
  if (!("call" in expression) || expression.call !== "negate") return undefined;
  const value = wholeNumber(expression.of[0] as Expression);
  return value === undefined ? undefined : -value;
}

/** 1.6e-19 as 1.6 · 10⁻¹⁹. */
function numberPiece(number: number): Piece {
  const [digits = "", exponent] = String(number).split("e");
  const starts = number < 0 ? "minus" : "digit";
  if (exponent === undefined) return { latex: digits, holds: holds.atom, starts };
  const ten = `10^{${Number(exponent)}}`;
  if (digits === "1") return { latex: ten, holds: holds.power, starts };
  return { latex: `${digits}\\cdot ${ten}`, holds: holds.product, starts };
}
