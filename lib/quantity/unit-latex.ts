/** The symbol of a unit in LaTeX: upright, as ISO 80000-1 7.2.1 asks. */

import { fromSuperscript } from "./superscript";

const pieces: Readonly<Record<string, string>> = { µ: "\\mu ", Ω: "\\Omega ", Δ: "\\Delta ", " ": "\\ ", _: "\\_" };

/** `kΩ` is `\mathrm{k\Omega }`, `nV/√Hz` is `\mathrm{nV}/\sqrt{\mathrm{Hz}}`. */
export function unitLatex(symbol: string): string {
  const tokens = symbol.match(/√[^·/()√]+|[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+|\^\(-?\d+\/2\)|[·/()]|[^√⁻⁰¹²³⁴⁵⁶⁷⁸⁹^·/()]+/gu) ?? [];
  return tokens.map(tokenLatex).join("");
}

function tokenLatex(token: string): string {
  if (token.startsWith("√")) return `\\sqrt{${upright(token.slice(1))}}`;
  if (token.startsWith("^")) return `^{${token.slice(2, -1)}}`;
  if (token === "·") return "\\cdot ";
  if (/^[/()]$/.test(token)) return token;
  if (/^[⁻⁰¹²³⁴⁵⁶⁷⁸⁹]/.test(token)) return `^{${fromSuperscript(token)}}`;
  return upright(token);
}

function upright(name: string): string {
  if (name === "%") return "\\%";
  if (name === "Δ°C" || name === "Δ°F") return `\\Delta\\text{${name.slice(1)}}`;
  if (/[°‰Å′″]/.test(name)) return `\\text{${name}}`;
  return `\\mathrm{${name.replace(/[µΩΔ _]/g, (c) => pieces[c] as string).trim()}}`;
}
