/** What can go wrong around a run: no kernel, no room on the disk, no folder, another run, Ctrl-C. */
import { type ChildProcess, execFileSync, spawnSync } from "node:child_process";
import { cpSync, existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { inFull } from "../full";
import { testFolder } from "../root";
import { cli } from "./commands";
import { FaultBook, healthy, ranBook } from "./fault-book";

const undo: (() => void)[] = [];
afterAll(() => {
  for (const step of undo.reverse()) step();
});

/** A file system of a few pages in a folder; false where mounting is not allowed. */
function smallDisk(folder: string, kilobytes: number): boolean {
  mkdirSync(folder, { recursive: true });
  if (spawnSync("mount", ["-t", "tmpfs", "-o", `size=${kilobytes}k`, "tmpfs", folder]).status !== 0) return false;
  undo.push(() => spawnSync("umount", [folder]));
  return true;
}

const mounts = (() => {
  const folder = mkdtempSync(join(testFolder, "disk-"));
  const possible = smallDisk(folder, 4);
  if (possible) spawnSync("umount", [folder]);
  undo.length = 0;
  rmSync(folder, { recursive: true });
  return possible;
})();

const ended = (running: ChildProcess) => new Promise<number | null>((resolve) => running.on("exit", resolve));
async function until(condition: () => boolean): Promise<void> {
  for (let wait = 0; !condition(); wait++) {
    if (wait > 600) throw new Error("waited for half a minute in vain");
    await new Promise((resume) => setTimeout(resume, 50));
  }
}
const isAlive = (pid: number) => {
  try {
    process.kill(pid, 0);
    return true;
  } catch {
    return false;
  }
};

/** Tells its process and never ends. */
const looping = ["require('fs').writeFileSync('pid', String(process.pid));\nfor (;;) {}"];

/** A book whose first sheet is stuck in a loop while this returns, having run before as it was healthy. */
async function stuck(): Promise<{ book: FaultBook; running: ChildProcess; child: number; before: Record<string, string> }> {
  const book = await ranBook({ "01-lamp.ipynb": healthy("lamp"), "02-next.ipynb": healthy("next") });
  book.sheet("01-lamp.ipynb", ...looping);
  const before = book.files();
  const running = book.start("run");
  undo.push(() => running.kill("SIGKILL"));
  await until(() => book.has("notebooks/pid") && book.read("notebooks/pid") !== "");
  return { book, running, child: Number(book.read("notebooks/pid")), before };
}

const scraps = ["build/run.lock", "notebooks/pid"];

describe("a run", { timeout: 120_000 }, () => {
  it("whose kernel never starts says why for each sheet, and works again when the kernel does", async () => {
    const dist = mkdtempSync(join(testFolder, "dist-"));
    undo.push(() => rmSync(dist, { recursive: true, force: true }));
    for (const name of ["cli.js", "commands.js"]) cpSync(join(dirname(cli), name), join(dist, name));
    writeFileSync(join(dist, "kernel-child.js"), "throw new Error('no compiler here');");
    const book = await ranBook();
    const before = book.files();
    const { status, stdout, stderr } = spawnSync(process.execPath, [join(dist, "cli.js"), "run", "--all"], {
      cwd: book.folder,
      encoding: "utf8",
    });
    expect({ status, stdout }).toEqual({ status: 1, stdout: expect.stringMatching(/^lamp {2}failed/) });
    expect(stderr).toMatch(
      /^01-lamp\.ipynb\nthe kernel's process ended with exit code 1 before the sheet was done; it said:\n[\s\S]*no compiler here/m,
    );
    // The record notes that the sheet has failed.
    const { "build/fresh.json": _, ...others } = before;
    // What is kept of the design belongs to the program that read it, which is another one here.
    const design = "build/found/the.design.bin";
    expect({ ...book.files("build/fresh.json"), [design]: "" }).toEqual({ ...others, [design]: "" });
    expect(await book.run("--all")).toMatchObject({ status: 0, stderr: "" });
  });

  it("that may not make its build folder says so before anything runs", async () => {
    const book = new FaultBook({ "01-lamp.ipynb": healthy("lamp") });
    book.write("build", "a file where the folder should be");
    const before = book.files();
    const { status, stdout, stderr } = await book.run();
    expect({ status, stdout }).toEqual({ status: 2, stdout: "" });
    expect(stderr).toContain("build/run.lock: a part of the path is a file, not a folder. Nothing has been run; every file is as it was.");
    expect(book.files()).toEqual(before);
    // As of a book that has never run.
    expect((await book.workings("publish", "--output", "build/lamp.html")).status).toBe(1);
    expect(await book.workings("reference", "--output", "build/physics.html")).toMatchObject({
      status: 2,
      stderr: expect.stringContaining("cannot write physics.html: a part of the path is a file, not a folder"),
    });
    expect(book.files()).toEqual(before);
  });

  it.skipIf(!mounts)("on a full disk leaves the notebook that does not fit, runs the others, and heals", async () => {
    const book = new FaultBook({ "02-lamp.ipynb": healthy("lamp") });
    smallDisk(book.file("notebooks/full"), 16);
    book.sheet("full/01-plain.ipynb", "console.log('x'.repeat(30000));");
    const before = book.read("notebooks/full/01-plain.ipynb");
    book.list("full/01-plain.ipynb", "02-lamp.ipynb");
    const { status, stdout, stderr } = await book.run();
    expect(status).toBe(1);
    expect(stdout).toMatch(/^plain +failed.*\nlamp +done, outputs changed/);
    expect(stderr).toContain("cannot write 01-plain.ipynb: the disk is full. The file on disk is as it was.");
    expect(book.read("notebooks/full/01-plain.ipynb")).toBe(before);
    expect(Object.keys(book.files()).filter((name) => name.includes(".part"))).toEqual([]);
    execFileSync("mount", ["-o", "remount,size=1m", book.file("notebooks/full")]);
    expect(await book.run()).toMatchObject({ status: 0, stderr: "" });
  });

  it.skipIf(!mounts)("with no room for its results keeps the notebooks, and says which file is missing", async () => {
    const book = await ranBook();
    const results = book.read("build/results.json");
    rmSync(book.file("build"), { recursive: true });
    smallDisk(book.file("build"), 12);
    book.write("build/results.json", results);
    book.sheet("01-lamp.ipynb", ...healthy("lamp"), "sheet.publish({ V: h.V, I: h.I });");
    const { status, stdout, stderr } = await book.run();
    expect(status).toBe(2);
    expect(stdout).toMatch(/^lamp +done, outputs changed/);
    expect(stderr).toMatch(/cannot write (results|fresh)\.json: the disk is full\. The file on disk is as it was\./);
    expect(book.hasRun("01-lamp.ipynb")).toBe(true);
    expect(book.read("build/results.json")).toBe(results);
    execFileSync("mount", ["-o", "remount,size=1m", book.file("build")]);
    expect(await book.run()).toMatchObject({ status: 0, stderr: "" });
    expect(JSON.parse(book.read("build/results.json")).sheets.lamp).toMatchObject({ V: { value: 5 } });
  });

  it("while another run of the same book is going on says who runs, and takes over when that one was killed", async () => {
    const { book, running, child, before } = await stuck();
    const second = await book.run("--all");
    expect(second).toMatchObject({ status: 2, stdout: "" });
    expect(second.stderr).toBe(
      `process ${running.pid} is running this book (build/run.lock); wait until it has ended, or end it, and run again\n`,
    );
    expect(book.files(...scraps)).toEqual(before);
    running.kill("SIGKILL");
    await ended(running);
    // The child notices by itself, in the middle of its loop.
    await until(() => !isAlive(child));
    book.sheet("01-lamp.ipynb", ...healthy("lamp"));
    expect(await book.run()).toMatchObject({ status: 0, stderr: "" });
    expect(book.has("build/run.lock")).toBe(false);
  });

  it.each((["SIGINT", "SIGTERM"] as const).slice(0, inFull(2, 1)))(
    "ended by %s stops at once, keeps every file and leaves no process or lock",
    async (signal) => {
      const { book, running, child, before } = await stuck();
      running.kill(signal);
      expect(await ended(running)).toBe(signal === "SIGINT" ? 130 : 143);
      expect(isAlive(child)).toBe(false);
      expect(book.has("build/run.lock")).toBe(false);
      expect(book.files(...scraps)).toEqual(before);
    },
  );

  it("takes a lock that names a dead process, another process of the same number, or nothing at all for none", async () => {
    const book = await ranBook();
    const dead = spawnSync(process.execPath, ["-e", ""]).pid;
    const locks = [{ pid: dead, begun: "1" }, ...(existsSync("/proc/1/stat") ? [{ pid: process.pid, begun: "1" }] : []), "half a li"];
    for (const lock of locks) {
      book.write(
        "build/run.lock",
        JSON.stringify(lock)
          .slice(0, -1)
          .concat(typeof lock === "string" ? "" : "}"),
      );
      expect(await book.run()).toMatchObject({ status: 0, stderr: "" });
      expect(existsSync(book.file("build/run.lock"))).toBe(false);
    }
    expect(Object.keys(book.files()).filter((name) => name.includes("lock"))).toEqual([]);
    expect(readFileSync(book.file("build/results.json"), "utf8")).toContain("lamp");
  });
});
