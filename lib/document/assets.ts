/** Program, style and licences of the live page, as the build left them beside this bundle. */
import { readdirSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { readText } from "../sheet/text-file";
import type { PageAssets, WatchAssets } from "./render-page";

let loaded: PageAssets | undefined;

/** Program and style that the page of `workings watch` has beside: dist/watched* of the package. */
export function watchAssets(): WatchAssets {
  const read = (name: string) => readText(join(packageFolder(), "dist", name));
  return { script: read("watched.js"), style: read("watched.css") };
}

/** Program and style of the page, and the licences of what the program is made of: dist/page* of the package. */
export function pageAssets(): PageAssets {
  if (!loaded) {
    const folder = join(packageFolder(), "dist");
    const read = (name: string) => readText(join(folder, name));
    loaded = { script: read("page.js"), start: read("start.js"), style: read("page.css"), notices: read("page-notices.txt") };
  }
  return loaded;
}

/** Texts of the package's data/examples/*.yaml by file name, in alphabetical order. */
export function exampleTexts(): Record<string, string> {
  const folder = join(packageFolder(), "data/examples");
  const files = readdirSync(folder)
    .filter((name) => name.endsWith(".yaml"))
    .sort();
  return Object.fromEntries(files.map((name) => [`data/examples/${name}`, readText(join(folder, name))]));
}

function packageFolder(): string {
  return dirname(createRequire(import.meta.url).resolve("workings/package.json"));
}
