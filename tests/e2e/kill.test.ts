/** A run that is killed at any moment: every file is whole, old or new, and the next run puts everything right. */
import { spawn } from "node:child_process";
import { existsSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { setTimeout as sleep } from "node:timers/promises";
import { beforeAll, describe, expect, it } from "vitest";
import { inFull, isFull } from "../full";
import { cli, type Said } from "./commands";
import { design, FaultBook, healthy, opening } from "./fault-book";
import { statesOf } from "./test-book";

const sheets = {
  "01-lamp.ipynb": healthy("lamp"),
  "02-budget.ipynb": [opening("budget"), 'const { P } = sheet.take({ P: ["lamp.P", mW] });\nsheet.publish({ twice: P.plus(P) });'],
  "03-other.ipynb": healthy("other"),
};
/** Every sheet's outputs differ between the two. */
const designs = [design, design.replace("5 V ±2 %", "6 V ±2 %")] as const;
type State = 0 | 1;

const scrap = /(^|\/)\.[^/]+\.part$/;
const record = "build/fresh.json";
const first = "notebooks/01-lamp.ipynb";

let book: FaultBook;
/** What an undisturbed run leaves on either design, but the design itself. */
const whole: Record<string, string>[] = [];
/** How long the quickest undisturbed run took, ms. */
let length = Number.POSITIVE_INFINITY;

function turn(state: State): void {
  book.write("data/design.yaml", designs[state]);
}

/** May be of either design or of one sheet of each, since they are held against the book before they are used: what runs have found, and what they rest on. */
const heldAgainstBook = /^build\/(found\/|unchanged\.json$)/;
const files = () =>
  Object.fromEntries(Object.entries(book.files("data/design.yaml", "build/run.lock")).filter(([name]) => !heldAgainstBook.test(name)));

/** Every file but temporary ones is the old or the new one; of the record, every line. */
function expectWhole(): void {
  const { [record]: freshness, ...others } = Object.fromEntries(Object.entries(files()).filter(([name]) => !scrap.test(name)));
  for (const [name, bytes] of Object.entries(others))
    expect(
      whole.some((state) => state[name] === bytes),
      `${name} is whole`,
    ).toBe(true);
  const sheetsOf = (text = "{}") => (JSON.parse(text) as { readonly sheets?: Record<string, { readonly facts?: object }> }).sheets ?? {};
  const known = whole.map((state) => sheetsOf(state[record]));
  // A sheet that failed has lost none of what its outputs are from.
  for (const [sheet, { facts }] of Object.entries(sheetsOf(freshness)))
    if (facts !== undefined) expect(known.map((state) => state[sheet]?.facts)).toContainEqual(facts);
}

beforeAll(() => {
  book = new FaultBook(sheets);
  for (const state of [0, 1] as const) {
    turn(state);
    const begun = performance.now();
    expect(book.under({}, "run")).toMatchObject({ status: 0, stderr: "" });
    length = Math.min(length, performance.now() - begun);
    whole[state] = files();
  }
  const changing = Object.keys(sheets).map((name) => `notebooks/${name}`);
  for (const name of [...changing, record, "build/results.json"]) expect(whole[0]?.[name], name).not.toBe(whole[1]?.[name]);
}, 120_000);

describe("a run that is killed as it writes", { timeout: 120_000 }, () => {
  /** Runs with the new design until the function of the file system is called for that file: killed just before or after. */
  function killAt(call: "renameSync" | "linkSync", file: string, when: "before" | "after"): void {
    const hook = `const fs = require("fs"), call = fs.${call};
fs.${call} = (from, to) => {
  const die = () => { if (to.endsWith(${JSON.stringify(file)})) process.kill(process.pid, "SIGKILL"); };
  ${when === "before" ? "die(); call(from, to);" : "call(from, to); die();"}
};`;
    book.write("hook.cjs", hook);
    const { status } = book.under({ NODE_OPTIONS: `--require ${JSON.stringify(book.file("hook.cjs"))}` }, "run");
    rmSync(book.file("hook.cjs"));
    expect(status).toBe(null);
    expectWhole();
  }

  it.each([
    // Beside the new file, the second name of the old one.
    ["a notebook", "renameSync", "01-lamp.ipynb", "before", 2],
    ["a notebook and not yet the record of it", "renameSync", "01-lamp.ipynb", "after", 1],
    ["its lock", "linkSync", "run.lock", "before", 1],
  ] as const)(
    "%s leaves only what the next run, back on the earlier design, puts right and cleans up",
    async (_, call, file, when, left) => {
      turn(0);
      expect(await book.run()).toMatchObject({ status: 0, stderr: "" });
      turn(1);
      killAt(call, file, when);
      expect(Object.keys(files()).filter((name) => scrap.test(name))).toHaveLength(left);
      turn(0);
      expect(await book.run()).toMatchObject({ status: 0, stderr: "" });
      expect(files()).toEqual(whole[0]);
    },
  );
});

const seed = Number(process.env.KILL_SEED ?? 20260);

/** Evenly between 0 and 1: the linear congruential generator of Numerical Recipes. */
function random(): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

/** The processes that a process has started; none once it has ended. */
function childrenOf(pid: number): number[] {
  const path = `/proc/${pid}/task/${pid}/children`;
  return existsSync(path) ? readFileSync(path, "utf8").trim().split(" ").filter(Boolean).map(Number) : [];
}

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch {
    return false;
  }
}

interface Killed extends Said {
  /** The moments that met a running process. */
  readonly hits: number;
}

const kernels = new Set<number>();

/** A run whose kernel or own process is killed at some share of a run's length after its start. */
async function disturbed(moments: { readonly kernel?: number; readonly parent?: number }): Promise<Killed> {
  const begun = performance.now();
  const running = spawn(process.execPath, [cli, "run"], { cwd: book.folder });
  const said = { stdout: "", stderr: "" };
  for (const name of ["stdout", "stderr"] as const) running[name].setEncoding("utf8").on("data", (text) => (said[name] += text));
  const over = new Promise<number | null>((resolve) => running.on("close", resolve));
  const isOver = () => running.exitCode !== null || running.signalCode !== null;
  const until = (share: number) => Promise.race([sleep(begun + share * length - performance.now()), over]);
  let hits = 0;
  if (moments.kernel !== undefined) {
    await until(moments.kernel);
    // Before there is a kernel: as soon as there is one.
    while (!isOver() && childrenOf(running.pid as number).length === 0) await sleep(2);
    const [kernel] = childrenOf(running.pid as number);
    if (kernel !== undefined && process.kill(kernel, "SIGKILL")) hits += 1;
  }
  if (moments.parent !== undefined) {
    await until(moments.parent);
    for (const kernel of childrenOf(running.pid as number)) kernels.add(kernel);
    if (!isOver() && running.kill("SIGKILL")) hits += 1;
  }
  const status = await over;
  if (status === 0) length = Math.min(length, performance.now() - begun);
  return { status, ...said, hits };
}

describe(`a run that is killed at random moments (seed ${seed}; KILL_SEED sets another)`, { timeout: 900_000 }, () => {
  const draw = random();
  let state: State = 0;
  /** Each run starts from what the one before has left, on the design on which its first sheet has to change. */
  async function series(moments: number, next: () => Parameters<typeof disturbed>[0], look: (killed: Killed) => void): Promise<void> {
    for (let hits = 0, runs = 0; hits < moments; runs++) {
      expect(runs, "runs that ended before their moment").toBeLessThan(3 * moments);
      state = files()[first] === whole[0]?.[first] ? 1 : 0;
      turn(state);
      const killed = await disturbed(next());
      hits += killed.hits;
      expectWhole();
      expect(killed.stderr).not.toContain("is running this book");
      look(killed);
    }
  }

  it("keeps every file whole, and the next run takes its lock", async () => {
    const next = () => {
      const parent = draw();
      return draw() < 0.8 ? { kernel: parent * draw(), parent } : { parent };
    };
    await series(inFull(45, 5), next, ({ status, hits }) => expect(hits === 0 || status !== 2).toBe(true));
  });

  it.skipIf(!existsSync("/proc/self/task"))("whose kernel alone is killed fails that sheet clearly and finishes the others", async () => {
    const done = "done, outputs changed";
    const expected: Readonly<Record<string, object>> = {
      none: { lamp: done, budget: done, other: done },
      lamp: { lamp: "failed", budget: "not run: it takes from lamp, which failed", other: done },
      budget: { lamp: done, budget: "failed", other: done },
      other: { lamp: done, budget: done, other: "failed" },
    };
    const failures: string[] = [];
    const look = (killed: Killed) => {
      const states = statesOf(killed);
      const failed = Object.keys(states).find((name) => states[name] === "failed");
      expect(states).toEqual(expected[failed ?? "none"]);
      expect(killed.status).toBe(failed === undefined ? 0 : 1);
      if (failed === undefined) return;
      failures.push(failed);
      expect(killed.stderr).toMatch(
        new RegExp(
          `^0\\d-${failed}\\.ipynb[^]*^the kernel's process ended by signal SIGKILL before the sheet was done\nThe notebook is left as it was.`,
          "m",
        ),
      );
    };
    const next = () => {
      for (const [name, bytes] of Object.entries(whole[state === 0 ? 1 : 0] ?? {})) writeFileSync(book.file(name), bytes, "latin1");
      // Sheets run in the last third of a run.
      return { kernel: isFull ? draw() : 0.7 + 0.3 * draw() };
    };
    // What is killed may be the compiler, or a kernel that waits: the sheets run all the same.
    for (let kills = 0; kills < 40 && (kills < inFull(5, 1) || failures.length === 0); kills++) await series(1, next, look);
    expect(failures).not.toEqual([]);
  });

  it("leaves no process behind, and whatever it left, a run gives what an undisturbed one gives", async () => {
    await expect.poll(() => [...kernels].filter(isAlive), { timeout: 10_000 }).toEqual([]);
    for (const own of [state, state === 0 ? 1 : 0] as const) {
      turn(own);
      expect(await book.run()).toMatchObject({ status: 0, stderr: "" });
      expect(files()).toEqual(whole[own]);
      expect(book.has("build/run.lock")).toBe(false);
    }
  });
});
