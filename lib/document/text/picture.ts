/**
 * Pictures that the text of a notebook refers to, put into the document as data: attachments of the cell (`attachment:image.png`, what
 * pasting makes) and files beside the notebook. PNG, JPEG, GIF, WebP, told by their first bytes, and SVG, reduced to what draws.
 */
import { Buffer } from "node:buffer";
import { sanitiseMarkup } from "./sanitise-svg";

/** The bytes of a file by its path from the notebook. Throws an Error that says why there are none. */
export type ReadPicture = (path: string) => Uint8Array;

/** The `data:` address of a picture by its target in the text. Throws an Error that says why there is none. */
export type PictureResolver = (target: string) => string;

/** Bytes. A document is to stay small enough to be sent by mail. */
export const largestPicture = 1_000_000;

/** Pictures of one cell; `attachments` as nbformat stores them, not trusted. Without `read` there are no files. */
export function picturesOf(attachments: unknown, read?: ReadPicture): PictureResolver {
  return (target) => {
    const attached = /^attachment:(.*)$/s.exec(target)?.[1];
    if (attached !== undefined) return dataAddress(attachment(attachments, decoded(attached)));
    if (/^data:image\/(png|jpeg|gif|webp);base64,/.test(target)) return dataAddress(fromBase64(target.replace(/^.*?,/, "")));
    if (/^([a-z][a-z\d+.-]*:|\/\/)/i.test(target))
      throw new Error("a document loads nothing from elsewhere; put the file beside the notebook");
    if (read === undefined) throw new Error("only the text of a notebook has pictures beside it");
    return dataAddress(read(decoded(target.replace(/[?#].*$/s, ""))));
  };
}

function attachment(attachments: unknown, name: string): Uint8Array {
  const bundle: unknown = isRecord(attachments) && Object.hasOwn(attachments, name) ? attachments[name] : undefined;
  const [content] = isRecord(bundle) ? Object.values(bundle) : [];
  const text = Array.isArray(content) ? content.join("") : content;
  if (typeof text !== "string") throw new Error("the cell has no attachment of this name; paste it again");
  return text.trimStart().startsWith("<") ? Buffer.from(text) : fromBase64(text);
}

function fromBase64(text: string): Uint8Array {
  return Buffer.from(decoded(text), "base64");
}

const isRecord = (value: unknown): value is Record<string, unknown> => typeof value === "object" && value !== null;

function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

function dataAddress(bytes: Uint8Array): string {
  const size = (count: number) => `${(count / 1e6).toFixed(1)} MB`;
  if (bytes.length > largestPicture)
    throw new Error(`it has ${size(bytes.length)}, the limit is ${size(largestPicture)}; make it smaller, or a JPEG or WebP of it`);
  const type = typeOf(bytes);
  if (type === undefined) throw new Error("it is no PNG, JPEG, GIF, WebP or SVG");
  const content = type === "svg+xml" ? Buffer.from(standing(Buffer.from(bytes).toString("utf8"))) : Buffer.from(bytes);
  return `data:image/${type};base64,${content.toString("base64")}`;
}

function typeOf(bytes: Uint8Array): string | undefined {
  const head = Buffer.from(bytes.subarray(0, 12)).toString("latin1");
  if (head.startsWith("\x89PNG\r\n\x1a\n")) return "png";
  if (head.startsWith("\xff\xd8\xff")) return "jpeg";
  if (/^GIF8[79]a/.test(head)) return "gif";
  if (/^RIFF.{4}WEBP/s.test(head)) return "webp";
  return /^\ufeff?\s*(?:<\?xml[^>]*>\s*|<!--[\s\S]*?-->\s*|<!DOCTYPE[^>]*>\s*)*<svg[\s>]/.test(Buffer.from(bytes).toString("utf8"))
    ? "svg+xml"
    : undefined;
}

/** An SVG as a file of its own, with nothing in it that runs or loads. */
function standing(text: string): string {
  const [svg = ""] = /<svg[\s>][\s\S]*<\/svg>/.exec(text) ?? [];
  const clean = sanitiseMarkup(svg, "picture");
  return /^<svg[^>]*\sxmlns=/.test(clean) ? clean : clean.replace(/^<svg/, '<svg xmlns="http://www.w3.org/2000/svg"');
}
