/** A real tslab kernel over the Jupyter protocol, driven by nbclient. */
import { copyFileSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { type Notebook, type Output, readNotebook } from "../../lib/kernel/notebook";
import { python, runPython } from "./python";

export const noJupyter = python === undefined;

const executeScript = `
import nbformat, sys
from nbclient import NotebookClient
nb = nbformat.read(sys.argv[1], as_version=4)
NotebookClient(nb, kernel_name="tslab-test", timeout=120, startup_timeout=60, resources={"metadata": {"path": sys.argv[2]}}).execute()
nbformat.write(nb, sys.argv[1])
`;

/** A copy of the notebook executed with `folder` as the kernel's working folder; the notebook itself is left alone. */
export function runUnderJupyter(path: string, folder: string): Notebook {
  const scratch = mkdtempSync(join(tmpdir(), "jupyter-"));
  try {
    const kernel = join(scratch, "kernels/tslab-test");
    mkdirSync(kernel, { recursive: true });
    const tslab = resolve(__dirname, "../../node_modules/tslab/bin/tslab");
    const argv = [process.execPath, tslab, "kernel", "--config-path={connection_file}"];
    writeFileSync(join(kernel, "kernel.json"), JSON.stringify({ argv, display_name: "tslab", language: "typescript" }));
    const copy = join(scratch, "copy.ipynb");
    copyFileSync(path, copy);
    const { FORCE_COLOR: _, ...environment } = process.env;
    runPython(executeScript, [copy, folder], { ...(environment as Record<string, string>), JUPYTER_PATH: scratch });
    return readNotebook(copy);
  } finally {
    rmSync(scratch, { recursive: true, force: true });
  }
}

/** nbclient 0.7 keeps every message apart; front ends and later versions merge consecutive texts of one stream. */
export function merged(outputs: readonly Output[]): Output[] {
  const result: Output[] = [];
  for (const output of outputs) {
    const last = result.at(-1);
    if (output.output_type === "stream" && last?.output_type === "stream" && last.name === output.name) last.text += output.text;
    else result.push({ ...output });
  }
  return result;
}
