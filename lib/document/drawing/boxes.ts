/** Boxes, lines between them, and texts in boxes. */

export interface Size {
  readonly width: number;
  readonly height: number;
}

export interface Line {
  readonly from: number;
  readonly to: number;
  /** How strongly it is kept short and straight, default 1. */
  readonly weight?: number;
}

export type Corner = readonly [x: number, y: number];
/** Left upper corner and size. */
export type Box = readonly [x: number, y: number, width: number, height: number];

/** A text in lines of so many letters at most, broken between words. */
export function wrap(text: string, width: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(/\s+/)) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= width) lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}
