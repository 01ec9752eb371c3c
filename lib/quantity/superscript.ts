/** Whole numbers as superscripts, ⁻², and back. */
const digits = "⁰¹²³⁴⁵⁶⁷⁸⁹";

export function toSuperscript(n: number): string {
  const raised = String(Math.abs(n)).replace(/\d/g, (d) => digits[Number(d)] as string);
  return n < 0 ? `⁻${raised}` : raised;
}

/** The text as ordinary digits, `-2`. */
export function fromSuperscript(text: string): string {
  return text.replace(/⁻/g, "-").replace(/[⁰¹²³⁴⁵⁶⁷⁸⁹]/g, (c) => String(digits.indexOf(c)));
}
