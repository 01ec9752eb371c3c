/**
 * The entry of a record under a name that an author has chosen. A bare `record[name]` would find `constructor` and `toString` in every
 * object.
 */
export function entryOf<T>(record: Readonly<Record<string, T>> | undefined, name: string): T | undefined {
  return record !== undefined && Object.hasOwn(record, name) ? record[name] : undefined;
}
