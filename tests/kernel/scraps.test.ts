import { spawnSync } from "node:child_process";
import { readdirSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, it } from "vitest";
import { clearScraps, isRunning, temporaryName } from "../../lib/kernel/scraps";
import { scratch } from "./fixture";

const dead = spawnSync(process.execPath, ["-e", ""]).pid;
const ofDead = (path: string) => temporaryName(path).replace(String(process.pid), String(dead));

describe("clearScraps", () => {
  it("removes the temporary files of processes that have ended, and nothing else", () => {
    const folder = scratch(),
      path = join(folder, "a.ipynb");
    const kept = [path, temporaryName(path), join(folder, ".a.part"), join(folder, `a.ipynb.${dead}.part`), join(folder, `.b.${dead}`)];
    for (const file of [...kept, ofDead(path), ofDead(join(folder, "gone.json"))]) writeFileSync(file, "");
    clearScraps([path, join(folder, "another.ipynb")]);
    expect(readdirSync(folder).sort()).toEqual(kept.map((file) => file.slice(folder.length + 1)).sort());
  });

  it("looks beside the file that a link leads to, and does not mind a folder that is missing", () => {
    const [folder, far] = [scratch(), scratch()];
    const path = join(far, "a.ipynb");
    for (const file of [path, ofDead(path)]) writeFileSync(file, "");
    symlinkSync(path, join(folder, "link.ipynb"));
    clearScraps([join(folder, "missing/b.ipynb"), join(folder, "link.ipynb")]);
    expect(readdirSync(far)).toEqual(["a.ipynb"]);
  });
});

describe("isRunning", () => {
  it("tells a process that runs from one that has ended", () => {
    expect([process.pid, 1, dead].map(isRunning)).toEqual([true, true, false]);
  });
});
