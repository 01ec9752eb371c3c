/** `workings kernel` registers our Jupyter kernel in the book's build folder; `workings lab` starts Jupyter with it. */
import { spawn, spawnSync } from "node:child_process";
import { statSync } from "node:fs";
import { delimiter, dirname, join, resolve } from "node:path";
import { type Registered, registerKernel } from "../kernel/kernelspec";
import { WorkingsError } from "../quantity/error";
import { findBook } from "../sheet/find-book";
import type { Streams } from "./streams";
import { type Command, exitCodes } from "./usage";

export function kernel({ options }: Command, streams: Streams): number {
  const notebooks = notebooksOf(options.book);
  const { folder, file, changed } = register(notebooks);
  streams.out(
    options.json
      ? `${JSON.stringify({ ok: true, kernel: "tslab", file, jupyterPath: folder, notebooks, changed }, null, 1)}\n`
      : `${file}${changed ? "" : "  as before"}
Notebooks that name the kernel tslab, as those of a book do, run with it in every Jupyter that is started so:
  cd ${quoted(notebooks)} && JUPYTER_PATH=${quoted(folder)} jupyter lab
workings lab does that. In an editor with notebooks of its own, set JUPYTER_PATH before the editor starts.
`,
  );
  return exitCodes.done;
}

/** Runs until Jupyter is shut down from its page, or by Ctrl-C. Throws WorkingsError "usage" where there is no Jupyter. */
export async function lab({ words, options }: Command, streams: Streams, signal: AbortSignal): Promise<number> {
  const notebooks = notebooksOf(options.book);
  const { folder } = register(notebooks);
  const [program, ...args] = findJupyter();
  streams.out(`Jupyter in ${notebooks}; Ctrl-C here ends it\n`);
  const environment = { ...process.env, JUPYTER_PATH: [folder, process.env.JUPYTER_PATH].filter(Boolean).join(delimiter) };
  const code = await finished(program, [...args, ...words], { cwd: notebooks, env: environment }, signal);
  if (signal.aborted) return exitCodes.done;
  if (code !== 0) streams.error(`${[program, ...args].join(" ")} ended with exit code ${code}; what it says above is the reason\n`);
  return code === 0 ? exitCodes.done : exitCodes.failed;
}

/** Not by reading the book: a mistake in book.yaml is no reason not to open its notebooks. */
function notebooksOf(named: string | undefined): string {
  if (named === undefined) return dirname(findBook(process.cwd()));
  const state = statSync(named, { throwIfNoEntry: false });
  if (state === undefined) throw new WorkingsError("usage", `there is no book ${named}`, { place: named });
  return dirname(state.isDirectory() ? findBook(named) : resolve(named));
}

function register(notebooks: string): Registered {
  return registerKernel(join(dirname(notebooks), "build/jupyter"), join(__dirname, "kernel-child.js"));
}

type Words = readonly [program: string, ...args: string[]];
const programs: readonly Words[] = [["jupyter", "lab"], ["jupyter", "notebook"], ["jupyter-notebook"]];

/** `jupyter` may be there without the part that is asked for: only its answer tells. */
function findJupyter(): Words {
  const found = programs.find(([program, ...args]) => spawnSync(program, [...args, "--version"], { stdio: "ignore" }).status === 0);
  if (found !== undefined) return found;
  throw new WorkingsError(
    "usage",
    `none of ${programs.map((words) => `"${words.join(" ")}"`).join(", ")} is on the PATH; install one and run again:
  apt-get install jupyter-notebook   on Debian
  pip install jupyterlab             wherever there is Python
Everything else of the book works without Jupyter: workings run executes the notebooks by itself.`,
  );
}

/** Jupyter asks back on Ctrl-C; the end that was asked for here it is told by SIGTERM, on which it ends its kernels too. */
function finished(
  program: string,
  args: readonly string[],
  setting: { readonly cwd: string; readonly env: NodeJS.ProcessEnv },
  signal: AbortSignal,
): Promise<number | null> {
  return new Promise((resolve, reject) => {
    const child = spawn(program, args, { ...setting, stdio: "inherit" });
    const end = () => void child.kill("SIGTERM");
    if (signal.aborted) end();
    signal.addEventListener("abort", end, { once: true });
    child.on("error", reject);
    child.on("exit", (code) => resolve(code));
  });
}

/** For a POSIX shell. */
const quoted = (text: string) => (/^[\w@%+=:,./-]+$/.test(text) ? text : `'${text.replaceAll("'", "'\\''")}'`);
