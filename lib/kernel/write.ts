/** Files written whole or not at all: a temporary file in the same folder, flushed to disk, then renamed over the old one. */
import {
  closeSync,
  existsSync,
  fchmodSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readdirSync,
  readFileSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { basename, dirname, join, sep } from "node:path";
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

/**
 * A folder of text files by relative name, all of them or none: written beside it and put in its place. Files of before that are not named
 * go with the old folder. Returns false, and touches nothing, where it already holds exactly these. Throws as {@link writeWhole} does.
 */
export function writeFolder(path: string, files: Readonly<Record<string, string>>): boolean {
  if (holdsExactly(path, files)) return false;
  const fresh = temporaryName(path);
  const old = temporaryName(`${path}.old`);
  try {
    rmSync(fresh, { recursive: true, force: true });
    for (const [name, text] of Object.entries(files)) {
      mkdirSync(dirname(join(fresh, name)), { recursive: true });
      writeFileSync(join(fresh, name), text);
    }
    if (existsSync(path)) renameSync(path, old);
    renameSync(fresh, path);
    return true;
  } catch (error) {
    if (!existsSync(path) && existsSync(old)) renameSync(old, path);
    throw new WorkingsError("write", `cannot write ${basename(path)}: ${whyNotWritten(error)}. The folder on disk is as it was.`, {
      place: path,
    });
  } finally {
    for (const left of [fresh, old]) rmSync(left, { recursive: true, force: true });
  }
}

function holdsExactly(path: string, files: Readonly<Record<string, string>>): boolean {
  if (!existsSync(path)) return false;
  const present = readdirSync(path, { recursive: true, encoding: "utf8" }).filter((name) => statSync(join(path, name)).isFile());
  return (
    present.length === Object.keys(files).length &&
    present.every((name) => readFileSync(join(path, name), "utf8") === files[name.split(sep).join("/")])
  );
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
