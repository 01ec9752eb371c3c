/** Of a whole run of the tests: what its processes leave to its end, since the next file has use for it. */
import { mkdirSync, rmSync } from "node:fs";

export function setup(): () => void {
  const folder = process.env.WORKINGS_TEST_FOLDER;
  if (folder === undefined) throw new Error("tests/vitest.config.ts names no folder for what tests make");
  mkdirSync(folder, { recursive: true });
  return () => rmSync(folder, { recursive: true, force: true });
}
