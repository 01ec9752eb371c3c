// Builds the package: one CommonJS bundle shared by every subpath (so that a dimension or a model has one
// identity), the command line, the child process of the runner, the page, and the declaration files.
import { execFileSync } from "node:child_process";
import { chmodSync, existsSync, mkdirSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "esbuild";
import { bundledPackages, noticesText } from "./notices.mjs";

const root = dirname(dirname(fileURLToPath(import.meta.url)));
const target = join(root, "dist");
// Built aside and moved into place, so that a failed build leaves the last good one.
const dist = join(root, "dist.new");
rmSync(dist, { recursive: true, force: true });
mkdirSync(dist, { recursive: true });

// vega-canvas reaches for native canvas behind a top-level await, which CommonJS cannot hold.
const vegaCanvas = join(root, "node_modules/vega-canvas/build/vega-canvas.browser.js");
if (!existsSync(vegaCanvas)) throw new Error(`no browser build of vega-canvas at ${vegaCanvas}`);

const node = {
  bundle: true,
  platform: "node",
  target: "node20",
  format: "cjs",
  absWorkingDir: root,
  logLevel: "warning",
  alias: { "vega-canvas": vegaCanvas },
  define: { "import.meta.url": "importMetaUrl" },
  metafile: true,
  banner: { js: 'const importMetaUrl = require("node:url").pathToFileURL(__filename).href;' },
  legalComments: "none",
};
const browser = {
  metafile: true,
  bundle: true,
  format: "iife",
  minify: true,
  target: "es2022",
  absWorkingDir: root,
  logLevel: "warning",
  alias: { "vega-canvas": vegaCanvas, "mathjs/number": join(root, ".build/no-parser.mjs") },
  legalComments: "none",
};

// The compiler and the notebook kernel are loaded from where npm put them, never copied into a bundle.
const external = ["tslab", "tslab/*", "@tslab/*"];

const built = await Promise.all([
  build({ ...node, entryPoints: { workings: "lib/bundle.ts" }, outdir: dist, external: external }),
  build({
    ...node,
    entryPoints: { cli: "lib/cli/main.ts" },
    outdir: dist,
    external: ["./commands.js"],
    banner: { js: `#!/usr/bin/env node\n${node.banner.js}` },
  }),
  build({ ...node, entryPoints: { commands: "lib/cli/commands.ts" }, outdir: dist, external }),
  build({ ...node, entryPoints: { "kernel-child": "lib/kernel/child.ts" }, outdir: dist, external }),
  build({ ...node, entryPoints: { vega: "lib/sheet/plot/vega.ts" }, outdir: dist, external, minify: true }),
  build({ ...browser, entryPoints: { page: "lib/document/page/main.ts", start: "lib/document/page/start.ts" }, outdir: dist }),
  build({ ...browser, entryPoints: { page: "lib/document/page/page.css" }, outdir: dist }),
  build({ ...browser, entryPoints: { watched: "lib/document/page/watched.ts" }, outdir: dist }),
  build({ ...browser, entryPoints: { watched: "lib/document/page/watched.css" }, outdir: dist }),
]);
// What each bundle is made of: the notices say it, and tests/document/notices.test.ts holds them against it.
const metafiles = built.map(({ metafile }) => metafile);
const [page, style] = metafiles.slice(-4);
mkdirSync(join(root, "build"), { recursive: true });
writeFileSync(join(root, "build/bundles.json"), JSON.stringify({ package: metafiles, page: [page, style] }));
writeFileSync(join(dist, "page-notices.txt"), noticesText(bundledPackages([page, style]), root));
writeFileSync(
  join(dist, "THIRD-PARTY-NOTICES.txt"),
  `The bundles in this folder hold code of the packages below, each under the licence that stands with it.\n\n${noticesText(bundledPackages(metafiles), root)}`,
);
for (const part of ["index", "units", "physics"]) {
  writeFileSync(join(dist, `${part}.js`), `"use strict";\nmodule.exports = require("./workings.js").${part};\n`);
}
chmodSync(join(dist, "cli.js"), 0o755);

execFileSync(process.execPath, [join(root, "node_modules/typescript/bin/tsc"), "-p", "tests/tsconfig.types.json"], {
  cwd: root,
  stdio: "inherit",
});
rmSync(target, { recursive: true, force: true });
renameSync(dist, target);
