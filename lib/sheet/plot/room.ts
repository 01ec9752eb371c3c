/**
 * How much room a plot has. Its letters are not scaled: at twelve pixels it is drawn for half a wide page, or for a telephone, and the page
 * chooses. What stands beside the axes is taken off what the axes get.
 */
import type { PlotBlock } from "../block";

export type Room = "wide" | "narrow";

/** Of the whole picture, CSS pixels. */
const whole: Readonly<Record<Room, number>> = { wide: 514, narrow: 326 };

const fontSize = 12;
/** Of a letter in the fonts of a page, in sizes of the font, on the average of a text: measured with DejaVu Sans, which is a wide one. */
export const letterWidth = 0.6;
export const textWidth = (text: string): number => text.length * letterWidth * fontSize;

/** Title, numbers and ticks of an upright axis; the padding. */
const axisWidth = 66;
const padding = 12;

/** Longest line of the name of a bar, in letters. */
export const nameLength: Readonly<Record<Room, number>> = { wide: 26, narrow: 16 };

/** Length of the level axis. `named`: the names beside the right ends of curves. */
export function innerWidth({ spreads }: Pick<PlotBlock, "spreads">, named: readonly string[], room: Room): number {
  const wide = (texts: readonly string[]) => Math.max(0, ...texts.map(textWidth));
  const names = (spreads ?? []).flatMap(({ label }) => linesOf(label, nameLength[room]));
  const left = spreads === undefined ? axisWidth : wide(names) + 14;
  // Half of the last number of the axis stands beyond it.
  const right = named.length === 0 ? 16 : wide(named) + 10;
  return Math.max(120, Math.round(whole[room] - padding - left - right));
}

/** A text in lines of at most so many letters; a longer word has a line of its own. */
export function linesOf(text: string, length: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(/\s+/)) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= length) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}
