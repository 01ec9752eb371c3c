/**
 * Three speeds. `npm test` runs what finds nearly every fault in minutes; with WORKINGS_FULL=1, as `.ci/run` sets it, what grows with
 * the sheets of the book, or draws at random, runs on the whole book and in larger number; with WORKINGS_FULL=all, before a release,
 * the page takes every alternative of every decision.
 */
export const isWhole = process.env.WORKINGS_FULL === "all";
export const isFull = isWhole || process.env.WORKINGS_FULL === "1";

/** The larger number in a full run, the smaller one otherwise. */
export const inFull = (all: number, few: number): number => (isFull ? all : few);
