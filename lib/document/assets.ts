/** Program and style of the live page, as the build left them beside this bundle. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import type { PageAssets } from "./render-page";

let loaded: PageAssets | undefined;

/** dist/page.js and dist/page.css of the package. */
export function pageAssets(): PageAssets {
  if (!loaded) {
    const folder = join(dirname(createRequire(import.meta.url).resolve("workings/package.json")), "dist");
    const read = (name: string) => readFileSync(join(folder, name), "utf8");
    loaded = { script: read("page.js"), style: read("page.css") };
  }
  return loaded;
}
