/** `workings compare` through the command line: folders, git revisions, results files; what it refuses; what it leaves alone. */
import { spawnSync } from "node:child_process";
import { copyFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { design, FaultBook, opening } from "./fault-book";

const withRequirement = design.replace(
  "givens:\n",
  'requirements:\n  heat: { statement: Stays cool., limit: "<= 12 mW", judged: worst case, source: own }\ngivens:\n',
);
const cells = [
  opening("lamp"),
  'const h = sheet.given({ V: ["high", volt], I: ["current", mA] });\nconst P = sheet.derive("P = V*I", h, mW, "power");\nsheet.require(P, "heat");\nsheet.publish({ P: P });',
];

class Repository extends FaultBook {
  git(...words: readonly string[]): string {
    const { stdout, status, stderr } = spawnSync("git", ["-c", "user.name=Test", "-c", "user.email=test@example.org", ...words], {
      cwd: this.folder,
      encoding: "utf8",
    });
    if (status !== 0) throw new Error(stderr);
    return stdout;
  }

  commit(): void {
    this.git("add", "-A");
    this.git("commit", "-q", "-m", "a revision");
  }
}

async function committed(): Promise<Repository> {
  const book = new Repository({ "01-lamp.ipynb": cells }, withRequirement);
  book.write(".gitignore", "build/\n");
  expect(await book.run()).toMatchObject({ status: 0, stderr: "" });
  book.git("init", "-q");
  book.commit();
  return book;
}

describe("workings compare", { timeout: 240_000 }, () => {
  it("compares commits, the work tree and results files, and touches nothing", async () => {
    const book = await committed();
    copyFileSync(book.file("build/results.json"), book.file("before.json"));
    expect(await book.workings("compare", "HEAD", ".")).toMatchObject({ status: 0, stderr: "" });
    // At most 5.1 V · 2.2 mA = 11.22 mW; with 6 V 6.12 V · 2.2 mA = 13.464 mW.
    book.write("data/design.yaml", withRequirement.replace("5 V ±2 %", "6 V ±2 %"));

    const stale = await book.workings("compare", "HEAD", ".");
    expect(stale.status).toBe(1);
    expect(stale.stdout).toContain(". is not fresh: lamp: given high has changed in the design file");
    expect(stale.stdout).toMatch(/^ {2}heat {2}holds → not judged/m);

    expect((await book.run()).status).toBe(0);
    const before = [book.files(), book.git("status", "--porcelain"), book.git("ls-files", "--stage")];
    const worse = await book.workings("compare", "HEAD", ".");
    expect(worse).toMatchObject({ status: 1, stderr: "" });
    expect(worse.stdout).toContain("1 verdict got worse (heat); 1 result moved; changed: given high");
    expect(worse.stdout.replaceAll("\u00a0", " ")).toMatch(/^ {2}heat {2}holds → does not hold {2}0\.78 mW → −1\.464 mW/m);
    expect((await book.workings("compare", ".", "HEAD")).status).toBe(0);
    const data = JSON.parse((await book.workings("compare", "HEAD", ".", "--json")).stdout);
    expect(data).toMatchObject({ ok: false, worse: ["heat"], results: [{ name: "lamp.P", carriers: [{ name: "high" }] }] });
    expect(await book.workings("compare", "before.json", "build/results.json")).toMatchObject({ status: 1 });
    expect([book.files(), book.git("status", "--porcelain"), book.git("ls-files", "--stage")]).toEqual(before);

    // Committed without a run on record of it in another place: the outputs agree with the design.
    book.commit();
    const clone = new FaultBook({});
    book.git("clone", "-q", ".", clone.file("copy"));
    const cloned = await book.workings("compare", "HEAD~1", clone.file("copy"));
    expect(cloned.status).toBe(1);
    expect(cloned.stdout).toContain("HEAD~1: no run on record of lamp; the outputs agree with the design file");
    expect(cloned.stdout).toContain("copy: no run on record of lamp;");

    // A commit whose outputs are of another design than it holds.
    book.write("data/design.yaml", withRequirement.replace("5 V ±2 %", "7 V ±2 %"));
    book.commit();
    const wrong = await book.workings("compare", "HEAD~1", "HEAD");
    expect(wrong.status).toBe(1);
    expect(wrong.stdout).toContain("HEAD is not fresh: lamp: its outputs hold another high than the design file");
    expect(wrong.stdout).toMatch(/^ {2}heat {2}does not hold → not judged/m);
  });

  it("refuses what it cannot compare, with exit code 2", async () => {
    const book = await committed();
    book.write("both", "{}");
    book.git("branch", "both");
    book.write("list.json", "[]");
    for (const [words, message] of [
      [["compare", "HEAD"], "compare takes two revisions"],
      [["compare", "HEAD", "no-such-thing"], '"no-such-thing" is no file, no folder, and no git revision'],
      [["compare", "both", "HEAD"], '"both" is a path and a git revision'],
      [["compare", "list.json", "HEAD"], "list.json is no results file"],
      [["compare", "HEAD", ".", "--markdown", "--json"], "Markdown or JSON, not both"],
    ] as const) {
      const { status, stderr } = await book.workings(...words);
      expect([words, status]).toEqual([words, 2]);
      expect(stderr).toContain(message);
    }
  });
});
