/** Kernels over the Jupyter protocol, driven by nbclient: a real tslab kernel, or one that is registered in a folder. */
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
NotebookClient(nb, kernel_name=sys.argv[3], timeout=120, startup_timeout=60, resources={"metadata": {"path": sys.argv[2]}}).execute()
nbformat.write(nb, sys.argv[1])
`;

/** A copy of the notebook executed by a real tslab kernel with `folder` as its working folder; the notebook itself is left alone. */
export function runUnderJupyter(path: string, folder: string): Notebook {
  return within((scratch) => {
    const kernel = join(scratch, "kernels/tslab-test");
    mkdirSync(kernel, { recursive: true });
    const tslab = resolve(__dirname, "../../node_modules/tslab/bin/tslab");
    const argv = [process.execPath, tslab, "kernel", "--config-path={connection_file}"];
    writeFileSync(join(kernel, "kernel.json"), JSON.stringify({ argv, display_name: "tslab", language: "typescript" }));
    return execute(path, folder, "tslab-test", scratch);
  });
}

/** The same with the kernel that the notebook names, as it is registered in the folder `jupyterPath`. */
export function runByItsOwnKernel(path: string, folder: string, jupyterPath: string): Notebook {
  return execute(path, folder, "", jupyterPath);
}

function execute(path: string, folder: string, kernel: string, jupyterPath: string): Notebook {
  return within((scratch) => {
    const copy = join(scratch, "copy.ipynb");
    copyFileSync(path, copy);
    runPython(executeScript, [copy, folder, kernel], jupyterEnvironment(jupyterPath));
    return readNotebook(copy);
  });
}

function within<T>(use: (scratch: string) => T): T {
  const scratch = mkdtempSync(join(tmpdir(), "jupyter-"));
  try {
    return use(scratch);
  } finally {
    rmSync(scratch, { recursive: true, force: true });
  }
}

/** Without the colours that a test runner asks for. */
export function jupyterEnvironment(jupyterPath: string): Record<string, string> {
  const { FORCE_COLOR: _, ...environment } = process.env;
  return { ...(environment as Record<string, string>), JUPYTER_PATH: jupyterPath };
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
