/** What one sheet changes in its process, another sheet of the same run does not meet. */
import { spawnSync } from "node:child_process";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { runNotebook } from "../../lib/kernel/host";
import { Kernel } from "../../lib/kernel/kernel";
import { codeCells } from "../../lib/kernel/notebook";
import { bundle, scratch, writeFixture } from "./fixture";

const folder = scratch();
const child = join(folder, "kernel-child.js");
const kernel = new Kernel();
beforeAll(() => bundle(folder, { "kernel-child": "kernel/child.ts", traces: "kernel/traces.ts" }));
afterAll(() => kernel.close());

let count = 0;
async function printed(cell: string): Promise<string> {
  const result = await runNotebook(writeFixture(folder, `${++count}.ipynb`, cell), { child, kernel });
  if (!result.ok) throw new Error(result.error.message);
  return codeCells(result.notebook)
    .flatMap(({ outputs }) => outputs.map((output) => ("text" in output ? output.text : "")))
    .join("");
}

it("a process goes on to the next sheet where nothing has changed, and not where a member of it has", { timeout: 60_000 }, async () => {
  const identity = () => printed("console.log(process.pid)");
  const first = await identity();
  await printed(
    'import * as fs from "fs"; import { EventEmitter } from "events";\nnew EventEmitter().on("x", () => 0); fs.existsSync("x"); process.stdout.write("y"); process.hrtime();',
  );
  expect(await identity()).toBe(first);
  await printed("(process as any).hrtime = () => [0, 0];");
  expect(await identity()).not.toBe(first);
});

/** What is found in a process of its own after it has run the code. */
function left(code: string): string {
  const script = `const { Traces } = require("./traces.js");
process.on("exit", () => 0);
const p = process, load = require, write = load("fs").writeSync, traces = new Traces();
${code};
write(1, String(traces.left()));`;
  return spawnSync(process.execPath, ["-e", script], { cwd: folder, encoding: "utf8" }).stdout;
}

it.each([
  "",
  "p.stdout.isTTY; p.argv.length; p.hrtime(); p.memoryUsage(); p.cwd()",
  "load('events'); load('fs').promises; load('path').posix",
])("nothing is found after what only looks: %s", (code) => {
  expect(left(code)).toBe("undefined");
});

it.each([
  "p.env.LEFT = '1'",
  "p.env = { ...p.env }",
  "p.exitCode = 3",
  "p.chdir('..')",
  "p.umask(0o077)",
  "p.argv.push('left')",
  "p.argv = []",
  "p.execArgv.push('--left')",
  "p.title = 'left'",
  "p.hrtime = () => [0, 0]",
  "p.hrtime.bigint = () => 0n",
  "p.cwd = () => '/left'",
  "p.stdout.write = () => true",
  "p.stdout.left = 1",
  "p.stdout.isTTY = 2",
  "p.stderr.on('left', () => 0)",
  "p.stdin.pause()",
  "p.on('left', () => 0)",
  "const [own] = p.listeners('exit'); p.off('exit', own); p.on('exit', () => 0)",
  "p.left = 1",
  "p.emitWarning = () => 0",
  "p.noDeprecation = true",
  "p.setMaxListeners(99)",
  "p.setUncaughtExceptionCaptureCallback(() => 0)",
  "Object.setPrototypeOf(p, {})",
  "Object.getPrototypeOf(Object.getPrototypeOf(p)).left = 1",
  "load('events').defaultMaxListeners = 3",
  "load('events').EventEmitter.prototype.left = 1",
  "load('fs').promises.readFile = 1",
  "load('path').posix.sep = 'left'",
  "Error.stackTraceLimit = 1",
  "globalThis.left = 1",
  "Array.prototype.left = 1",
  "Math.sin = Math.cos",
])("what this leaves is found: %s", (code) => {
  expect(left(code)).toMatch(/^(a changed|standard input)/);
});
