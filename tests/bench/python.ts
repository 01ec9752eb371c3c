/** Peers in Python: found where installed, and asked turn by turn over a pipe, so that their start is not counted. */
import { type ChildProcess, spawn, spawnSync } from "node:child_process";
import { createInterface, type Interface } from "node:readline";
import type { Timed } from "./measure";

const candidates = ["python3", "/usr/bin/python3"];

/** A Python that has the modules. Undefined where there is none; in continuous integration that is an error. */
export function pythonWith(modules: string): string | undefined {
  const found = candidates.find((name) => spawnSync(name, ["-c", `import ${modules}`], { stdio: "ignore" }).status === 0);
  if (found === undefined && process.env.CI === "true") throw new Error(`continuous integration needs Python with ${modules}`);
  return found;
}

/** A Python program that prints a line of JSON, `Timed`, for every line it reads. */
export class PythonPeer {
  readonly #process: ChildProcess;
  readonly #lines: Interface;

  constructor(python: string, script: string, args: readonly string[] = []) {
    this.#process = spawn(python, ["-c", script, ...args], { stdio: ["pipe", "pipe", "inherit"] });
    this.#lines = createInterface({ input: this.#process.stdout as NodeJS.ReadableStream });
  }

  ask(): Promise<Timed> {
    return new Promise((resolve, reject) => {
      this.#process.once("exit", () => reject(new Error("the Python peer ended early")));
      this.#lines.once("line", (line) => resolve(JSON.parse(line) as Timed));
      this.#process.stdin?.write("turn\n");
    });
  }

  close(): void {
    this.#process.removeAllListeners("exit");
    this.#process.stdin?.end();
  }
}
