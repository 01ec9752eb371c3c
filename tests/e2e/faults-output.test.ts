/** What a command says when nobody can read it, when it is told to end, and when names hold what a terminal would obey. */
import { spawnSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { constants } from "node:os";
import { beforeAll, describe, expect, it } from "vitest";
import { inFull, isFull } from "../full";
import { cli } from "./commands";
import { design, type FaultBook, healthy, ranBook } from "./fault-book";

const requirement = `requirements:
  strong: { statement: The lamp is bright., limit: ">= 1 mW", judged: worst case }
`;
const answering = [...healthy("lamp"), 'sheet.require(P, "strong");'];
const lamp = (text = design + requirement) => ranBook({ "01-lamp.ipynb": answering }, text);

const commands: Readonly<Record<string, readonly string[]>> = {
  run: ["run"],
  publish: ["publish"],
  check: ["check", "--strict"],
  why: ["why", "lamp.P"],
  vary: ["vary", "high=6 V"],
  reference: ["reference", "--output", "build/physics.html"],
  kernel: ["kernel"],
  help: ["--help"],
};
/** One that starts a kernel, one that reads the book, one that only speaks; in a full run every command. */
const names = isFull ? Object.keys(commands) : ["run", "check", "help"];

/** A line of bash, with the command line as `$0` and its words as `$@`. */
function shell(book: FaultBook, line: string, words: readonly string[], environment: Readonly<Record<string, string>> = {}) {
  const { status, stderr } = spawnSync("bash", ["-c", line, process.execPath, cli, ...words], {
    cwd: book.folder,
    encoding: "utf8",
    env: { ...process.env, ...environment },
    timeout: 120_000,
  });
  return { status, stderr };
}

let book: FaultBook;
beforeAll(async () => {
  book = await lamp();
}, 120_000);

describe("a command whose output does not arrive", { timeout: 240_000 }, () => {
  const full = existsSync("/dev/full");

  it.each(names)("%s ends with 141 where the reader has gone", (name) => {
    const said = shell(book, 'set -o pipefail; "$0" "$@" | true', commands[name] as readonly string[]);
    expect(said).toEqual({ status: 141, stderr: "" });
  });

  it.skipIf(!full).each(names)("%s says that standard output is full, and ends with 2", (name) => {
    const said = shell(book, '"$0" "$@" > /dev/full', commands[name] as readonly string[]);
    expect(said).toEqual({
      status: 2,
      stderr: "standard output took no more: the disk is full; what this command had to say is not complete\n",
    });
  });

  it.skipIf(!full)("that fails does not succeed where its errors cannot be told", () => {
    expect(shell(book, '"$0" "$@" 2> /dev/full', ["why", "lamp.nothing"]).status).toBe(2);
  });
});

const writing = [
  ["publish", "build/lamp.html"],
  ["reference", "build/physics.html"],
] as const;

/** Sends the process a signal just before it opens a file to read or renames one. */
const hook = `const fs = require("node:fs");
for (const name of ["readFileSync", "renameSync"]) {
  const own = fs[name];
  fs[name] = (...args) => {
    if (!hit && args.some((arg) => String(arg).endsWith(process.env.AT))) (hit = true), process.kill(process.pid, process.env.SIGNAL);
    return own(...args);
  };
}
let hit = false;
`;

describe.each(["SIGINT", "SIGTERM"] as const)("%s", { timeout: 240_000 }, (signal) => {
  const expected = 128 + constants.signals[signal];
  const ended = (name: string, at: string) => {
    book.write("build/hook.cjs", hook);
    // A shell tells of a program that a signal ends by the same number that a program gives by itself.
    const environment = { NODE_OPTIONS: `--require ${JSON.stringify(book.file("build/hook.cjs"))}`, AT: at, SIGNAL: signal };
    return shell(book, '"$0" "$@" > /dev/null; exit $?', commands[name] as readonly string[], environment).status;
  };

  it.each(isFull ? ["publish", "check", "vary", "why"] : ["check"])(
    "while %s reads the book ends it with its number, and no file has changed",
    (name) => {
      const before = book.files("build/hook.cjs");
      expect(ended(name, "01-lamp.ipynb")).toBe(expected);
      expect(book.files("build/hook.cjs")).toEqual(before);
    },
  );

  it.each(writing.slice(0, inFull(2, 1)))("while %s writes ends it with its number, and what it wrote is whole", (name, file) => {
    expect(ended(name, file)).toBe(expected);
    expect(Object.keys(book.files()).filter((one) => one.endsWith(".part"))).toEqual([]);
    if (book.has(file)) expect(readFileSync(book.file(file), "utf8").trimEnd()).toMatch(/<\/html>$/);
  });
});

describe("names, notes and units that a terminal would obey", { timeout: 240_000 }, () => {
  it("are shown by every command, in Jupyter's plain text too", async () => {
    const evil = "\\e[2J\\x9b31m\\u202e";
    const text = `${design}${requirement}`
      .replace("meaning: the high rail", `meaning: "the ${evil} rail"`)
      .replace("title: Made up for this test", `title: "Made up ${evil}"`)
      .replace("statement: The lamp is bright.", `statement: "The ${evil} lamp"`);
    const evilBook = await lamp(text);
    const lines = [
      ...Object.values(commands),
      ["run", "--all"],
      ["check", "--json"],
      ["vary", "high=6 V", "--json"],
      ["why", "lamp.\x1b[2J\u202e"],
      ["run", "\x1b[2J"],
      ["vary", "high=6 V\x1b[2J"],
      ["\x1b[2J"],
    ];
    for (const words of lines) {
      const { stdout, stderr } = await evilBook.workings(...words);
      expect(stdout + stderr, words.join(" ")).not.toMatch(/(?![\n\t])[\p{Cc}\p{Bidi_Control}]/u);
    }
    expect((await evilBook.workings("why", "lamp.P")).stdout).toContain("\\u001b[2J\\u009b31m\\u202e");
    const plain = evilBook.notebook("01-lamp.ipynb").cells.flatMap((cell) => (cell.cell_type === "code" ? cell.outputs : []));
    const shown = plain.flatMap((output) => ("data" in output ? [String(output.data["text/plain"])] : [])).join("\n");
    expect(shown).toContain("\\u001b[2J");
    expect(shown).not.toMatch(/(?![\n\t])[\p{Cc}\p{Bidi_Control}]/u);
  });
});
