/** Temporary files: their names, and how those of a run that was killed are found and removed. */
import { existsSync, readdirSync, realpathSync, rmSync } from "node:fs";
import { basename, dirname, join } from "node:path";

const pattern = /^\..+\.(\d+)\.part$/;

/** In the folder of the file that it will become, so that it can be renamed; hidden; of this process alone. */
export function temporaryName(path: string): string {
  return join(dirname(path), `.${basename(path)}.${process.pid}.part`);
}

/** Whether a file's name is that of a temporary file, of whatever process. */
export function isTemporary(name: string): boolean {
  return pattern.test(name);
}

/** Removes the temporary files beside the files named whose processes have ended. One that cannot be removed harms nobody. */
export function clearScraps(files: readonly string[]): void {
  const folders = files.map((path) => dirname(existsSync(path) ? realpathSync(path) : path));
  for (const folder of new Set(folders)) {
    try {
      clear(folder);
    } catch {
      // Whoever may not read or change the folder is told so when a file in it is to be written.
    }
  }
}

function clear(folder: string): void {
  for (const name of readdirSync(folder)) {
    const pid = pattern.exec(name)?.[1];
    if (pid !== undefined && !isRunning(Number(pid))) rmSync(join(folder, name), { force: true });
  }
}

/** Whether a process of this number exists. */
export function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === "EPERM";
  }
}
