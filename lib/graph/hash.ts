/**
 * A 64-bit hash of text as two 32-bit words, equal on every engine: two multiplicative hashes with different
 * odd constants, each finished by the mixer of MurmurHash3 (A. Appleby, public domain). Not for secrets.
 */
export function hashText(text: string): readonly [number, number] {
  let first = 0x9e3779b9;
  let second = 0x85ebca6b;
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    first = Math.imul(first ^ code, 0x01000193);
    second = Math.imul(second ^ code, 0x5bd1e995);
    second ^= second >>> 15;
  }
  return [mix(first ^ text.length), mix(second ^ Math.imul(first, 0x27d4eb2f))];
}

/** Sixteen hexadecimal digits of `hashText`. */
export function hashDigits(text: string): string {
  return hashText(text)
    .map((word) => word.toString(16).padStart(8, "0"))
    .join("");
}

function mix(word: number): number {
  let h = word;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) >>> 0;
}
