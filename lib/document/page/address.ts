/** Addresses within the document: `#battery`, `#battery?show=workings`, `#with?path=value&at=battery&show=workings`. */
import { decoded, isStateLink, stateMark } from "../../prose/links";
import { isView, type View } from "./views";

export interface Address {
  /** Id of the element; empty where the address names none. */
  readonly place: string;
  readonly show?: View;
}

export function addressOf(hash: string): Address {
  const isState = isStateLink(hash);
  const [before = "", after = ""] = isState ? ["", hash.slice(stateMark.length)] : split(hash.slice(1));
  const words = new URLSearchParams(after);
  const show = words.get("show");
  return { place: isState ? (words.get("at") ?? "") : decoded(before), ...(isView(show) && { show }) };
}

function split(text: string): [string, string] {
  const at = text.indexOf("?show=");
  return at < 0 ? [text, ""] : [text.slice(0, at), text.slice(at + 1)];
}

/** The address of an element; the story goes without saying. */
export function addressWith(place: string, show: View): string {
  return `#${encodeURI(place)}${show === "story" ? "" : `?show=${show}`}`;
}
