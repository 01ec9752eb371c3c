/**
 * The part of plotting that needs Vega and Vega-Lite: a bundle of its own (dist/vega.js), loaded on the first
 * plot only, since it costs some 0.4 s.
 */
import type { Spec } from "vega";
import { compile, type TopLevelSpec } from "vega-lite";

export { renderSpec } from "./render";

/** Vega-Lite gives all sets of the process a text of their own in JSON; here only while it compiles. */
const setText = Object.getOwnPropertyDescriptor(Set.prototype, "toJSON");
Reflect.deleteProperty(Set.prototype, "toJSON");

/** Vega-Lite to Vega; datasets keep their names, so that the page can put new rows into them. */
export function compileSpec(spec: TopLevelSpec): Spec {
  if (setText !== undefined) Object.defineProperty(Set.prototype, "toJSON", setText);
  try {
    return compile(spec, { logger: quiet }).spec;
  } finally {
    Reflect.deleteProperty(Set.prototype, "toJSON");
  }
}

interface Quiet {
  level(): Quiet;
  error(): Quiet;
  warn(): Quiet;
  info(): Quiet;
  debug(): Quiet;
}
/** Vega-Lite warns about specifications that are all made here: nothing to tell a reader. */
const quiet: Quiet = { level: () => quiet, error: () => quiet, warn: () => quiet, info: () => quiet, debug: () => quiet };
