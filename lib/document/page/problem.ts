/** Runs something that may not be computable with the reader's values; undefined then, and the message is collected. */
export function problem<T>(make: () => T, problems: Set<string>): T | undefined {
  try {
    return make();
  } catch (error) {
    problems.add(error instanceof Error ? error.message : String(error));
    return undefined;
  }
}
