/**
 * The files of a book's folder, and when one of them changes. What has changed is decided by the state of the files alone; the system's
 * events only say when to look, and where it sends none (a network drive, no watch left) the look at fixed times finds it.
 */
import { type FSWatcher, readdirSync, realpathSync, statSync, watch } from "node:fs";
import { join } from "node:path";
import { passedOver } from "../../kernel/reads";
import { isTemporary } from "../../kernel/scraps";

/** Of every file, by path, what differs once it is saved again: time, size, number of the file. */
export type Stamps = ReadonlyMap<string, string>;

interface Scan {
  readonly stamps: Stamps;
  readonly folders: readonly string[];
}

/** Several files saved at once, or one in several steps, are one change: as long nothing may happen before the next look, ms. */
const quiet = 60;
/** But files that never rest are looked at after this time, ms. */
const longestQuiet = 600;
/** Between two looks without an event, ms; looking takes at most a hundredth of the time. */
const shortestPause = 1_000;

export class WatchedFiles {
  private readonly watchers = new Map<string, FSWatcher>();
  private wake: () => void = () => undefined;
  private pause = shortestPause;

  constructor(private readonly root: string) {}

  /** The files as they are now; from now on events of their folders are heard. */
  stamps(): Stamps {
    const begun = performance.now();
    const { stamps, folders } = scan(this.root);
    this.listen(folders);
    this.pause = Math.max(shortestPause, (performance.now() - begun) * 100);
    return stamps;
  }

  /** Waits until the files differ from `before` and rest, at most `longest` ms. Returns at once when the signal is given. */
  async changed(before: Stamps, signal: AbortSignal, longest = Infinity): Promise<void> {
    const end = performance.now() + longest;
    for (;;) {
      const now = this.stamps();
      if (signal.aborted || differing(before, now).length > 0) return this.rest(now, signal);
      const left = end - performance.now();
      if (left <= 0) return;
      await this.event(Math.min(this.pause, left), signal);
    }
  }

  close(): void {
    for (const watcher of this.watchers.values()) watcher.close();
    this.watchers.clear();
  }

  private async rest(first: Stamps, signal: AbortSignal): Promise<void> {
    const begun = performance.now();
    for (let last = first; !signal.aborted && performance.now() - begun < longestQuiet; ) {
      await new Promise((resolve) => setTimeout(resolve, quiet));
      const now = this.stamps();
      if (differing(last, now).length === 0) return;
      last = now;
    }
  }

  /** An event since the last one that was waited for, or none in `milliseconds`. */
  private event(milliseconds: number, signal: AbortSignal): Promise<void> {
    return new Promise((resolve) => {
      const done = () => {
        clearTimeout(timer);
        signal.removeEventListener("abort", done);
        this.wake = () => undefined;
        resolve();
      };
      const timer = setTimeout(done, milliseconds);
      signal.addEventListener("abort", done, { once: true });
      this.wake = done;
    });
  }

  /** A folder that was removed and made again is another one: its old watcher has ended with an event or an error. */
  private listen(folders: readonly string[]): void {
    for (const [folder, watcher] of this.watchers) {
      if (folders.includes(folder)) continue;
      watcher.close();
      this.watchers.delete(folder);
    }
    for (const folder of folders) if (!this.watchers.has(folder)) this.watch(folder);
  }

  private watch(folder: string): void {
    try {
      const forget = () => {
        watcher.close();
        if (this.watchers.get(folder) === watcher) this.watchers.delete(folder);
        this.wake();
      };
      const watcher = watch(folder, (kind, name) => {
        // Of the folder itself: it has been moved or removed.
        if (kind === "rename" && (name === null || folder.endsWith(name))) forget();
        else this.wake();
      });
      watcher.on("error", forget);
      this.watchers.set(folder, watcher);
    } catch {
      // No watch left, or the folder has just gone: the look at fixed times sees what changes in it.
    }
  }
}

/** Paths that are in one of the two only, or not the same in both. */
export function differing(before: Stamps, after: Stamps): string[] {
  return [...new Set([...before.keys(), ...after.keys()])].filter((path) => before.get(path) !== after.get(path));
}

/** All files below a folder but what a sheet's reading of them is not followed for (packages, build/), and what lies in hidden folders. */
function scan(root: string): Scan {
  const stamps = new Map<string, string>();
  const seen = new Set<string>();
  const folders: string[] = [];
  const visit = (folder: string): void => {
    const real = realpathSync(folder);
    if (seen.has(real)) return;
    seen.add(real);
    folders.push(folder);
    for (const name of readdirSync(folder).sort()) if (!passedOver.has(name) && !isTemporary(name)) tried(() => look(folder, name));
  };
  const look = (folder: string, name: string): void => {
    const path = join(folder, name);
    const state = statSync(path, { bigint: true });
    if (!state.isDirectory()) stamps.set(path, `${state.mtimeNs} ${state.size} ${state.ino}`);
    else if (!name.startsWith(".")) {
      stamps.set(path, "folder");
      visit(path);
    }
  };
  tried(() => visit(root));
  return { stamps, folders };
}

/** What has gone between two calls, or may not be read, is not there. */
function tried(action: () => void): void {
  try {
    action();
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === undefined) throw error;
  }
}
