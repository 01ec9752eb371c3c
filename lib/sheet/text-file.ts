/** Text files are UTF-8. Other bytes are refused: read all the same they would become U+FFFD, and be written back so. */
import { isUtf8 } from "node:buffer";
import { readFileSync } from "node:fs";

/** The text of a file. Throws what the file system says, and an Error with offset and line of the first byte that is not UTF-8. */
export function readText(path: string): string {
  return decodeText(readFileSync(path));
}

/** The text that bytes stand for. Throws as {@link readText} does. */
export function decodeText(bytes: Buffer): string {
  const text = bytes.toString("utf8");
  if (isUtf8(bytes)) return text;
  const offset = firstFault(bytes, text);
  const line = bytes.subarray(0, offset).toString("latin1").split("\n").length;
  const byte = (bytes[offset] ?? 0).toString(16).padStart(2, "0");
  throw new Error(`byte ${offset} (0x${byte}, line ${line}) is not UTF-8; save the file in UTF-8, or mend that byte`);
}

/** Where a U+FFFD of the decoded text does not stand in the file as such. */
function firstFault(bytes: Buffer, text: string): number {
  const replacement = Buffer.from("\ufffd");
  let offset = 0;
  for (const part of text.split("\ufffd")) {
    offset += Buffer.byteLength(part);
    if (!bytes.subarray(offset, offset + replacement.length).equals(replacement)) return offset;
    offset += replacement.length;
  }
  return bytes.length;
}
