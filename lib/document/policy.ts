/** The content-security-policy of the document: nothing is fetched, only the scripts and styles it holds run. */
import { createHash } from "node:crypto";
import { deflateRawSync } from "node:zlib";

/** `'sha256-…'` of the text of an inline script or style. */
function sourceHash(text: string): string {
  return `'sha256-${createHash("sha256").update(text, "utf8").digest("base64")}'`;
}

/** The policy for these scripts and style sheets. The worker is made from a blob of a script. `connect`: what may be fetched; default: nothing. */
export function contentPolicy(scripts: readonly string[], styles: readonly string[], connect?: "'self'"): string {
  return [
    "default-src 'none'",
    `script-src ${scripts.map(sourceHash).join(" ")}`,
    `style-src ${styles.map(sourceHash).join(" ")}`,
    ...(connect === undefined ? [] : [`connect-src ${connect}`]),
    "worker-src blob:",
    "img-src data:",
    "base-uri 'none'",
    "form-action 'none'",
  ].join("; ");
}

/** The policy for a document without a program. */
export function referencePolicy(styles: readonly string[]): string {
  return `default-src 'none'; style-src ${styles.map(sourceHash).join(" ")}; base-uri 'none'; form-action 'none'`;
}

/** Text for the inside of an inline script or style element: what would end the element is a refusal. */
export function inline(text: string, element: "script" | "style"): string {
  if (new RegExp(`</${element}|<!--[\\s\\S]*<${element}`, "i").test(text))
    throw new Error(`the ${element} of the page holds a text that would end its element`);
  return text;
}

/** Text for the inside of a script element that is data: deflated (RFC 1951), which the page undoes (page/unpacked.ts). */
export function packed(text: string): string {
  return deflateRawSync(text, { level: 9 }).toString("base64");
}

/** The first twelve digits of the SHA-256 of everything that a document shows. */
export function contentHash(content: unknown): string {
  return createHash("sha256").update(JSON.stringify(content)).digest("hex").slice(0, 12);
}
