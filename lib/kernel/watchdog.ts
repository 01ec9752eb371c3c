/** Ends this process when its parent is gone: a cell in an endless loop would otherwise run on for ever. */
import { Worker } from "node:worker_threads";

const look = `
const { workerData: parent } = require("node:worker_threads");
setInterval(() => { if (process.ppid !== parent) process.kill(process.pid, "SIGKILL"); }, 300);
`;

export function endWithParent(): void {
  // A thread of its own: the main one may be in that loop. The parent is read here: it may be gone before the thread has begun.
  new Worker(look, { eval: true, workerData: process.ppid, resourceLimits: { maxOldGenerationSizeMb: 8 } }).unref();
}
