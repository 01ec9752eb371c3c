/** Symbols as markup and as plain text, Greek letters as themselves. */
import { entryOf } from "../quantity/entry-of";
import { type Html, html } from "./html";

export const greekLetters: Readonly<Record<string, string>> = {
  alpha: "α",
  beta: "β",
  gamma: "γ",
  delta: "δ",
  epsilon: "ε",
  eps: "ε",
  eta: "η",
  theta: "θ",
  kappa: "κ",
  lambda: "λ",
  mu: "μ",
  nu: "ν",
  rho: "ρ",
  sigma: "σ",
  tau: "τ",
  phi: "φ",
  chi: "χ",
  psi: "ψ",
  omega: "ω",
  Delta: "Δ",
  Theta: "Θ",
  Lambda: "Λ",
  Sigma: "Σ",
  Phi: "Φ",
  Omega: "Ω",
};

/** `R_g` as a variable with a subscript. */
export function symbolHtml(symbol: string): Html {
  const [head = "", ...rest] = symbol.split("_");
  const subscript = rest.map(letter).join(",");
  return html`<var>${letter(head)}${subscript && html`<sub>${subscript}</sub>`}</var>`;
}

/** `R_g = ` within the text of a drawing. */
export function symbolSvg(symbol: string): Html {
  const [head = "", ...rest] = symbol.split("_");
  const equals = " = ";
  if (rest.length === 0) return html`<tspan font-style="italic">${letter(head)}</tspan>${equals}`;
  return html`<tspan font-style="italic">${letter(head)}</tspan><tspan dy="3" font-size="0.8em">${rest.map(letter).join(",")}</tspan><tspan dy="-3">${equals}</tspan>`;
}

/** `R_g` in plain text. */
export function symbolText(symbol: string): string {
  return symbol.split("_").map(letter).join("_");
}

function letter(name: string): string {
  return entryOf(greekLetters, name) ?? name;
}
