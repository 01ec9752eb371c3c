/** Names for things that have none: a hash of their content, the same in every run and on every machine. */

/** 64-bit FNV-1a of the JSON text as 16 hex digits. Not for security: it tells one unnamed node from another. */
export function contentHash(content: unknown): string {
  const text = JSON.stringify(content);
  let high = 0xcbf29ce4;
  let low = 0x84222325;
  for (let i = 0; i < text.length; i++) {
    low = (low ^ text.charCodeAt(i)) >>> 0;
    // Multiplication by the FNV prime 2^40 + 0x1b3, in 32-bit halves.
    const product = low * 0x1b3;
    const carry = Math.floor(product / 0x100000000);
    high = (Math.imul(high, 0x1b3) + carry + (low << 8)) >>> 0;
    low = product >>> 0;
  }
  return high.toString(16).padStart(8, "0") + low.toString(16).padStart(8, "0");
}
