/**
 * What the parent and the kernel's process say to each other: a job, one line of JSON, on the child's file descriptor 4,
 * answered by one JSON message a line on its descriptor 3. That pipe is written synchronously, so that what a cell printed
 * is not lost when it exits the process, exhausts memory or never returns.
 */
import type { Keeping } from "./kept";
import type { JsonObject } from "./python-json";
import type { Purposes, ReadFiles } from "./reads";

export type Engine = "native" | "tslab";

export interface JobCell {
  /** 1-based among the notebook's code cells. */
  readonly cell: number;
  readonly id: string;
  readonly source: string;
  /** Compiled beforehand, where the process runs cells without tslab. */
  readonly compiled?: CompiledCell;
  /** What the compiler says against the cell: it does not run, nor does any after it. */
  readonly fault?: Failure;
}

/** A cell as the script that runs without tslab. */
export interface CompiledCell {
  readonly code: string;
  /** Source map from the script to the cell's module. */
  readonly map: string;
  readonly isAsync: boolean;
}

export interface Job {
  /** File name of the notebook. */
  readonly notebook: string;
  readonly cells: readonly JobCell[];
  /** How long timers and promises may keep a sheet open after its last cell, ms. */
  readonly grace: number;
  /** Where the book's design is kept as it was read. */
  readonly design?: Keeping;
  /** Where to keep what the sheet's evaluation has found. */
  readonly keep?: Keeping;
  /** Whether nothing that was kept before is used. */
  readonly anew?: boolean;
  /** Folder of the book: what the sheet reads of it is reported. */
  readonly root?: string;
}

/** What a sheet has asked of the design and read from the disk. */
export interface Used {
  readonly asked: readonly string[];
  readonly files: ReadFiles;
  readonly purposes: Purposes;
}

export interface DisplayData {
  readonly data: JsonObject;
  readonly metadata: JsonObject;
  readonly transient?: { readonly display_id?: string };
}

/** A place in a cell's source, both 1-based. */
interface Position {
  readonly cell: number;
  readonly line: number;
  readonly column: number;
}

export interface Frame extends Position {
  /** Name of the function, "" at the top of a cell. */
  readonly name: string;
}

export type FailureKind =
  | "compile"
  | "throw"
  | "exit"
  | "stalled"
  | "rejection"
  | "timeout"
  | "death"
  | "output"
  | "changed"
  | "write"
  | "read"
  | "interrupted";

export interface Failure {
  readonly kind: FailureKind;
  readonly cell?: number;
  readonly line?: number;
  readonly column?: number;
  readonly message: string;
  /** Outermost last; only frames that lie in cells. */
  readonly trace?: readonly Frame[];
}

/** File descriptors of the child. */
export const channel = 3;
export const jobs = 4;

export type Message =
  | { readonly type: "cell"; readonly cell: number }
  | { readonly type: "stream"; readonly name: "stdout" | "stderr"; readonly text: string }
  | { readonly type: "display"; readonly display: DisplayData; readonly update: boolean }
  | { readonly type: "settling" }
  | { readonly type: "failed"; readonly failure: Failure; readonly again: boolean }
  // `again`: the process is as it was, and waits for another job.
  | { readonly type: "done"; readonly warnings: readonly string[]; readonly used: Used; readonly again: boolean };
