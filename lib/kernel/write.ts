/** Files written whole or not at all: a temporary file in the same folder, flushed to disk, then renamed over the old one. */
import {
  closeSync,
  existsSync,
  fchmodSync,
  fsyncSync,
  linkSync,
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
    throw notWritten(path, error, "file");
  }
}

/**
 * Writes a file as {@link writeWhole} does, if it still has the bytes that it had when it was read. Otherwise throws WorkingsError
 * "changed", and the file is as whoever saved it has left it.
 *
 * Between the last look and the rename another program may save. Where it writes into the old file, the second name that the old file has
 * here brings its text back. What remains: a program that puts a file of its own in the place, by a rename between the last look and
 * ours (some ten microseconds), or that had opened the file before and writes after. No system that Node runs on offers a rename
 * under the condition that nothing has changed.
 */
export function writeUnchanged(path: string, before: Uint8Array, content: string): boolean {
  const target = existsSync(path) ? realpathSync(path) : path;
  const bytes = Buffer.from(content, "utf8");
  const old = temporaryName(`${target}.old`);
  const asBefore = (file: string) => existsSync(file) && readFileSync(file).equals(before);
  const changed = new WorkingsError("changed", `${basename(path)} was saved by another program meanwhile`, { place: path });
  try {
    if (!asBefore(target)) throw changed;
    if (bytes.equals(before)) return false;
    replace(target, bytes, () => {
      const named = linked(target, old);
      if (!asBefore(target)) throw changed;
      return () => {
        if (!named || asBefore(old)) return;
        renameSync(old, target);
        throw changed;
      };
    });
    return true;
  } catch (error) {
    if (error instanceof WorkingsError) throw error;
    throw notWritten(path, error, "file");
  } finally {
    rmSync(old, { force: true });
  }
}

/** False on file systems that know one name a file. */
function linked(path: string, second: string): boolean {
  try {
    rmSync(second, { force: true });
    linkSync(path, second);
    return true;
  } catch {
    return false;
  }
}

/**
 * A folder of files by relative name, all of them or none: written beside it and put in its place. Files of before that are not named
 * go with the old folder. Returns false, and touches nothing, where it already holds exactly these. Throws as {@link writeWhole} does.
 */
export function writeFolder(path: string, files: Readonly<Record<string, string | Uint8Array>>): boolean {
  if (holdsExactly(path, files)) return false;
  const fresh = temporaryName(path);
  const old = temporaryName(`${path}.old`);
  try {
    rmSync(fresh, { recursive: true, force: true });
    for (const [name, content] of Object.entries(files)) {
      mkdirSync(dirname(join(fresh, name)), { recursive: true });
      writeFileSync(join(fresh, name), content);
    }
    if (existsSync(path)) renameSync(path, old);
    renameSync(fresh, path);
    return true;
  } catch (error) {
    if (!existsSync(path) && existsSync(old)) renameSync(old, path);
    throw notWritten(path, error, "folder");
  } finally {
    for (const left of [fresh, old]) rmSync(left, { recursive: true, force: true });
  }
}

function holdsExactly(path: string, files: Readonly<Record<string, string | Uint8Array>>): boolean {
  if (!existsSync(path)) return false;
  const present = readdirSync(path, { recursive: true, encoding: "utf8" }).filter((name) => statSync(join(path, name)).isFile());
  return (
    present.length === Object.keys(files).length &&
    present.every((name) => {
      const content = files[name.split(sep).join("/")];
      return content !== undefined && readFileSync(join(path, name)).equals(Buffer.from(content as string));
    })
  );
}

function notWritten(path: string, error: unknown, what: "file" | "folder"): WorkingsError {
  return new WorkingsError("write", `cannot write ${basename(path)}: ${whyNotWritten(error)}. The ${what} on disk is as it was.`, {
    place: path,
  });
}

/** `before` is called just before the rename, and what it returns just after. */
function replace(target: string, bytes: Buffer, before: () => () => void = () => () => undefined): void {
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
    const after = before();
    renameSync(temporary, target);
    after();
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
