/**
 * Entry of the kernel's process: `--jupyter FILE` serves a Jupyter front end; otherwise it runs notebooks of the current
 * folder, one after the other, for the parent, reading jobs on descriptor 4 and reporting on descriptor 3.
 */
import { Headless } from "./headless";
import { serveJupyter } from "./jupyter-kernel";
import { endWithParent } from "./watchdog";

/** Library frames may lie between an error and the cell that asked for the work. */
Error.stackTraceLimit = 100;

const [mode, connection] = process.argv.slice(2);
if (mode === "--jupyter" && connection !== undefined) void serveJupyter(connection);
else {
  endWithParent();
  new Headless(mode === "--native" ? "native" : "tslab").next();
}
