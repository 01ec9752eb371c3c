/** Which way a value goes along each input, the others standing still: rising, falling, not at all, or not known. */

/** 0: not at all; 1: nowhere falling; −1: nowhere rising; 2: not known. */
export type Way = 0 | 1 | -1 | 2;
/** One `Way` an input. */
export type Heading = Int8Array;

export const unknown: Way = 2;

/** A sum of two parts, or what rises with both of two values. */
export function both(a: Heading, b: Heading): Heading {
  return a.map((own, k) => {
    const other = b[k] as Way;
    return own === 0 ? other : other === 0 || other === own ? own : unknown;
  });
}

/** Turned round for −1; lost for 0, unless it stood still. */
export function turned(heading: Heading, sign: -1 | 0 | 1): Heading {
  if (sign === 1) return heading;
  return heading.map((own) => (own === 0 ? 0 : own === unknown || sign === 0 ? unknown : -own));
}

/** Moved by the same inputs, no one knows where. */
export const lost = (heading: Heading): Heading => turned(heading, 0);

export const standsStill = (heading: Heading): boolean => heading.every((own) => own === 0);
