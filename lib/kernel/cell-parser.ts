/** tslab's own TypeScript, so that cells are read as they are run. Loaded on first use: it takes 0.2 s. */
import { createRequire } from "node:module";
import type * as TypeScript from "@tslab/typescript-for-tslab";

export type { TypeScript };

export function loadTypeScript(): typeof TypeScript {
  const fromHere = createRequire(__filename);
  return createRequire(fromHere.resolve("tslab/dist/converter"))("@tslab/typescript-for-tslab") as typeof TypeScript;
}
