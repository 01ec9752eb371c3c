/** Tasks run at the same time, as many as allowed, each after those that it needs. */

export interface Task {
  readonly name: string;
  /** Tasks that must be done before. Those that are not among the tasks count as done. */
  readonly after: readonly string[];
}

/**
 * Starts the first task in the list that can start, whenever one of `places` (at least 1) is free; `run` is told which, from 0. Resolves
 * when all are done, or when those that run are and `isOver` says that no other shall start. Rejects with the first error of `run`, when
 * no task runs any more.
 */
export async function sideBySide(
  tasks: readonly Task[],
  places: number,
  run: (name: string, place: number) => Promise<void>,
  isOver: () => boolean,
): Promise<void> {
  const open = new Set(tasks.map(({ name }) => name));
  const waiting = [...tasks];
  const running = new Map<number, Promise<void>>();
  let failed: { readonly error: unknown } | undefined;
  const start = (place: number, index: number): void => {
    const [{ name }] = waiting.splice(index, 1) as [Task];
    const end = run(name, place)
      .catch((error: unknown) => {
        failed ??= { error };
      })
      .then(() => {
        open.delete(name);
        running.delete(place);
      });
    running.set(place, end);
  };
  for (;;) {
    for (let place = 0; place < places && failed === undefined && !isOver(); place++) {
      if (running.has(place)) continue;
      const next = waiting.findIndex(({ after }) => !after.some((name) => open.has(name)));
      if (next < 0) break;
      start(place, next);
    }
    if (running.size === 0) break;
    await Promise.race(running.values());
  }
  if (failed !== undefined) throw failed.error;
}
