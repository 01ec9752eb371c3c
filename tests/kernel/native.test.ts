/** Cells run by the process itself say what tslab says: a list of good and bad cells, by both in a full run. */
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { runNotebook } from "../../lib/kernel/host";
import { Kernel } from "../../lib/kernel/kernel";
import { nativeCompiler } from "../../lib/kernel/native/check";
import { NativeCells } from "../../lib/kernel/native/native-cells";
import { codeCells } from "../../lib/kernel/notebook";
import { isFull } from "../full";
import { type CellCase, cellCases } from "./cell-cases";
import { bundle, notebookOf, scratch, writeFixture } from "./fixture";

const folder = scratch();
const child = join(folder, "kernel-child.js");
const compiler = nativeCompiler();
if (compiler === undefined) throw new Error("no native compiler for this machine: npm ci");
const native = new NativeCells(compiler, join(folder, "cells"), "the library of this test");
const kernels = { native: new Kernel(), tslab: new Kernel() };

beforeAll(async () => {
  bundle(folder, { "kernel-child": "kernel/child.ts" });
  await native.check(Object.values(cellCases).map(({ cells }) => notebookOf(...cells)));
}, 120_000);
afterAll(() => {
  for (const kernel of Object.values(kernels)) kernel.close();
});

async function said(cells: readonly string[], engine: keyof typeof kernels) {
  const path = writeFixture(folder, `${engine}.ipynb`, ...cells);
  const own = engine === "native" ? { native } : {};
  const result = await runNotebook(path, { child, kernel: kernels[engine], write: false, ...own });
  if (!result.ok) return { cell: result.error.cell, line: result.error.line, message: result.error.message };
  const outputs = codeCells(result.notebook).flatMap((cell) => cell.outputs);
  return { prints: outputs.map((output) => (output.output_type === "stream" ? [output.text].flat().join("") : "?")).join("") };
}

function expectCase({ prints, fails }: CellCase, got: Awaited<ReturnType<typeof said>>): void {
  if (fails === undefined) expect(got).toEqual({ prints });
  else
    expect(got).toMatchObject({
      cell: fails.cell,
      ...(fails.line !== undefined && { line: fails.line }),
      message: expect.stringContaining(fails.says),
    });
}

describe(`${Object.keys(cellCases).length} notebooks of cells`, { timeout: 60_000 }, () => {
  it.each(Object.entries(cellCases))("run without tslab: %s", async (_, one) => {
    expectCase(one, await said(one.cells, "native"));
  });

  it.runIf(isFull).each(Object.entries(cellCases).filter(([, { refused }]) => refused === undefined))("under tslab: %s", async (_, one) => {
    expectCase(one, await said(one.cells, "tslab"));
  });
});
