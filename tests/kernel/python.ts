/** Python with nbformat and nbclient, against which the files and outputs are compared. */
import { execFileSync, spawnSync } from "node:child_process";

const candidates = ["python3", "/usr/bin/python3", "python"];

/** A Python that has the modules. Undefined where there is none; under CI that is an error. */
export const python: string | undefined = find();

function find(): string | undefined {
  const found = candidates.find((name) => spawnSync(name, ["-c", "import nbformat, nbclient"], { stdio: "ignore" }).status === 0);
  if (found === undefined && process.env.CI !== undefined && process.env.CI !== "false") {
    throw new Error("CI needs Python with nbformat and nbclient: apt-get install python3-nbformat python3-nbclient");
  }
  return found;
}

export function runPython(script: string, args: readonly string[], environment: Readonly<Record<string, string>> = {}): string {
  return execFileSync(python as string, ["-c", script, ...args], {
    encoding: "utf8",
    env: { ...process.env, ...environment },
    stdio: ["ignore", "pipe", "pipe"],
  });
}
