/** Sources in the fields of CSL-JSON 1.0.2 (Citation Style Language schema), keyed by a short name. */
import type { Node } from "yaml";
import { Fields, mapOf } from "./fields";
import type { LocatedFile } from "./locate";
import { list, nearest, suggestion } from "./nearest";
import type { CslItem } from "./types";

export const cslTypes: readonly string[] = words(`
  article article-journal article-magazine article-newspaper bill book broadcast chapter classic collection
  dataset document entry entry-dictionary entry-encyclopedia event figure graphic hearing interview legal_case
  legislation manuscript map motion_picture musical_score pamphlet paper-conference patent performance
  periodical personal_communication post post-weblog regulation report review review-book software song speech
  standard thesis treaty webpage
`);

export const cslFields: readonly string[] = words(`
  type title title-short author editor issued accessed authority publisher publisher-place container-title
  collection-title collection-number volume issue number page edition section chapter-number version genre
  medium status language event-title DOI ISBN ISSN URL abstract annote keyword note
`);

/** The sources at a node, in the order of the file. */
export function readSources(file: LocatedFile, node: Node | undefined): Map<string, CslItem> {
  const sources = new Map<string, CslItem>();
  const map = node && mapOf(file, node, "sources", "one key for each source");
  for (const { key: id, value } of map ? file.entries(map) : []) {
    const item = mapOf(file, value, `source '${id}'`, "CSL-JSON fields such as type and title");
    if (!item) continue;
    const fields = new Fields(file, item, cslFields, `source '${id}'`);
    const title = fields.requiredText("title", "write the title, or what it is in a few words");
    const type = readType(fields);
    // Kept even when faulty, so that a slip here is not reported again at each use.
    sources.set(id, { ...(item.toJSON() as object), id, type: type ?? "document", title: title ?? id });
  }
  return sources;
}

function readType(fields: Fields): string | undefined {
  const type = fields.requiredText("type", "write its CSL-JSON type: standard, report, book, document, …");
  if (type === undefined || cslTypes.includes(type)) return type;
  fields.file.report(
    fields.node("type") ?? fields.map,
    `unknown type '${type}' of ${fields.subject}`,
    "a CSL-JSON type",
    suggestion(nearest(type, cslTypes), `use one of ${list(["standard", "report", "book", "document"], "or")}`),
  );
  return undefined;
}

/** The source key of a leaf, checked against the known ones; undefined after a report. */
export function sourceKey(fields: Fields, sources: ReadonlyMap<string, CslItem>): string | undefined {
  const key = fields.requiredText("source", "write where the value comes from: a key of sources");
  if (key === undefined || sources.has(key)) return key;
  fields.file.report(
    fields.node("source") ?? fields.map,
    `unknown source '${key}' of ${fields.subject}`,
    "a key of sources",
    suggestion(nearest(key, sources.keys()), "add it to sources"),
  );
  return undefined;
}

function words(text: string): readonly string[] {
  return text.trim().split(/\s+/);
}
