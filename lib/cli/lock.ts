/**
 * One run of a book at a time: build/run.lock names the process that runs. The lock of a process that is gone is taken
 * over. Made complete under another name and then linked, so that no other run sees it half-written.
 */
import { existsSync, linkSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { basename, dirname } from "node:path";
import { isRunning, temporaryName } from "../kernel/scraps";
import { whyNotWritten } from "../kernel/write";
import { WorkingsError } from "../quantity/error";

interface Holder {
  readonly pid: number;
  /** When the process began, where the system tells: a number of a dead process may be given again. */
  readonly begun: string;
}

/** Returns what releases the lock. Throws WorkingsError "busy" while another process holds it, "write" where it cannot be made. */
export function lock(path: string): () => void {
  const mine = temporaryName(path);
  const text = `${JSON.stringify({ pid: process.pid, begun: begunAt(process.pid) })}\n`;
  try {
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(mine, text);
    for (let attempt = 0; !linked(mine, path); attempt++) {
      const holder = read(path);
      if (holder !== undefined && (isAlive(holder) || attempt === 5)) throw busy(path, holder.pid);
      takeAway(path, temporaryName(`${path}.old`));
    }
  } catch (error) {
    if (error instanceof WorkingsError) throw error;
    throw new WorkingsError("write", `cannot write ${path}: ${whyNotWritten(error)}. Nothing has been run; every file is as it was.`, {
      place: path,
    });
  } finally {
    if (existsSync(mine)) rmSync(mine, { force: true });
  }
  const release = () => {
    process.off("exit", release);
    if (read(path)?.pid === process.pid) rmSync(path, { force: true });
  };
  process.on("exit", release);
  return release;
}

function busy(path: string, pid: number): WorkingsError {
  return new WorkingsError(
    "busy",
    `process ${pid} is running this book (${basename(dirname(path))}/${basename(path)}); wait until it has ended, or end it, and run again`,
    { place: path },
  );
}

function linked(from: string, to: string): boolean {
  try {
    linkSync(from, to);
    return true;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "EEXIST") return false;
    throw error;
  }
}

/** Two runs may find one stale lock: what is taken away is looked at again, and put back where it is alive after all. */
function takeAway(path: string, aside: string): void {
  try {
    renameSync(path, aside);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "ENOENT") return;
    throw error;
  }
  const holder = read(aside);
  if (holder !== undefined && isAlive(holder)) linked(aside, path);
  rmSync(aside, { force: true });
}

/** Undefined where there is none, or none that a run has written. */
function read(path: string): Holder | undefined {
  try {
    const { pid, begun } = JSON.parse(readFileSync(path, "utf8")) as Partial<Holder>;
    return typeof pid === "number" && typeof begun === "string" ? { pid, begun } : undefined;
  } catch {
    return undefined;
  }
}

function isAlive({ pid, begun }: Holder): boolean {
  return isRunning(pid) && begunAt(pid) === begun;
}

/** Field 22 of Linux' /proc/PID/stat, counted after the name in brackets, which may hold anything; elsewhere "". */
function begunAt(pid: number): string {
  try {
    const text = readFileSync(`/proc/${pid}/stat`, "utf8");
    return text.slice(text.lastIndexOf(")") + 2).split(" ")[19] ?? "";
  } catch {
    return "";
  }
}
