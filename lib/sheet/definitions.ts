/**
 * What the cells of a worksheet have defined in this run, by name: a name stands for one thing. A cell that a front end
 * runs again replaces what it defined before, edited or not. Where a front end does not tell its cells apart, nobody knows
 * whether a cell runs again: what is defined later replaces what was there, and the cell's output says so.
 */
import type { WorkingsError } from "../quantity/error";
import { emit, isHeard, type Place, type RunningCell, runningCell } from "./emit";

interface Definition {
  readonly cell: RunningCell | undefined;
  /** Holds the calls that led to the definition; its text is made only when it is asked for. */
  readonly trace: Error | undefined;
}

export class Definitions {
  private readonly known = new Map<string, Definition>();

  constructor(
    private readonly sheet: string,
    private readonly error: (message: string) => WorkingsError,
  ) {}

  /** Notes that the running cell defines `name`, told as `words`. Throws, naming both places, where it stands for something already. */
  note(name: string, words = name): void {
    const cell = runningCell();
    const earlier = this.known.get(name);
    if (earlier !== undefined && earlier.cell?.superseded !== true) this.clash(words, earlier, cell);
    this.known.set(name, { cell, trace: cell?.places === undefined ? undefined : callsHere() });
  }

  private clash(words: string, earlier: Definition, cell: RunningCell | undefined): void {
    const isToldApart = cell?.id !== undefined || (cell !== undefined && cell === earlier.cell);
    if (!isToldApart && isHeard()) {
      emit({ "text/plain": `${this.sheet}: ${words} is defined again; what it stood for before is replaced` });
      return;
    }
    const [first, second] = [placesOf(earlier), placesOf({ cell, trace: callsHere() })];
    const isOneLine = first[0] !== undefined && first[0].cell === second[0]?.cell && first[0].line === second[0]?.line;
    const both = `${words} is defined twice, ${told(first, earlier.cell)} and ${told(second, cell)}`;
    throw this.error(`${both}; ${isOneLine ? apart : "give one of the two another name"}`);
  }
}

const apart =
  'where one helper is called several times, let sheet.each call it, which gives every call names of its own: sheet.each("name", { a, b }, x => helper(x))';

/** Longer than any helper is deep: the outermost call is wanted. */
const depth = 100;

function callsHere(): Error {
  const limit = Error.stackTraceLimit;
  Error.stackTraceLimit = depth;
  const trace = new Error();
  Error.stackTraceLimit = limit;
  return trace;
}

/** Innermost first. */
function placesOf({ cell, trace }: Definition): readonly Place[] {
  return cell?.places?.(trace?.stack ?? "") ?? [];
}

/** `in cell 10, line 3 (called from cell 19, line 1)`. */
function told(places: readonly Place[], cell: RunningCell | undefined): string {
  const [inner, outer] = [places[0], places.at(-1)];
  if (inner === undefined) return cell === undefined ? "in an earlier call" : `in cell ${cell.index}`;
  const isCalled = outer !== undefined && (outer.cell !== inner.cell || outer.line !== inner.line);
  return `in ${placeText(inner)}${isCalled ? ` (called from ${placeText(outer)})` : ""}`;
}

const placeText = ({ cell, line }: Place) => `cell ${cell}, line ${line}`;
