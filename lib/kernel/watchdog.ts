/** Ends this process when its parent is gone: a cell in an endless loop would otherwise run on for ever. */
import { Worker } from "node:worker_threads";

const look = `
const parent = process.ppid;
setInterval(() => { if (process.ppid !== parent) process.kill(process.pid, "SIGKILL"); }, 300);
`;

export function endWithParent(): void {
  // A thread of its own: the main one may be in that loop.
  new Worker(look, { eval: true, resourceLimits: { maxOldGenerationSizeMb: 8 } }).unref();
}
