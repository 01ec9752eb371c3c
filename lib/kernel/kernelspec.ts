/**
 * Makes Jupyter find our kernel in a folder of the book, so that nothing outside it is touched: a front end that is
 * started with JUPYTER_PATH naming that folder looks there before it looks in the user's home.
 *
 * The kernel is registered as `tslab`, shown as `TypeScript`, because that is what the notebooks name: they open with our
 * kernel here, with the plain tslab kernel elsewhere, and saving them changes none of their bytes.
 */
import { join } from "node:path";
import { writeWhole } from "./write";

export interface Registered {
  /** What JUPYTER_PATH must name. */
  readonly folder: string;
  /** The kernel.json written. */
  readonly file: string;
  /** False where it was there already. */
  readonly changed: boolean;
}

/** Registers the built kernel script, with the Node that runs now, in `folder`. Throws WorkingsError "write". */
export function registerKernel(folder: string, script: string): Registered {
  const file = join(folder, "kernels/tslab/kernel.json");
  const spec = {
    argv: [process.execPath, script, "--jupyter", "{connection_file}"],
    display_name: "TypeScript",
    language: "typescript",
    interrupt_mode: "signal",
  };
  return { folder, file, changed: writeWhole(file, `${JSON.stringify(spec, null, 1)}\n`) };
}
