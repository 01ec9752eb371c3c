/**
 * One formula of ten givens and thirty operations: a gain stage with a diode drop, a warming resistor, an inductor and a
 * low-pass. Its parts are added as bare numbers, since only its length matters here.
 */

import { parseFormula } from "../../lib/formula/parse";
import { Graph } from "../../lib/graph/graph";
import type { GivenNode } from "../../lib/graph/node";
import type { Spread } from "../../lib/quantity/spread";

export const text = "G*(V - F)/(R*(1 + a*(T - 25))) + L*w*(V + F)/(R + w*L) - (V - N*T)/(R*sqrt(1 + (w*R*C)^2)) + C*w*exp(-a*T)";

/** Nominal value; half width of a rectangular spread, or standard deviation of a normal one. */
export const givens: Readonly<Record<string, { readonly nominal: number; readonly half?: number; readonly sigma?: number }>> = {
  G: { nominal: 10, half: 0.1 },
  V: { nominal: 4.5, half: 0.09 },
  F: { nominal: 2.85, sigma: 0.04 },
  R: { nominal: 270, half: 13.5 },
  a: { nominal: 0.0039, half: 0.0002 },
  T: { nominal: 40, sigma: 3 },
  L: { nominal: 1e-3, half: 2e-4 },
  w: { nominal: 6283, half: 63 },
  N: { nominal: 0.0017, sigma: 0.0001 },
  C: { nominal: 1e-7, half: 1e-8 },
};

export const symbols = Object.keys(givens);
export const nominals = symbols.map((symbol) => givens[symbol]?.nominal as number);
/** Standard uncertainties: σ, or half/√3. */
export const uncertainties = Object.values(givens).map(({ half = 0, sigma }) => sigma ?? half / Math.sqrt(3));

/** The graph of the formula, its result named `y`. */
export function stageGraph(): Graph {
  const bare = { dimension: "1", unit: "1" };
  const nodes = symbols.map((id): GivenNode => {
    const { nominal } = givens[id] as { nominal: number };
    return { ...bare, kind: "given", id, path: id, text: "", nominal, spread: spreadOf(id), provenance: { source: "bench" } };
  });
  const args = Object.fromEntries(symbols.map((symbol) => [symbol, symbol]));
  return Graph.from([...nodes, { ...bare, kind: "formula", id: "y", text, expression: parseFormula(text).expression, arguments: args }]);
}

function spreadOf(symbol: string): Spread {
  const { nominal, half, sigma } = givens[symbol] as { nominal: number; half?: number; sigma?: number };
  if (sigma !== undefined) return { kind: "normal", sigma, coverage: 3 };
  return { kind: "rectangular", low: nominal - (half as number), high: nominal + (half as number) };
}
