/** Markdown whose quotes, lists or emphases stand in one another without end. */
import { excerpt } from "../quantity/characters";
import { WorkingsError } from "../quantity/error";

/** What `read` makes of a Markdown text. Throws WorkingsError "notebook" where the text is nested deeper than readers of its tree can go. */
export function withinDepth<T>(source: string, read: () => T): T {
  try {
    return read();
  } catch (error) {
    // Its readers call themselves once a level, and some thousand levels are the end of the stack: nobody reads so many.
    if (!(error instanceof RangeError)) throw error;
    const sentence = `the text "${excerpt(source.trim().replace(/\s+/g, " "))}" has too many quotes, lists or marks inside one another; write it flatter`;
    throw new WorkingsError("notebook", sentence);
  }
}
