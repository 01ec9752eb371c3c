/** Numbers with their units in running text. */
import { unitNamed } from "../../quantity/unit-names";

/** `12 h`, `30 % of it`, `1.14 g/cm³`: the space between a number and a unit becomes one at which no line breaks. */
export function withBoundUnits(text: string): string {
  return text.replace(/(\d) (?=([^\s\d,;:()]+))/g, (whole, digit: string, word: string) => (isUnit(word) ? `${digit}\u00a0` : whole));
}

/** The text of a given as it is printed: units bound to their numbers, true minus signs. */
export function printedValue(text: string): string {
  return withBoundUnits(text).replace(/(^|[\s(])-(?=\d)/g, "$1−");
}

/** A word is a unit if its first factor is: `g/cm³`, `V·s`, `%.` at the end of a sentence. */
function isUnit(word: string): boolean {
  const first = /^(?:°?[A-Za-zµΩ]+|%|°|‰)/u.exec(word)?.[0];
  return first !== undefined && !words.has(first) && unitNamed(first) !== undefined;
}

/** What is also an English word. */
const words = new Set(["a", "as", "at", "in", "to", "are", "bar"]);
