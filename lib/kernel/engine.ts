/** What executes the cells of notebooks in a headless process: tslab, or the process itself where they come compiled. */
import { compileFailure, throwFailure } from "./failure";
import { NativeRun } from "./native/run";
import { type CellPlaces, scriptName } from "./positions";
import type { DisplayData, Engine, Failure, JobCell } from "./protocol";
import { openTslab } from "./tslab";

/** The cells of one notebook. */
export interface EngineRun {
  readonly maps: ReadonlyMap<string, CellPlaces>;
  /** Undefined when the cell has run to its end. */
  execute(cell: JobCell): Promise<Failure | undefined>;
}

export interface CellEngine {
  open(): EngineRun;
  /** Whether cells have had files of their own compiled: what compiled them remembers those. */
  readonly hasOwnFiles: boolean;
}

type Show = (display: DisplayData, update: boolean) => void;

/** Call once a process. */
export function openEngine(kind: Engine, show: Show): CellEngine {
  return kind === "native" ? nativeEngine(show) : tslabEngine(show);
}

function tslabEngine(show: Show): CellEngine {
  const tslab = openTslab(require);
  tslab.onDisplay((display, update) => show(display, update === true));
  return {
    open() {
      const run = tslab.open();
      const { maps } = run;
      return {
        maps,
        async execute({ cell, source }) {
          const { ok, converted, thrown } = await run.execute(source, scriptName(cell));
          return ok ? undefined : (compileFailure(converted, cell) ?? throwFailure("throw", thrown, { cell, maps }));
        },
      };
    },
    get hasOwnFiles() {
      return tslab.hasOwnFiles;
    },
  };
}

const sink = Symbol.for("workings.display");

function nativeEngine(show: Show): CellEngine {
  Object.assign(globalThis, { [sink]: (display: DisplayData) => show(display, false) });
  return {
    open() {
      const run = new NativeRun();
      const { maps } = run;
      return {
        maps,
        async execute({ cell, compiled, fault }) {
          if (fault !== undefined) return fault;
          if (compiled === undefined) throw new Error(`cell ${cell} came without its script`);
          const thrown = await run.execute(cell, compiled);
          return thrown && throwFailure("throw", thrown.thrown, { cell, maps });
        },
      };
    },
    hasOwnFiles: false,
  };
}
