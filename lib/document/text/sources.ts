/** Sources as an engineer cites them, from CSL-JSON fields; the bibliography links both ways. */
import type { GraphNode, Provenance } from "../../graph/node";
import { anchor, type Html, html } from "./html";
import { withBoundUnits } from "./units-in-text";

/** Fields of CSL-JSON that are shown. */
export type Source = Readonly<Record<string, unknown>>;

/** The numbers of the sources that nodes cite, in alphabetical order of their keys. */
export function sourceNumbers(nodes: readonly GraphNode[]): ReadonlyMap<string, number> {
  const cited = new Set(nodes.flatMap((node) => ("provenance" in node ? [node.provenance.source] : [])));
  return new Map([...cited].toSorted().map((key, index) => [key, index + 1]));
}

/** Citation of a source as a link into the bibliography. */
export type Cite = (provenance: Provenance) => Html;

/** Cites by title; on paper the number of the source stands for it, with a dagger where the value is from memory. */
export function citing(sources: ReadonlyMap<string, Source>, numbers: ReadonlyMap<string, number>): Cite {
  return (provenance) => citation(provenance, sources, numbers.get(provenance.source));
}

function citation(provenance: Provenance, sources: ReadonlyMap<string, Source>, number?: number): Html {
  const { source, note, fromMemory, place } = provenance;
  const title = sources.get(source)?.title;
  const label = typeof title === "string" ? title : source;
  const mark = number !== undefined && html` data-n="${number}${fromMemory && "†"}"`;
  return html`<a href="#${anchor("source", source)}"${mark}>${label}</a>${fromMemory && !/from memory/i.test(label) && html` <span class="memory">from memory</span>`}${
    note && html` <span class="remark">${withBoundUnits(note)}</span>`
  }${place && html` <span class="place">${place}</span>`}`;
}

/** `Author, A. (2020). Title. Publisher. URL` with whatever of it is known. */
export function sourceText(source: Source): Html {
  const authors = (Array.isArray(source.author) ? source.author : []).map(authorText).filter(Boolean).join("; ");
  const year = yearOf(source.issued);
  const words = [
    authors && `${authors}${year && ` (${year})`}`,
    textOf(source.title),
    textOf(source["container-title"]),
    textOf(source.number),
    textOf(source.publisher),
    !authors && year,
    textOf(source.note),
  ].filter(Boolean);
  const url = textOf(source.URL);
  const safe = /^https?:\/\//.test(url) && html` <a href="${url}" rel="noreferrer">${url}</a>`;
  return html`${words.join(". ")}.${safe}`;
}

function textOf(value: unknown): string {
  return typeof value === "string" || typeof value === "number" ? String(value).replace(/\.$/, "") : "";
}

function authorText(author: unknown): string {
  if (typeof author !== "object" || author === null) return textOf(author);
  const { family, given, literal } = author as Readonly<Record<string, unknown>>;
  return textOf(literal) || [textOf(family), textOf(given)].filter(Boolean).join(", ");
}

function yearOf(issued: unknown): string {
  if (typeof issued !== "object" || issued === null) return textOf(issued);
  const parts = (issued as Readonly<Record<string, unknown>>)["date-parts"];
  const first: unknown = Array.isArray(parts) ? parts[0] : undefined;
  return textOf(Array.isArray(first) ? first[0] : (issued as Readonly<Record<string, unknown>>).literal);
}
