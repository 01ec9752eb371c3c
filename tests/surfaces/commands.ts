/** The commands of the project in this process: as the build makes them, without the start of a process for each. */
import { mkdirSync, readdirSync, symlinkSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";
import { build } from "esbuild";
import { root } from "../e2e/run";

export interface Said {
  readonly status: number;
  readonly out: string;
  readonly error: string;
}

type Main = (words: readonly string[], streams: object, interrupt: object) => Promise<number>;

/** Bundles the commands into a folder, beside all else that the build has made. */
export async function loadCommands(folder: string): Promise<(book: string, ...words: string[]) => Promise<Said>> {
  mkdirSync(folder, { recursive: true });
  for (const name of readdirSync(join(root, "dist"))) symlinkSync(join(root, "dist", name), join(folder, name));
  await build({
    entryPoints: { commands: join(root, "lib/cli/commands.ts") },
    outdir: folder,
    bundle: true,
    platform: "node",
    format: "cjs",
    target: "node20",
    packages: "external",
    define: { "import.meta.url": "importMetaUrl" },
    banner: { js: 'const importMetaUrl = require("node:url").pathToFileURL(__filename).href;' },
    logLevel: "error",
  });
  const { main } = createRequire(join(folder, "commands.js"))(join(folder, "commands.js")) as { readonly main: Main };
  return async (book, ...words) => {
    const said = { out: "", error: "" };
    const streams = {
      out: (text: string) => {
        said.out += text;
      },
      error: (text: string) => {
        said.error += text;
      },
      draw: () => undefined,
    };
    const interrupt = { signal: new AbortController().signal, watch: () => undefined };
    const status = await main([...words, "--book", book], streams, interrupt);
    return { status, ...said };
  };
}
