/** Files written whole or not at all: a temporary file in the same folder, flushed to disk, then renamed over the old one. */
import {
  closeSync,
  existsSync,
  fchmodSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { basename, dirname } from "node:path";
import { WorkingsError } from "../quantity/error";
import { temporaryName } from "./scraps";

/**
 * Returns false, and touches nothing, when the file already has these bytes. Folders are made as needed; a link is
 * followed; the file's mode is kept. Throws WorkingsError "write" (full disk, read-only folder), the old file unharmed.
 */
export function writeWhole(path: string, content: string | Uint8Array): boolean {
  const bytes = typeof content === "string" ? Buffer.from(content, "utf8") : Buffer.from(content);
  try {
    const target = existsSync(path) ? realpathSync(path) : path;
    if (existsSync(target) && readFileSync(target).equals(bytes)) return false;
    mkdirSync(dirname(target), { recursive: true });
    replace(target, bytes);
    return true;
  } catch (error) {
    throw new WorkingsError("write", `cannot write ${basename(path)}: ${whyNotWritten(error)}. The file on disk is as it was.`, {
      place: path,
    });
  }
}

function replace(target: string, bytes: Buffer): void {
  const temporary = temporaryName(target);
  try {
    const file = openSync(temporary, "w");
    try {
      writeFileSync(file, bytes);
      if (existsSync(target)) fchmodSync(file, statSync(target).mode & 0o777);
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
    renameSync(temporary, target);
  } catch (error) {
    rmSync(temporary, { force: true });
    throw error;
  }
  syncFolder(dirname(target));
}

/** Makes the rename itself durable, where the system lets a folder be opened. */
function syncFolder(folder: string): void {
  try {
    const handle = openSync(folder, "r");
    fsyncSync(handle);
    closeSync(handle);
  } catch {
    // Windows and some network file systems refuse; the contents are on disk either way.
  }
}

const reasons: Readonly<Record<string, string>> = {
  EACCES: "the folder or file may not be written to",
  EPERM: "the folder or file may not be written to",
  EROFS: "the file system is read-only",
  ENOSPC: "the disk is full",
  EDQUOT: "the disk quota is used up",
  EEXIST: "a part of the path is a file, not a folder",
  ENOTDIR: "a part of the path is a file, not a folder",
  EISDIR: "it is a folder",
};

/** What a file system said, in words. */
export function whyNotWritten(error: unknown): string {
  const { code, message } = error as NodeJS.ErrnoException;
  return (code !== undefined && reasons[code]) || message;
}
