/** Every package whose code is handed on, in the package or in a document, is named there with its licence. */
import { readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { pageAssets } from "../../lib/document/assets";
import { publishBook } from "../../lib/document/publish";
import { fixtureBook, fixturePlots } from "./make";

const root = resolve(__dirname, "../..");

/** esbuild's account of a bundle. */
interface Metafile {
  readonly outputs: Readonly<Record<string, { readonly inputs: Readonly<Record<string, { readonly bytesInOutput: number }>> }>>;
}

const bundles = JSON.parse(readFileSync(join(root, "build/bundles.json"), "utf8")) as Record<"package" | "page", readonly Metafile[]>;

/** Folders of the packages in the bundles, by `name version`. */
function packages(metafiles: readonly Metafile[]): ReadonlyMap<string, string> {
  const inputs = metafiles.flatMap(({ outputs }) => Object.values(outputs).flatMap((output) => Object.entries(output.inputs)));
  const paths = inputs.filter(([path, { bytesInOutput }]) => bytesInOutput > 0 && path.includes("node_modules/")).map(([path]) => path);
  const folders = paths.map((path) => {
    const parts = path.split("/");
    const at = parts.lastIndexOf("node_modules");
    return parts.slice(0, at + (parts[at + 1]?.startsWith("@") ? 3 : 2)).join("/");
  });
  return new Map(
    [...new Set(folders)].map((folder) => {
      const { name, version } = JSON.parse(readFileSync(join(root, folder, "package.json"), "utf8")) as Record<string, string>;
      return [`${name} ${version}`, join(root, folder)];
    }),
  );
}

const named = (notices: string) => [...notices.matchAll(/^((?:@[\w.-]+\/)?[\w.-]+ \d+\.\d+\.\d+[\w.+-]*), .+$/gm)].map(([, name]) => name);
const words = (text: string) => text.toLowerCase().match(/[\p{L}\p{N}]+/gu) ?? [];

describe.each([
  ["page", "dist/page-notices.txt", 40],
  ["package", "dist/THIRD-PARTY-NOTICES.txt", 90],
] as const)("the notices of the %s", (bundle, file, atLeast) => {
  const notices = readFileSync(join(root, file), "utf8");
  const bundled = packages(bundles[bundle]);

  it("name the packages that the bundler has put in, and no other", () => {
    expect(bundled.size).toBeGreaterThan(atLeast);
    expect(named(notices).toSorted()).toEqual([...bundled.keys()].toSorted());
  });

  it("hold every sentence of their licence files", () => {
    const said = ` ${words(notices).join(" ")} `;
    for (const [name, folder] of bundled) {
      const files = readdirSync(folder).filter((one) => /^(licen[cs]e|copying|notice)/i.test(one));
      for (const one of files)
        for (const paragraph of readFileSync(join(folder, one), "utf8").split(/\n\s*\n/))
          if (words(paragraph).length > 8) expect(said, `${name}, ${one}`).toContain(` ${words(paragraph).join(" ")} `);
    }
  });
});

it("a document holds the notices of its page's program, as text and in less than 60 kB", async () => {
  const page = pageAssets();
  expect(page.notices.length).toBeLessThan(60_000);
  const document = publishBook(fixtureBook(), { ...page, notices: `${page.notices}<script>` }, fixturePlots);
  const [, shown = ""] =
    /<section class="page back notices"[^>]*><h2[^>]*>[^<]*<\/h2><pre tabindex="0">([^<]*)<\/pre>/.exec(document) ?? [];
  expect(named(shown)).toEqual(named(page.notices));
  expect(shown).toContain("&lt;script");
});
