/** Runs something that the reader's values may make impossible: undefined then, and the error's message is added to `problems`. */
export function attempt<T>(make: () => T, problems: Set<string>): T | undefined {
  try {
    return make();
  } catch (error) {
    problems.add(error instanceof Error ? error.message : String(error));
    return undefined;
  }
}
