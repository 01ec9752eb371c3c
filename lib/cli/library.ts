/** Which build of the library this is: what it computes may differ from what another one did. */
import { createHash } from "node:crypto";
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

/** Of what cells import. */
export function libraryHash(): string {
  hash ??= hashOfLibrary(__dirname);
  return hash;
}

let hash: string | undefined;

/** Of the bundles that make outputs: the library, and what draws its plots; what has not been built counts as nothing. */
export function hashOfLibrary(folder: string): string {
  const hashed = createHash("sha256");
  for (const bundle of ["workings.js", "vega.js"]) {
    const path = join(folder, bundle);
    if (existsSync(path)) hashed.update(readFileSync(path));
  }
  return hashed.digest("hex");
}

/** Of the declarations that cells are checked against. */
export function typesHash(folder: string = join(__dirname, "types")): string {
  const hashed = createHash("sha256");
  const files = existsSync(folder)
    ? readdirSync(folder, { recursive: true, encoding: "utf8" }).filter((name) => name.endsWith(".d.ts"))
    : [];
  for (const name of files.sort()) hashed.update(`${name}\0`).update(readFileSync(join(folder, name)));
  return hashed.digest("hex");
}
