/** The worked examples of data/examples, read as the command reads them. */
import { readdirSync, readFileSync } from "node:fs";
import { type Example, readExamples, type SubjectExamples } from "../../lib/design/examples";
import { type CatalogueEntry, catalogue } from "../../lib/document/reference/catalogue";

const folder = new URL("../../data/examples/", import.meta.url);

export const exampleFiles: readonly SubjectExamples[] = readExamples(
  Object.fromEntries(
    readdirSync(folder)
      .sort()
      .map((name) => [`data/examples/${name}`, readFileSync(new URL(name, folder), "utf8")]),
  ),
);

export const entries: readonly CatalogueEntry[] = catalogue().flatMap((subject) => subject.entries);

export function examplesOf({ subject, name }: CatalogueEntry): readonly Example[] {
  return exampleFiles.find((file) => file.name === subject)?.laws.get(name)?.examples ?? [];
}
