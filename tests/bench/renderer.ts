/** CPU time of Chromium's renderer processes, by /proc: what other people's load on the machine does not change. Linux only. */
import { readdirSync, readFileSync } from "node:fs";

/** Milliseconds so far of all threads of the renderers that this process has started, the page's and its workers'; undefined where there is no /proc. */
export function rendererTime(): number | undefined {
  try {
    const renderers = readdirSync("/proc").filter((id) => /^\d+$/.test(id) && isRenderer(id));
    return renderers.reduce((sum, id) => sum + tasks(id).reduce((all, task) => all + ticks(`/proc/${id}/task/${task}/stat`), 0), 0) * 10;
  } catch {
    return undefined;
  }
}

function isRenderer(id: string): boolean {
  if (!text(`/proc/${id}/cmdline`).includes("--type=renderer")) return false;
  let parent = id;
  while (Number(parent) > 1 && Number(parent) !== process.pid) parent = fields(`/proc/${parent}/stat`)[1] ?? "0";
  return Number(parent) === process.pid;
}

function tasks(id: string): string[] {
  try {
    return readdirSync(`/proc/${id}/task`);
  } catch {
    return [];
  }
}

/** User and system time in hundredths of a second (proc(5), fields 14 and 15). */
function ticks(path: string): number {
  const all = fields(path);
  return Number(all[11] ?? 0) + Number(all[12] ?? 0);
}

/** The fields behind the name, which may hold spaces. */
function fields(path: string): string[] {
  return text(path).split(") ").at(-1)?.split(" ") ?? [];
}

/** Of a process that has ended, nothing. */
function text(path: string): string {
  try {
    return readFileSync(path, "utf8");
  } catch {
    return "";
  }
}
